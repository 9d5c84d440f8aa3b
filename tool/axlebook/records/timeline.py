"""The dated values of a part, as series: what trends and plausibility look at.

Every reading of the book stands here, not only the latest: records.md's rule that plausibility judges all.
"""

from __future__ import annotations

from collections import defaultdict
from datetime import date
from fractions import Fraction

from axlebook.quantities import Quantity
from axlebook.trends.series import Dated, Series, in_order

from .book import Book, Thing
from .condition import CHANGED_BY_TIRES, CHANGED_BY_TURNING, mean
from .instruments import plane_of, standard_variance
from .reading import Measure, Reading
from .session import Session

# Only these depend on how the wheelset was held and where round the clock they were read.
HELD = frozenset({"back_to_back", "over_flanges_measured", "lateral"})
# The grip widens it: a tire read before it went on tells how it grew, not how it wears.
GROWN_BY_GRIP = frozenset({"tread_diameter"})


def works_on(book: Book, thing: Thing, quantity: str) -> list[Session]:
    """The work that changed what a quantity measures on a thing, in order of date."""
    kinds: set[str] = set()
    if quantity in CHANGED_BY_TURNING:
        kinds |= {"turning"}
    if quantity in CHANGED_BY_TIRES:
        kinds |= {"tire-applied", "tire-removed", "mounting"}
    if quantity in GROWN_BY_GRIP:
        kinds |= {"tire-applied", "tire-removed"}
    if not kinds:
        return []
    ids = {thing.id}
    if thing.kind == "wheelset" and thing.id in book.wheelsets:
        for end in book.wheelsets[thing.id].ends:
            for spell in book.standing.centers.get((thing.id, end), ()):
                ids.add(spell.what)
                ids |= {on.what for on in book.standing.tires.get(spell.what, ())}
    found = {s.id: s for id in ids for s in book.work_on.get(id, ()) if s.kind in kinds and s.day.first is not None}
    return sorted(found.values(), key=lambda s: s.day.first or date.min)


def epoch_of(works: list[Session], reading: Reading, day: date) -> int:
    """How many works lie before a reading; one read before the work of its own record belongs to what was."""
    if not works:
        return 0
    before = reading.when in ("before", "cold before", "at receiving")
    return sum(
        w.day.first < day or (w.day.first == day and not (before and w.id == reading.source.record))
        for w in works
        if w.day.first is not None
    )


def way_of(book: Book, reading: Reading) -> tuple[str, ...]:
    """How a reading was taken, as far as it matters to its quantity."""
    support = (reading.hold, reading.clock) if reading.quantity in HELD else ()
    way = (reading.instrument, plane_of(book, reading), *support)
    known: dict[tuple[str, ...], tuple[str, ...]] = book.__dict__.setdefault("_ways", {})  # few, again and again
    return known.setdefault(way, way)


def all_series(book: Book) -> list[Series]:
    """Every series of the book, worked out once."""
    known: list[Series] | None = book.__dict__.get("_all_series")
    if known is None:
        known = [one for key in book.series for one in _series(book, *key)]
        book.__dict__["_all_series"] = known
    return known


def series_of(book: Book, thing: Thing, quantity: str) -> list[Series]:
    """The series of one thing and quantity, one a position; all of the book are sorted by them once."""
    known: dict[tuple[object, str], list[Series]] | None = book.__dict__.get("_series_of")
    if known is None:
        known = book.__dict__["_series_of"] = defaultdict(list)
        for one in all_series(book):
            known[one.thing, one.quantity].append(one)
    return known.get((thing, quantity), [])


def _value(measures: tuple[Measure, ...]) -> Fraction | None:
    """The value of a position, the mean of its repeats; None where an interval keeps it from being one."""
    if len(measures) == 1:
        only = measures[0]
        return only.exact if isinstance(only, Quantity) else None
    span = mean(measures)
    return span.low if span.low is not None and span.low == span.high else None


def _series(book: Book, thing: Thing, quantity: str) -> list[Series]:
    works = works_on(book, thing, quantity)
    found: dict[str, list[Dated]] = defaultdict(list)
    for reading in book.series[thing, quantity]:
        day = reading.day.exact
        if day is None:
            continue
        epoch, way, variance = epoch_of(works, reading, day), way_of(book, reading), standard_variance(book, reading)
        for position, measures in reading.values:
            value = _value(measures)
            if value is not None:
                text = measures[0].text if len(measures) == 1 else " and ".join(m.text for m in measures)
                found[position].append(Dated(day, value, variance, way, epoch, reading, text))
    return [Series(thing, quantity, position, in_order(points)) for position, points in found.items()]
