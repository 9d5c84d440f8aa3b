"""Slips of the pen, the ear and the thimble: the figure itself is written or read wrong."""

from __future__ import annotations

import itertools
import re
from fractions import Fraction

from .figures import INCH, MILLIMETER, exact, in_fractions, like, number_and_rest
from .ground import Ground, Neighbor, Slip, Slips, figures_changed
from .kinds_wear import Change, measure
from .readings import Reading, Spot

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def _near(ground: Ground, reading: Reading, spot: Spot) -> list[Neighbor]:
    """What one figure is compared with: the days before and after, and else its fellows round the wheel."""
    beside = ground.beside(reading, spot)
    if beside:
        return beside
    seen_from = ground.seen_from(reading, reading)
    return [Neighbor(reading, one, seen_from) for one in reading.spots if one is not spot]


def _one_figure(ground: Ground, kind: str, reading: Reading, spot: Spot, new: str, why: str) -> Slip | None:
    """The slip at one position, where it can be seen against everything near it."""
    value, beside = exact(new), _near(ground, reading, spot)
    if value is None or not beside:
        return None
    own = Neighbor(reading, spot, ground.seen_from(reading, reading))
    sizes = [(abs(float(value - one.spot.exact)), one.seen_from) for one in [*beside, own]]
    size, seen_from = min(sizes, key=lambda pair: pair[0] / pair[1])
    if size < seen_from:
        return None
    compared = [one for one in beside if one.reading is not reading]
    return figures_changed(
        ground, kind, [(reading, spot, new)], why, compared, size=size, seen_from=seen_from
    )


def _consistent(ground: Ground, reading: Reading, spot: Spot) -> bool:
    """Whether the figure as it stands agrees with what it is compared with."""
    beside = _near(ground, reading, spot)
    return bool(beside) and all(abs(float(spot.exact - one.spot.exact)) < one.seen_from for one in beside)


def units_mixed(ground: Ground) -> Slips:
    """The millimeters of a length typed as inches, or the inches as millimeters: 25.4 times off."""
    for reading in ground.drawn():
        spot = ground.rng.choice(reading.spots)
        if not _consistent(ground, reading, spot):
            continue
        rest = number_and_rest(spot.text)[1]
        if "mm" in rest:
            new = f"{number_and_rest(spot.text)[0]} in"
        elif ground.rng.random() < 0.5:
            new = f"{float(spot.exact / MILLIMETER):.1f}{rest}"
        else:
            new = f"{number_and_rest(spot.text)[0]} mm"
        slip = _one_figure(
            ground,
            "units-mixed",
            reading,
            spot,
            new,
            "25.4 times too large or too small: mm and inches mixed",
        )
        if slip is not None:
            yield slip


def fraction_lost(ground: Ground) -> Slips:
    """`1 1/2` becomes `1/2`, or `1`: the part before or after the gap is lost."""
    for reading in ground.drawn():
        spot = ground.rng.choice(reading.spots)
        found = re.fullmatch(r"([0-9]+)[ -]([0-9]+/[0-9]+)", number_and_rest(spot.text)[0])
        if found is None or not _consistent(ground, reading, spot):
            continue
        left = found[2] if ground.rng.random() < 0.6 else found[1]
        why = f"`{left}` is what is left of a mixed fraction like those before it"
        slip = _one_figure(ground, "fraction-lost", reading, spot, left + number_and_rest(spot.text)[1], why)
        if slip is not None:
            yield slip


def fraction_became_date(ground: Ground) -> Slips:
    """A spreadsheet took `1/16` for a day and gave back a date."""
    for reading in ground.drawn():
        spot = ground.rng.choice(reading.spots)
        found = re.fullmatch(r"([0-9]+)/([0-9]+)", number_and_rest(spot.text)[0])
        if found is None or int(found[1]) > 12:
            continue
        month, day = MONTHS[int(found[1]) - 1], int(found[2])
        forms = (
            [f"{day}-{month}", f"{reading.day.year}-{int(found[1]):02d}-{day:02d}"]
            if day < 29
            else [f"{month}-{day}"]
        )
        why = f"a date stands where {spot.text} was read"
        yield figures_changed(
            ground,
            "fraction-became-date",
            [(reading, spot, ground.rng.choice(forms))],
            why,
            (),
            size=0.0,
            seen_from=0.0,
        )


