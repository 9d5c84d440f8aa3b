"""What wears on a thing now fitted, by quantity and position: its readings, its rate by three clocks, its level now.

The readings of a position make a series, split at every work and every change of instrument, plane and support;
nothing is ever drawn across a split. What the level is now is not known after a work until somebody reads again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import NamedTuple

from axlebook.trends.forecast import Line, fit_line, present_segment
from axlebook.trends.rate import by_day
from axlebook.trends.series import Dated, Segment, Series

from .book import Book, Thing
from .condition import Site, Stale, values_now
from .instruments import resolution
from .session import Session
from .timeline import marked_series, series_of, works_on
from .vocabulary import Word

HORIZON = 50 * 366  # days ahead beyond which nothing is told
LONGEST_DAY = 1_000_000  # metres: more than an engine runs in a day, so that its horizon in metres is no nearer
FALLS, RISES = "lowers", "raises"
OFF_THE_CENTER = frozenset(
    {"at receiving", "cold before", "warm after"}
)  # a tire not yet home: shrinking on is no wear


class Clock(NamedTuple):
    """A steady measure of time in service and how far ahead it is looked."""

    name: str
    at: Callable[[date], float | None]
    horizon: float


@dataclass(frozen=True)
class Position:
    """The readings of one quantity at one position of a thing, and the lines through them by clock."""

    site: Site
    thing: Thing
    word: Word
    series: Series
    segments: tuple[Segment, ...]
    present: int  # which segment tells the level now
    resolution: float | None
    works: tuple[Session, ...]
    stale: Session | None  # the work since the last reading
    as_of: date
    where: str  # plane of the readings that tell the level now

    @property
    def name(self) -> str:
        """The position; '' where the quantity has only one."""
        return self.series.position

    @property
    def falling(self) -> bool:
        """Whether wear makes the reading fall."""
        return self.word.wear == FALLS

    @property
    def span(self) -> tuple[date, date]:
        """Days of the first and the last reading."""
        return self.series.points[0].day, self.series.points[-1].day

    @property
    def last_there(self) -> Dated:
        """The last reading in the plane that tells the level now; one of which no plane is told may come after it."""
        newest = self.segments[self.present].epoch
        return [p for p in self.series.points if p.epoch == newest and p.way[1] == self.where][-1]

    @property
    def unplaced(self) -> int:
        """How many readings since the last work do not tell in which plane they were taken."""
        newest = self.segments[self.present].epoch
        return sum(p.epoch == newest and not p.way[1] for p in self.series.points)

    def line(self, clock: Callable[[date], float | None] = by_day, *, interval: bool = True) -> Line | None:
        """The line by a clock; None below three readings, or where the clock does not tell a day."""
        timed = []
        for segment in self.segments:
            times = [clock(point.day) for point in segment.points]
            known = [time for time in times if time is not None]
            if len(known) < len(times):
                return None
            timed.append((known, [float(point.value) for point in segment.points]))
        return fit_line(timed, self.present, self.resolution, falling=self.falling, interval=interval)

    @cached_property
    def by_days(self) -> Line | None:
        """The line by calendar days, with its interval."""
        return self.line()


def wearing_words(book: Book) -> list[Word]:
    """The quantities that service alone changes."""
    return [word for word in book.vocabulary.quantities.values() if word.wear in (FALLS, RISES)]


def positions(book: Book, site: Site, word: Word) -> list[Position]:
    """The positions at which a quantity of a thing was read last, each with all its readings."""
    thing = site.thing(word.of)
    found = series_by_thing(book).get((thing, word.name), []) if thing else []
    if not found or thing is None:
        return []
    now = values_now(book, site, word.name)
    if isinstance(now, Stale):
        last = max(one.points[-1].day for one in found)
        read, stale = {one.position for one in found if one.points[-1].day == last}, now.since
    else:
        read, stale = {value.position for value in now}, None
    works = tuple(works_on(book, thing, word.name))
    return [_position(book, site, thing, word, one, works, stale) for one in found if one.position in read]


def _position(
    book: Book, site: Site, thing: Thing, word: Word, series: Series, works: tuple[Session, ...], stale: Session | None
) -> Position:
    segments = series.segments
    present = present_segment(
        [len(segment.points) for segment in segments],
        [by_day(segment.points[-1].day) for segment in segments],
        [segment.epoch for segment in segments],
    )
    found = (resolution(book, point.origin) for point in series.points)
    divisions = {id(one): one for one in found if one is not None}  # nearly always that of one instrument
    coarsest = float(max(divisions.values())) if divisions else None
    where = segments[present].way[1]
    return Position(site, thing, word, series, segments, present, coarsest, works, stale, book.as_of, where)


def series_by_thing(book: Book) -> dict[tuple[Thing, str], list[Series]]:
    """All series by thing and quantity, sorted once."""
    found: dict[tuple[Thing, str], list[Series]] | None = book.__dict__.get("_series_by_thing")
    if found is None:
        found = book.__dict__["_series_by_thing"] = {}
        marked = marked_series(book)
        for thing, quantity in book.series:
            series = series_of(book, thing, quantity)
            if (thing, quantity) in marked:
                series = [kept for one in series if (kept := _on_the_center(one)).points]
            if series:
                found[thing, quantity] = series
    return found


def _on_the_center(one: Series) -> Series:
    return one._replace(points=tuple([point for point in one.points if point.origin.when not in OFF_THE_CENTER]))


# -- clocks ----------------------------------------------------------------------------------------------------------


def clocks(book: Book, position: Position) -> Iterator[Clock]:
    """Service days and metres run by the engine it stands on, since the first reading; where its records tell them."""
    engine, first = position.site.engine.id, position.span[0]
    others = {point.origin.source.engine for point in position.series.points} - {engine, ""}
    if others:  # it ran under another engine too: its service is not this engine's
        return
    calendar = book.service_calendar(engine)

    def service_days(day: date) -> float | None:
        count = calendar.count(first, day)
        return None if count.most is None else (count.least + count.most) / 2

    def metres(day: date) -> float | None:
        key = (engine, first, day)
        known = book.__dict__.setdefault("_metres_run", {})
        if key not in known:
            run, whole = calendar.miles(first, day) if day > first else (0, True)
            known[key] = float(run) if whole else None
        found: float | None = known[key]
        return found

    yield Clock("service day", service_days, float(HORIZON))
    yield Clock("mile", metres, float(HORIZON * LONGEST_DAY))
