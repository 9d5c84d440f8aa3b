"""Slips against what wear can do: metal added, a flange that grows, a jump, a back-to-back that moved."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable

from .figures import exact, like
from .ground import SEEN_FROM, Ground, Neighbor, Slip, Slips, figures_changed
from .readings import Reading, Spot

Change = tuple[Reading, Spot, str]
_LARGEST = 4.0  # times what can just be seen


def measure(ground: Ground, changes: Iterable[Change], reach: int = 1) -> tuple[float, float, list[Neighbor]]:
    """Of the figures as changed: the smallest distance over what can be seen, told as size and threshold."""
    worst, compared = (float("inf"), 1.0), []
    for reading, spot, text in changes:
        new = exact(text)
        earlier, later = ground.neighbors(reading, spot, reach)
        for one in [*earlier, *later, Neighbor(reading, spot, ground.seen_from(reading, reading))]:
            size = abs(float((new if new is not None else spot.exact) - one.spot.exact))
            if size / one.seen_from < worst[0] / worst[1]:
                worst = size, one.seen_from
        compared += earlier + later
    return worst[0], worst[1], compared


def shifted(
    ground: Ground,
    kind: str,
    quantities: tuple[str, ...],
    toward: int,
    why: str,
    allowance: Callable[[Ground, Reading, Spot], float | None],
) -> Slips:
    """Readings raised or lowered past all they are compared with, by what can be seen and more."""
    for reading in ground.drawn(*quantities):
        if not ground.is_quiet(reading, 0 if allowance is steps_so_far else -toward):
            continue
        factor = ground.rng.uniform(1.0, _LARGEST)
        spots = list(reading.spots)
        if len(spots) > 1 and ground.rng.random() < 0.5:
            spots = [ground.rng.choice(spots)]
        changes = []
        for spot in spots:
            beside = ground.beside(reading, spot)
            more = allowance(ground, reading, spot)
            if more is None:
                break
            ends = [spot.exact, *(one.spot.exact for one in beside)]
            base = float(max(ends) if toward > 0 else min(ends))
            target = base + toward * (more + factor * max(one.seen_from for one in beside))
            step = ground.instruments[reading.instrument].resolution
            changes.append((reading, spot, like(spot.text, target, step, toward)))
        if len(changes) == len(spots) and all(_within_range(ground, *change) for change in changes):
            size, seen_from, compared = measure(ground, changes)
            if size >= seen_from:
                yield figures_changed(ground, kind, changes, why, compared, size=size, seen_from=seen_from)


def _within_range(ground: Ground, reading: Reading, spot: Spot, text: str) -> bool:
    one, new = ground.instruments[reading.instrument], exact(text)
    return new is not None and one.low < float(new) < one.high


def nothing_more(_ground: Ground, _reading: Reading, _spot: Spot) -> float | None:
    """No more than the uncertainty."""
    return 0.0


def steps_so_far(ground: Ground, reading: Reading, spot: Spot) -> float | None:
    """Twice the largest step that the series has shown: what the known rate could explain."""
    earlier, later = ground.neighbors(reading, spot, 50)
    if len(earlier) < 2:
        return None
    line = [one.spot.exact for one in [*reversed(earlier), *later]]
    return 2 * max(abs(float(one - other)) for one, other in itertools.pairwise(line))


def tread_wear(ground: Ground, reading: Reading, _spot: Spot) -> float | None:
    """How far the flange height rose within two readings either side: the most that geometry could add."""
    heights = [
        float(spot.exact)
        for one in ground.readings
        if one.quantity == "flange_height"
        and one.wheel == reading.wheel
        and abs((one.day - reading.day).days) < 500
        for spot in one.spots
    ]
    return max(heights) - min(heights) if len(heights) > 1 else None


def metal_added(ground: Ground) -> Slips:
    """A thickness, diameter or journal larger than before, with no work between."""
    kinds = ("tire_thickness", "rim_thickness", "tread_diameter", "journal_diameter")
    why = "larger than before and after, and no turning or new part is on record between: wear adds no metal"
    yield from shifted(ground, "metal-added", kinds, +1, why, nothing_more)


def flange_height_falling(ground: Ground) -> Slips:
    """A flange height lower than before: as the tread wears it can only rise."""
    why = "lower than before and after: as a tread wears its flange height rises"
    yield from shifted(ground, "flange-height-falling", ("flange_height",), -1, why, nothing_more)


def flange_thickness_rising(ground: Ground) -> Slips:
    """A flange thicker than before by more than the tread's wear could make it read."""
    why = "thicker than before by more than the whole wear of the tread could make it read"
    yield from shifted(ground, "flange-thickness-rising", ("flange_thickness",), +1, why, tread_wear)