def digits_transposed(ground: Ground) -> Slips:
    """Two neighboring digits of a decimal change places."""
    for reading in ground.drawn():
        spot = ground.rng.choice(reading.spots)
        number, rest = number_and_rest(spot.text)
        if in_fractions(spot.text) or not _consistent(ground, reading, spot):
            continue
        digits = [at for at, sign in enumerate(number) if sign != "."]
        for first, second in ground.shuffled(itertools.pairwise(digits)):
            signs = list(number)
            signs[first], signs[second] = signs[second], signs[first]
            new = "".join(signs)
            if new == number or new.startswith("0") != number.startswith("0"):
                continue
            why = "off by a difference of two digits in each other's place; it divides by 9"
            slip = _one_figure(ground, "digits-transposed", reading, spot, new + rest, why)
            if slip is not None:
                yield slip
                break


def one_turn_out(ground: Ground) -> Slips:
    """One turn of the thimble or the dial too many or too few, at one place."""
    for reading in ground.drawn():
        one = ground.instruments[reading.instrument]
        spot = ground.rng.choice(reading.spots)
        if not one.one_turn or not _consistent(ground, reading, spot):
            continue
        toward = ground.rng.choice((-1, 1))
        new = like(spot.text, float(spot.exact) + toward * one.one_turn, one.resolution)
        why = f"off by one turn of {reading.instrument}"
        slip = _one_figure(ground, "one-turn-out", reading, spot, new, why)
        if slip is not None and float(spot.exact) > one.one_turn:
            yield slip


def _exchange(first: Reading, second: Reading) -> list[Change]:
    pairs = list(zip(first.spots, second.spots, strict=False))
    return [(first, one, other.text) for one, other in pairs] + [
        (second, other, one.text) for one, other in pairs
    ]


def _alike(first: Reading, second: Reading) -> bool:
    return (
        first.path == second.path
        and first.quantity == second.quantity
        and first.instrument == second.instrument
        and [one.position for one in first.spots] == [one.position for one in second.spots]
        and all(
            number_and_rest(one.text)[1] == number_and_rest(other.text)[1]
            for one, other in zip(first.spots, second.spots, strict=True)
        )
    )


def _jumps(ground: Ground, changes: list[Change]) -> tuple[float, float]:
    """Size and threshold of the clearest figure of a reading as changed; 0 where none can be seen."""
    best = (0.0, 1.0)
    for change in changes:
        size, seen_from, _ = measure(ground, [change])
        if size >= seen_from and size / seen_from > best[0] / best[1]:
            best = size, seen_from
    return best


def _exchanged(ground: Ground, kind: str, first: Reading, second: Reading, why: str) -> Slip | None:
    """The slip of two readings in each other's place, where both can be seen."""
    if not (ground.is_quiet(first) and ground.is_quiet(second)):
        return None
    changes = _exchange(first, second)
    half = len(changes) // 2
    seen = [_jumps(ground, changes[:half]), _jumps(ground, changes[half:])]
    if not all(size for size, _ in seen):
        return None
    size, seen_from = min(seen, key=lambda pair: pair[0] / pair[1])
    changes = [change for change in changes if change[1].text != change[2]]
    compared = measure(ground, changes)[2]
    return figures_changed(
        ground,
        kind,
        changes,
        why,
        compared,
        size=size,
        seen_from=seen_from,
        subject=f"{first.words} and {second.words}",
    )


def sides_swapped(ground: Ground) -> Slips:
    """Left and right of a wheelset in each other's place in one session."""
    for first in ground.drawn():
        if first.side not in ("left", "right"):
            continue
        for second in ground.readings:
            if second.part == first.part and second.side not in ("", first.side) and _alike(first, second):
                why = "equal and opposite jumps of left and right; each is what the other side was before"
                slip = _exchanged(ground, "sides-swapped", first, second, why)
                if slip is not None:
                    yield slip


