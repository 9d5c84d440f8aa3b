"""What a new diameter moves on the engine: by how much it stands lower, and what an adopted set asks to look at."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from axlebook.limits import AfterEvent

from .condition import engine_places
from .derived import values
from .turning_case import Case
from .turning_limits import Judged, facets_of, judged


@dataclass(frozen=True)
class Lowered:
    """By how much the axles come down: the mean of all, the least and the most; a rise is negative."""

    mean: Fraction
    least: Fraction
    most: Fraction
    share: Fraction  # of the mean diameter: what a speed indicator driven from a driver reads too high


@dataclass(frozen=True)
class Height:
    """A height read on the engine, as it would be."""

    quantity: str
    where: str
    before: Fraction
    after: Fraction
    record: str
    judged: tuple[Judged, ...]


def lowered(case: Case) -> Lowered | None:
    """By how much the drivers come down; None where a diameter lacks or nothing can be done."""
    now = {wheel.name: wheel.diameter for wheel in case.wheels if wheel.diameter is not None}
    after = case.chosen.diameters
    if not after or len(now) < len(case.wheels):
        return None
    by_axle: dict[str, list[Fraction]] = {}
    for wheel in case.wheels:
        by_axle.setdefault(wheel.axle, []).append((now[wheel.name] - after[wheel.name]) / 2)
    axles = [sum(many, Fraction(0)) / len(many) for many in by_axle.values()]
    mean, whole = sum(axles, Fraction(0)) / len(axles), sum(now.values(), Fraction(0))
    return Lowered(mean, min(axles), max(axles), 2 * mean * len(now) / whole)


def asks(case: Case) -> list[AfterEvent]:
    """What the sets in force ask to look at after a turning, and after new tires where there are some."""
    events = ["turning", *(["tire-applied"] if any(wheel.new for wheel in case.chosen.wheels) else [])]
    return [after for found in case.book.limits_for(case.engine) for after in found.after if after.event in events]


def heights(case: Case, drop: Fraction) -> Iterator[Height]:
    """The heights that those entries name and that were read on the engine itself: the tender stays where it is."""
    book, names = case.book, dict.fromkeys(q for after in asks(case) for q in after.quantities)
    for place in engine_places(book):
        if place.engine.id != case.engine.id or place.place.startswith("tender"):
            continue
        for quantity in names:
            word = book.vocabulary.quantities.get(quantity)
            if word is None or word.of != "engine" or word.dimension != "length":
                continue
            lows = [(v.span.low, v) for v in values(book, place, quantity) if v.span.low is not None]
            if not lows:
                continue
            low, value = min(lows, key=lambda pair: pair[0])
            found = judged(book, place, place.place, quantity, low - drop, facets_of(book, place))
            yield Height(quantity, place.place, low, low - drop, value.readings[-1].source.record, tuple(found))