def jump_beyond_wear_rate(ground: Ground) -> Slips:
    """Wear in one step that is far beyond every step before it."""
    lowered = ("tire_thickness", "rim_thickness", "tread_diameter", "flange_thickness", "journal_diameter")
    why = "worn by far more than twice the largest step of this series; the next reading does not follow"
    down = shifted(ground, "jump-beyond-wear-rate", lowered, -1, why, steps_so_far)
    up = shifted(ground, "jump-beyond-wear-rate", ("flange_height", "tread_hollow"), +1, why, steps_so_far)
    first, second = ground.shuffled([down, up])
    yield from first
    yield from second


def back_to_back_moved(ground: Ground) -> Slips:
    """All three places of a back-to-back wider, or narrower, in the same hold."""
    for reading in ground.drawn("back_to_back"):
        if not reading.hold or len(reading.spots) < 3 or not ground.is_quiet(reading):
            continue
        toward, one = ground.rng.choice((-1, 1)), ground.instruments[reading.instrument]
        beside = [(spot, mate) for spot in reading.spots for mate in ground.beside(reading, spot)]
        least = max(mate.seen_from + abs(float(spot.exact - mate.spot.exact)) for spot, mate in beside)
        shift = toward * least * ground.rng.uniform(1.0, _LARGEST)
        if one.one_turn and abs(abs(shift) - one.one_turn) < 2 * least:
            continue  # would read as a turn of the micrometer
        changes = [
            (reading, spot, like(spot.text, float(spot.exact) + shift, one.resolution, toward))
            for spot in reading.spots
        ]
        size, seen_from, compared = measure(ground, changes)
        why = (
            "moved at every place of the axle within one hold and clock position: nothing but metal moves it"
        )
        if size >= seen_from and all(_within_range(ground, *change) for change in changes):
            yield figures_changed(
                ground, "back-to-back-moved", changes, why, compared, size=size, seen_from=seen_from
            )


def too_small(ground: Ground) -> Slips:
    """The same slips below what the instruments can show: nobody can see them."""
    names = {
        "tire_thickness": "metal-added",
        "rim_thickness": "metal-added",
        "tread_diameter": "metal-added",
        "journal_diameter": "metal-added",
        "flange_height": "flange-height-falling",
        "flange_thickness": "flange-thickness-rising",
        "back_to_back": "back-to-back-moved",
    }
    for reading in ground.drawn(*names):
        if not ground.is_quiet(reading):
            continue
        kind = names[reading.quantity]
        toward = -1 if kind == "flange-height-falling" else 1
        spots = reading.spots if kind == "back-to-back-moved" else (ground.rng.choice(reading.spots),)
        step = ground.instruments[reading.instrument].resolution
        changes = [
            (r, s, like(s.text, float(s.exact) + toward * step, step)) for r in (reading,) for s in spots
        ]
        slip = _if_unseen(ground, kind, changes)
        if slip is not None:
            yield slip


def _if_unseen(ground: Ground, kind: str, changes: list[Change]) -> Slip | None:
    """The slip, where every figure stays below the threshold against all near it."""
    largest, threshold, compared = 0.0, 1.0, []
    for reading, spot, text in changes:
        new = exact(text)
        if new is None or new == spot.exact:
            return None
        mates = ground.beside(reading, spot, 2)
        for one in mates:
            size = abs(float(new - one.spot.exact))
            if size >= one.seen_from:
                return None
            if size / one.seen_from >= largest / threshold:
                largest, threshold = size, one.seen_from
        compared += mates
    why = (
        f"too small to be seen: below {SEEN_FROM:g} combined standard uncertainties of the readings compared"
    )
    return figures_changed(ground, kind, changes, why, compared, size=largest, seen_from=threshold)
