"""Readings that came in: what was read before, what changed, and what change was to be expected.

The expected change is the median slope of the earlier readings of that thing and quantity times the days between. Its
uncertainty joins that of both readings (the instrument's, or the scatter of the history where that is larger; as from a
coarse rule where no instrument tells) and that of the slope, with a coverage factor of two (JCGM 100:2008, 6.2).
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from statistics import median

from axlebook.engineering.wear import common_slope
from axlebook.findings import Place
from axlebook.records.book import Book, Thing
from axlebook.records.lines import UNKNOWN
from axlebook.records.reading import Reading
from axlebook.records.timeline import all_series, works_on
from axlebook.trends.rate import by_day, scatter
from axlebook.trends.series import Dated, Series

from .records import Fate, RecordChange
from .sides import Side, title_of

COVERAGE = 2.0
OF_NORMAL = 1.4826  # a median deviation as a standard deviation
COARSELY = "as from a coarse rule: how fine it was read is not on record"
FEW = 3  # values in one segment below which there is no slope


@dataclass(frozen=True)
class Expectation:
    """What change was to be expected [SI], and how far that can be trusted."""

    change: float
    uncertainty: float


@dataclass(frozen=True)
class ReadingAdded:
    """One value that came in. `why` says what kept it from being held against earlier ones, or how loosely it was."""

    at: Place
    record: str
    subject: str  # "e-12 driver-2 right", or a part
    part: str  # the identity it is of; '' where the records do not tell
    quantity: str
    title: str
    dimension: str
    position: str
    day: str
    by: tuple[str, ...]
    text: str
    before: str = ""
    before_day: str = ""
    before_record: str = ""
    change: Fraction | None = None  # SI
    expected: Expectation | None = None
    why: str = ""

    @property
    def away(self) -> float:
        """How many uncertainties the change lies from what was expected; 0 where nothing was."""
        if self.expected is None or self.change is None:
            return 0.0
        return abs(float(self.change) - self.expected.change) / self.expected.uncertainty

    @property
    def out_of_expectation(self) -> bool:
        """Whether the change lies outside of what was to be expected."""
        return self.away > 1.0


def readings_added(after: Side, changes: Iterable[RecordChange]) -> list[ReadingAdded]:
    """Return every value that came in, what is farthest from expectation first."""
    book = after.book
    added = list(_added(book, changes))
    own = {id(reading) for reading in added}
    points: dict[tuple[int, str], tuple[Series, Dated]] = {}
    like: dict[tuple[object, str], list[Series]] = defaultdict(list)
    for one in all_series(book) if added else ():
        like[one.thing, one.quantity].append(one)
        for point in one.points:
            if id(point.origin) in own:
                points[id(point.origin), one.position] = one, point
    found = []
    for reading in added:
        for position, measures in reading.values:
            plain = _plain(book, reading, position, " and ".join(measure.text for measure in measures))
            here = points.get((id(reading), position))
            found.append(_held_against(book, plain, *here, like) if here else _not_held(book, reading, plain))
    return sorted(found, key=lambda one: -one.away)


def _added(book: Book, changes: Iterable[RecordChange]) -> Iterable[Reading]:
    sessions = {session.path: session for session in book.sessions}
    for change in changes:
        session = sessions.get(change.path)
        if session is None:
            continue
        come = {detail.pointer for detail in change.details if detail.was is None}
        for reading in session.readings:
            if change.fate is Fate.ADDED or reading.pointer in come or "/readings" in come:
                yield reading


def _plain(book: Book, reading: Reading, position: str, text: str) -> ReadingAdded:
    word = book.vocabulary.quantities.get(reading.quantity)
    thing = book.thing_of(word.of, reading) if word else None
    return ReadingAdded(
        reading.at,
        reading.source.record,
        reading.named,
        thing.name if thing else "",
        reading.quantity,
        title_of(book, reading.quantity),
        word.dimension if word else "",
        position,
        reading.day.text,
        reading.by,
        text,
    )


def _not_held(book: Book, reading: Reading, plain: ReadingAdded) -> ReadingAdded:
    day = reading.day.exact
    if day is None:
        return _with(plain, why="its day is not told")
    if day > book.as_of:
        return _with(plain, why=f"it is dated after the day the book is read at ({book.as_of})")
    return _with(plain, why="it is no single value" if plain.part else "the records do not tell which part it is of")


def _held_against(
    book: Book, plain: ReadingAdded, series: Series, point: Dated, like: dict[tuple[object, str], list[Series]]
) -> ReadingAdded:
    earlier = series.before(point)
    same = [other for other in earlier if other.way[1:] == point.way[1:]]
    if not earlier:
        return _with(plain, why=_first(book, series, point))
    last = (same or earlier)[-1]
    told = _with(
        plain,
        before=last.text,
        before_day=str(last.day),
        before_record=last.origin.source.record,
        change=point.value - last.value,
    )
    if not same:
        return _with(told, why="the earlier reading was held or read otherwise")
    expected = _expected(like[series.thing, series.quantity], last, point)
    if expected is None:
        return _with(told, why="there are too few earlier readings for a rate")
    loosely = last.variance is None or point.variance is None
    return _with(told, expected=expected, why=COARSELY if loosely else "")


def _with(told: ReadingAdded, **more: object) -> ReadingAdded:
    from dataclasses import replace

    return replace(told, **more)  # type: ignore[arg-type]


def _first(book: Book, series: Series, point: Dated) -> str:
    thing = series.thing
    assert isinstance(thing, Thing)
    works = [w for w in works_on(book, thing, series.quantity) if w.day.first and w.day.first <= point.day]
    older = [other for other in series.points if other.day < point.day]
    if not older or not works:
        return "it is the first reading there"
    return f"it is the first reading since {works[-1].id}"


def _expected(like: list[Series], last: Dated, point: Dated) -> Expectation | None:
    """What change was to be expected from everything that was read of this thing before."""
    segments = [
        [other for other in segment.points if other.day < point.day] for one in like for segment in one.segments
    ]
    long = [(list(map(_time, segment)), list(map(_value, segment))) for segment in segments if len(segment) >= FEW]
    slope = common_slope(long) if long else None
    if slope is None:
        return None
    rates = [(b - a) / (t - s) for ts, vs in long for a, b, s, t in zip(vs, vs[1:], ts, ts[1:], strict=False) if t > s]
    doubt = OF_NORMAL * median(abs(rate - slope) for rate in rates) / math.sqrt(len(rates)) if rates else 0.0
    spread = max(OF_NORMAL * scatter(segment, slope) for segment in segments if len(segment) >= FEW)
    days = (point.day - last.day).days
    own = [UNKNOWN if one.variance is None else float(one.variance) for one in (last, point)]
    variance = sum(max(one, spread**2) for one in own) + (doubt * days) ** 2
    return Expectation(slope * days, COVERAGE * math.sqrt(variance)) if variance > 0 else None


def _time(point: Dated) -> float:
    return by_day(point.day)


def _value(point: Dated) -> float:
    return float(point.value)
