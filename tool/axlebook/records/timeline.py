"""The dated values of a part, as series: what trends and plausibility look at.

Every reading of the book stands here, not only the latest: records.md's rule that plausibility judges all.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable
from datetime import date
from fractions import Fraction

from axlebook.quantities import Quantity
from axlebook.trends.series import Dated, Series

from .book import Book, Thing
from .condition import CHANGED_BY_TIRES, CHANGED_BY_TURNING, mean
from .instruments import plane_of, standard_variance, variance_by_record
from .placing import BEFORE
from .reading import Measure, Reading
from .session import Session

# Only these depend on how the wheelset was held and where round the clock they were read.
HELD = frozenset({"back_to_back", "over_flanges_measured", "lateral"})
# The grip widens it: a tire read before it went on tells how it grew, not how it wears.
GROWN_BY_GRIP = frozenset({"tread_diameter"})

Taken = tuple[tuple[str, ...], Fraction | None]  # instrument, plane, support, clock; the instrument's variance


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
    found = 0
    for work in works:  # in order of date
        done = work.day.first
        if done is None or done > day:
            break
        own = done == day and work.id == reading.source.record
        found += not (own and reading.when in BEFORE)
    return found


def _taken(known: dict[Hashable, Taken], book: Book, reading: Reading, held: bool) -> Taken:
    """How a reading was taken, as far as it matters to its quantity, and what one taken so is worth: few, again."""
    key: Hashable = (reading.instrument, reading.where)
    if held:
        key = (reading.instrument, reading.where, reading.hold, reading.clock)
    found = known.get(key)
    if found is None:
        support = (reading.hold, reading.clock) if held else ()
        way = (reading.instrument, plane_of(book, reading), *support)
        found = known[key] = (way, variance_by_record(book, reading.instrument))
    return found


def all_series(book: Book) -> list[Series]:
    """Every series of the book, worked out once."""
    known: list[Series] | None = book.__dict__.get("_all_series")
    if known is None:
        ways: dict[Hashable, Taken] = {}
        marked: set[tuple[Thing, str]] = set()
        known = [one for key in book.series for one in _series(book, *key, ways, marked)]
        book.__dict__["_all_series"], book.__dict__["_marked_series"] = known, marked
    return known


def marked_series(book: Book) -> set[tuple[Thing, str]]:
    """The things and quantities of which some reading tells when it was taken, before or after a work: seldom one."""
    all_series(book)
    found: set[tuple[Thing, str]] = book.__dict__["_marked_series"]
    return found


def series_of(book: Book, thing: Thing, quantity: str) -> list[Series]:
    """The series of one thing and quantity, one a position; all of the book are sorted by them once."""
    known: dict[tuple[object, str], list[Series]] | None = book.__dict__.get("_series_of")
    if known is None:
        known = book.__dict__["_series_of"] = defaultdict(list)
        for one in all_series(book):
            known[one.thing, one.quantity].append(one)
    return known.get((thing, quantity), [])


def _value(measures: tuple[Measure, ...]) -> Fraction | None:
    """The value of repeats, their mean; None where an interval keeps it from being one."""
    span = mean(measures)
    return span.low if span.low is not None and span.low == span.high else None


def _series(
    book: Book, thing: Thing, quantity: str, ways: dict[Hashable, Taken], marked: set[tuple[Thing, str]]
) -> list[Series]:
    works, held = works_on(book, thing, quantity), quantity in HELD
    found: dict[str, list[Dated]] = {}
    for reading in book.series[thing, quantity]:  # in order of date, and so are the points
        day = reading.day.exact
        if day is None:
            continue
        epoch = epoch_of(works, reading, day) if works else 0
        way, variance = _taken(ways, book, reading, held)
        if reading.when:
            marked.add((thing, quantity))
        if "expanded_uncertainty" in reading.tree:
            variance = standard_variance(book, reading)
        for position, measures in reading.values:
            value: Fraction | None
            only = measures[0]
            if len(measures) > 1:
                value, text = _value(measures), " and ".join(m.text for m in measures)
            else:
                value, text = only.exact if isinstance(only, Quantity) else None, only.text
            if value is not None:
                point = Dated(day, value, variance, way, epoch, reading, text)
                if position in found:
                    found[position].append(point)
                else:
                    found[position] = [point]
    return [Series(thing, quantity, position, tuple(points)) for position, points in found.items()]
