"""Slips round what was measured with and how the wheelset was held."""

from __future__ import annotations

from collections.abc import Iterator

from .answer import Answer
from .figures import exact, in_fractions, like
from .ground import Ground, Slip, Slips, figures_changed, wheels
from .instruments import Instrument
from .kinds_wear import measure
from .readings import Reading

_LOAD = (0.0254 / 32, 0.0254 / 16)  # what load alone does to a back-to-back


def _others(ground: Ground, reading: Reading) -> Iterator[Instrument]:
    for one in ground.shuffled(ground.instruments.values()):
        if reading.quantity in one.measures and one.id != reading.instrument:
            yield one


def _fits(one: Instrument, reading: Reading) -> bool:
    return all(one.low <= float(spot.exact) <= one.high for spot in reading.spots)


def _named(ground: Ground, kind: str, reading: Reading, instrument: str, why: str) -> Slip:
    pointer = f"{reading.pointer}/with"
    answer = Answer(
        kind, reading.path, (pointer, reading.pointer), reading.instrument, instrument, reading.words, why
    )
    edit = ground.records[reading.path].instead(pointer, instrument)
    return Slip(answer, (edit,), ((reading.path, reading.pointer),), wheels=wheels([reading]))


def out_of_certificate(ground: Ground) -> Slips:
    """Measured with an instrument whose certificate had run out, or was not yet made."""
    for reading in ground.drawn():
        own = ground.instruments[reading.instrument]
        for one in _others(ground, reading):
            if (
                own.covers(reading.day)
                and not one.covers(reading.day)
                and _fits(one, reading)
                and own.metric == one.metric
            ):
                why = f"{one.id} had no certificate in force on {reading.day}"
                yield _named(ground, "instrument-out-of-certificate", reading, one.id, why)


def outside_its_range(ground: Ground) -> Slips:
    """Measured with an instrument that does not reach so far."""
    for reading in ground.drawn():
        for one in _others(ground, reading):
            away = [max(one.low - float(spot.exact), float(spot.exact) - one.high) for spot in reading.spots]
            if one.covers(reading.day) and min(away) > 2 * one.uncertainty:
                yield _named(
                    ground,
                    "instrument-outside-range",
                    reading,
                    one.id,
                    f"{one.id} does not reach this figure",
                )


def gauge_changed_mid_trend(ground: Ground) -> Slips:
    """Another kind of gauge in the middle of a trend, and with it a step in the figures."""
    for reading in ground.drawn():
        near = [ground.beside(reading, spot, 2) for spot in reading.spots]
        known = {one.reading.instrument for side in near for one in side} | {reading.instrument}
        if not ground.is_quiet(reading) or any(len(side) < 3 for side in near):
            continue
        for one in _others(ground, reading):
            if one.id in known or not one.covers(reading.day) or not _fits(one, reading):
                continue
            slip = _with_step(ground, reading, one, known)
            if slip is not None:
                yield slip


def _with_step(ground: Ground, reading: Reading, one: Instrument, known: set[str]) -> Slip | None:
    own = ground.instruments[reading.instrument]
    seen_from = 2 * (own.uncertainty**2 + one.uncertainty**2) ** 0.5
    if any(_same_make(ground.instruments[id], one) for id in known) or own.metric != one.metric:
        return None
    toward = ground.rng.choice((-1, 1))
    changes = []
    for spot in reading.spots:
        ends = [spot.exact, *(mate.spot.exact for mate in ground.beside(reading, spot))]
        base = float(max(ends) if toward > 0 else min(ends))
        style = "0.001 in" if in_fractions(spot.text) and one.resolution < 0.1e-3 else spot.text
        if not in_fractions(spot.text) and one.resolution > 0.1e-3:
            style = "1/64 in"
        new = like(style, base + toward * seen_from * ground.rng.uniform(1.0, 2.0), one.resolution, toward)
        if exact(new) is None or not one.low <= float(exact(new) or 0) <= one.high:
            return None
        changes.append((reading, spot, new))
    size, _, compared = measure(ground, changes)
    if size < seen_from:
        return None
    pointer = f"{reading.pointer}/with"
    edit = ground.records[reading.path].instead(pointer, one.id)
    why = f"{one.id} for once among readings with {', '.join(sorted(known))}, and the figures step"
    return figures_changed(
        ground,
        "gauge-changed-mid-trend",
        changes,
        why,
        compared,
        size=size,
        seen_from=seen_from,
        extra=(edit,),
    )


def _same_make(first: Instrument, second: Instrument) -> bool:
    """Whether two instruments are fellows of one kind, which stand for each other in a trend."""
    return first.resolution == second.resolution and first.measures == second.measures


def support_changed_mid_trend(ground: Ground) -> Slips:
    """A back-to-back read on blocks among readings under the engine; load alone moves it 1/32 to 1/16 in."""
    for reading in ground.drawn("back_to_back"):
        if reading.hold != "under the engine" or not reading.place or not ground.is_quiet(reading):
            continue
        record, one = ground.records[reading.path], ground.instruments[reading.instrument]
        hold = ground.rng.choice(("on blocks", "loose on the rail", "in the lathe"))
        toward, shift = ground.rng.choice((-1, 1)), ground.rng.uniform(*_LOAD)
        changes = [
            (reading, s, like(s.text, float(s.exact) + toward * shift, one.resolution, toward))
            for s in reading.spots
        ]
        size, seen_from, compared = measure(ground, changes)
        if size < seen_from:
            continue
        edit = record.before(f"{reading.pointer}/values", f"    hold: {hold}\n")
        why = f"read {hold} among readings under the engine: the load alone moves it"
        yield figures_changed(
            ground,
            "support-changed-mid-trend",
            changes,
            why,
            compared,
            size=size,
            seen_from=seen_from,
            extra=(edit,),
        )