def wrong_wheel(ground: Ground) -> Slips:
    """A reading entered under a wheel of another axle: two exchanged, or one written twice."""
    for first in ground.drawn(
        "tire_thickness", "flange_thickness", "flange_height", "rim_thickness", "back_to_back"
    ):
        for second in ground.shuffled(ground.readings):
            if second.part == first.part or second.side != first.side or not _alike(first, second):
                continue
            why = f"the figure is what {second.words} reads"
            slip = (
                _exchanged(ground, "wrong-wheel", first, second, why) if ground.rng.random() < 0.5 else None
            )
            if slip is None and ground.is_quiet(first):
                slip = _copied(ground, first, second, why)
            if slip is not None:
                yield slip
                break


def _copied(ground: Ground, first: Reading, second: Reading, why: str) -> Slip | None:
    changes = _exchange(first, second)[: len(first.spots)]
    size, seen_from = _jumps(ground, changes)
    if size < 2 * seen_from:  # nearer by, any wheel's figure would do as well: nobody could say whose it is
        return None
    changes = [change for change in changes if change[1].text != change[2]]
    compared = measure(ground, changes)[2]
    return figures_changed(ground, "wrong-wheel", changes, why, compared, size=size, seen_from=seen_from)


def false_precision(ground: Ground) -> Slips:
    """A rule or a wheel gauge read to a thousandth."""
    for reading in ground.drawn("tire_thickness", "rim_thickness", "flange_thickness", "lateral"):
        one = ground.instruments[reading.instrument]
        spot = ground.rng.choice(reading.spots)
        unit = MILLIMETER if "mm" in spot.text else INCH
        if one.resolution < 0.3e-3:
            continue
        off = ground.rng.uniform(0.2, 0.4) * one.resolution * ground.rng.choice((-1, 1))
        number = (float(spot.exact) + off) / float(unit)
        places = 2 if unit == MILLIMETER else 3
        text = f"{number:.{places}f}"
        if Fraction(text).denominator in (1, 2, 4, 8) or text.endswith("0"):
            continue
        why = f"{reading.instrument} shows no hundredths or thousandths; its division is coarser"
        yield figures_changed(
            ground,
            "false-precision",
            [(reading, spot, text + number_and_rest(spot.text)[1])],
            why,
            (),
            size=0.0,
            seen_from=0.0,
        )


def second_reader_disagrees(ground: Ground) -> Slips:
    """A second person reads the same place on the same day and writes another figure."""
    for reading in ground.drawn():
        record = ground.records[reading.path]
        others = [one for one in ground.people(reading.day) if one not in reading.by]
        if not others or not reading.place or record.tree.get("kind") != "inspection" or not reading.by:
            continue
        one = ground.instruments[reading.instrument]
        seen_from = ground.seen_from(reading, reading)
        toward = ground.rng.choice((-1, 1))
        shift = toward * seen_from * ground.rng.uniform(1.0, 3.0)
        new = [like(spot.text, float(spot.exact) + shift, one.resolution, toward) for spot in reading.spots]
        if any(exact(text) is None or not one.low < float(exact(text) or 0) < one.high for text in new):
            continue
        last = f"/readings/{len(record.tree['readings']) - 1}"
        reader = ground.rng.choice(others)
        lines = [
            f"  - quantity: {reading.quantity}",
            f"    place: {reading.place}",
            f"    with: {reading.instrument}",
        ]
        lines += [f"    where: {reading.where}"] * bool(record.at(f"{reading.pointer}/where"))
        lines += ["    by:", f"      - {reader}", "    values:"]
        lines += [f"      {spot.position}: {text}" for spot, text in zip(reading.spots, new, strict=True)]
        slip = figures_changed(
            ground,
            "second-reader-disagrees",
            [(reading, reading.spots[0], reading.spots[0].text)],
            f"{reader} read the same place otherwise on the same day",
            (),
            size=min(
                abs(float((exact(text) or 0) - spot.exact))
                for spot, text in zip(reading.spots, new, strict=True)
            ),
            seen_from=seen_from,
        )
        yield _with_second(
            slip, record.below(last, "\n".join(lines) + "\n"), len(record.tree["readings"]), new, reading
        )


def _with_second(slip: Slip, edit: object, number: int, new: list[str], reading: Reading) -> Slip:
    from dataclasses import replace

    from .written import Edit

    assert isinstance(edit, Edit)
    answer = replace(
        slip.answer,
        pointers=(reading.pointer, f"/readings/{number}"),
        after="; ".join(new),
        before="; ".join(spot.text for spot in reading.spots),
    )
    return replace(slip, answer=answer, edits=(edit,))
