"""What `wear` holds: a row a quantity of a thing, in words and in figures, before any renderer.

Rates are counted positive towards the limit. Dates are told to the month while they are near, else to the year; what
is more than fifty years away is said as that and no more.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from axlebook.checks._forecast import WRITE_WHERE, Forecast, Reach, Target
from axlebook.checks._words import OUT_WORDS, shown
from axlebook.records.book import Book
from axlebook.records.condition import Stand
from axlebook.records.reading import DOUBTFUL
from axlebook.records.wear import RISES, Clock, clocks
from axlebook.trends.forecast import Line, Meeting, meet
from axlebook.trends.rate import by_day

from .amounts import Amounts, significant

YEAR = 365.25  # days
MILE = 1609.344  # m
NEAR = 10  # years within which a date is told to the month
BEYOND = "beyond 50 years"
MENDS = {"lathe": "book the lathe", "tires": "order tires"}


@dataclass(frozen=True)
class Serviced:
    """The same wear by another clock: its line, and where that clock stands now."""

    clock: Clock
    line: Line
    now: float

    def left(self, target: Target) -> Meeting:
        """Service left to a limit, from now."""
        found = meet(self.line, float(target.value), self.now, self.now + self.clock.horizon)
        early, middle, late = (None if t is None else t - self.now for t in (found.early, found.middle, found.late))
        return Meeting(early, middle, late, found.has_interval)


@dataclass(frozen=True)
class WearRow:
    """One quantity of one thing."""

    made: Forecast
    serviced: tuple[Serviced, ...]
    metric: bool

    @property
    def engine(self) -> str:
        """The engine's id."""
        return self.made.site.engine.id

    @property
    def place(self) -> str:
        """Where it is on the engine."""
        return self.made.site.name.removeprefix(self.engine).strip()

    @property
    def part(self) -> str:
        """The tire where it is what wears, else the wheelset; '' for a place of the engine."""
        site = self.made.site
        if not isinstance(site, Stand):
            return ""
        of_the_tire = self.made.position.thing.kind == "tire"
        return site.tire.id if site.tire and of_the_tire else site.wheelset.id

    @property
    def title(self) -> str:
        """What is measured, and at which position it governs."""
        at = self.made.position.name
        return f"{self.made.word.title}, {at}" if at else self.made.word.title

    @property
    def as_of(self) -> date:
        """The day it is told for."""
        return self.made.position.as_of

    @property
    def line(self) -> Line | None:
        """The line by calendar days."""
        return self.made.line

    @property
    def level(self) -> float | None:
        """The value of the line now; None where nothing was read since the last work."""
        if self.line is None or self.made.position.stale is not None:
            return None
        return self.line.at(by_day(self.as_of))

    # -- words -------------------------------------------------------------------------------------------------

    def length(self, metres: float, places: int = 3) -> str:
        """A length in the engine's own unit; what rounds to nothing has no sign."""
        written = Amounts(self.metric).length_one(metres, places)
        return written if any(sign in "123456789" for sign in written) else written.removeprefix("-")

    @property
    def now(self) -> str:
        """The value of the line now; the last reading as written where there is no line."""
        return self.length(self.level) if self.level is not None else self.last

    @property
    def last(self) -> str:
        """The last reading as written."""
        return self.made.position.series.points[-1].text

    @property
    def last_on(self) -> date:
        """The day of the last reading."""
        return self.made.position.span[1]

    @cached_property
    def readings(self) -> str:
        """How many readings, from when to when, and into how many stretches they are split."""
        first, last = self.made.position.span
        count, many = self.made.readings, len(self.made.position.segments)
        split = f", in {many} stretches (parted by work or gauge)" if many > 1 else ""
        when = f"on {first}" if first == last else f"from {first} to {last}"
        return f"{count} reading{'' if count == 1 else 's'} {when}{split}{self._marked_unsure(', ')}"

    @cached_property
    def unsure(self) -> int:
        """How many of its readings their card is not sure of."""
        return sum(point.origin.sure in DOUBTFUL for point in self.made.position.series.points)

    def _marked_unsure(self, before: str) -> str:
        return f"{before}{self.unsure} of them marked uncertain" if self.unsure else ""

    @cached_property
    def rate(self) -> str:
        """How fast, by every clock that tells, with the interval."""
        if self.line is None:
            return "too few readings for a rate: three or more are needed, taken in one way between two works"
        rises = "rises " if self.line.wears and self.moves == "rises" else ""
        told = [f"{rises}{self._rate(self.line, YEAR)} per year{self._interval(self.line, YEAR)}"]
        for one in self.serviced:
            many, words = (1000 * MILE, "1000 miles") if one.clock.name == "mile" else (100.0, "100 service days")
            told.append(f"{self._rate(one.line, many)} per {words}")
        none = "" if self.line.wears else "no wear seen: "
        return none + "; ".join(told)

    def _rate(self, line: Line, unit: float) -> str:
        return self.length(line.rate * unit, 4)

    def _interval(self, line: Line, unit: float) -> str:
        if line.low is None or line.high is None:
            return " (too few readings for an interval: five or more are needed)"
        return f" (95 percent: {self.length(line.low * unit, 4)} to {self.length(line.high * unit, 4)})"

    @cached_property
    def scatter(self) -> str:
        """How far a reading lies off the line."""
        return f"{self.length(self.line.scatter, 4)} about the line" if self.line else ""

    @property
    def state(self) -> str:
        """In a few words what can be said; '' where it wears and limits are told."""
        if self.made.position.stale is not None:
            return f"not measured since {self.made.position.stale.day.text}"
        if self.line is None:
            return f"too few readings ({self.made.readings})"
        if self.made.no_limit:
            return "no limit on file"
        if self.made.kept and not self.made.reaches:
            return "no limit could be applied"
        return "" if self.line.wears else "no wear seen"

    @property
    def kept(self) -> list[str]:
        """The limits that were not applied, each with what keeps it from being and what to do about it."""
        found: dict[str, list[str]] = {}
        for one in self.made.kept:
            found.setdefault(f"{one.words}. {one.write}", []).append(f"{one.limit.stage}, {one.limit.clause}")
        return [f"{'; '.join(many)}: not applied; {words}" for words, many in found.items()]

    @property
    def unplaced(self) -> str:
        """How many later readings tell nothing for want of a plane, where the line is that of another; else ''."""
        count, where = self.made.position.unplaced, self.made.position.where
        if not count or not any(reach.target.limit.where for reach in self.made.reaches):
            return ""
        them = "1 reading does not say its" if count == 1 else f"{count} readings do not say their"
        return f"the line is that of the readings {where}; {them} plane. {WRITE_WHERE}"

    def limit(self, reach: Reach) -> str:
        """A limit by its stage, its figure as written, and its clause."""
        return f"{reach.target.limit.stage} {figure_words(reach.target)}, {reach.target.limit.clause}"

    def when(self, reach: Reach) -> str:
        """When a limit is reached, in words."""
        if reach.out:
            return "out by the last reading"
        if not reach.meeting.has_interval:
            rough = when_words(reach.middle, self.as_of)
            return f"about {rough}; too few readings for a range" if reach.middle not in (None, date.max) else rough
        if reach.late is not None and reach.late <= self.as_of:
            return "reached by the line"
        early = "at any time now" if reach.early == self.as_of else when_words(reach.early, self.as_of)
        late = when_words(reach.late, self.as_of)
        if early in (late, BEYOND):
            return early
        return f"{early} to {late}" if reach.late is not None else f"not before {early}"

    def left(self, reach: Reach) -> str:
        """Service left to a limit, in words; '' where no clock tells."""
        if reach.out or reach.soonest == date.max:
            return ""
        told = [words for one in self.serviced if (words := _left_words(one, reach.target))]
        return "; ".join(told)

    @property
    def moves(self) -> str:
        """What wear does to it: a thickness wears, a flange height rises as the tread under it wears."""
        return "rises" if self.made.word.wear == RISES else "wears"

    @property
    def brief(self) -> str:
        """The wear in a few words, as it stands beside a reading: `wears 0.021 in per year, shop 1 in 2027-10`."""
        return self.told(another=False)

    def told(self, *, another: bool) -> str:
        """The same; said to be of another limit where the one beside it is not the one that wear brings it to."""
        if self.line is None or self.level is None:
            return self.state
        wear = "no wear seen" if not self.line.wears else f"{self.moves} {self.length(self.line.rate * YEAR)} per year"
        if self.unsure:
            wear += f" ({self.unsure} of {self.made.readings} readings marked uncertain)"
        first = next((r for r in self.made.reaches if not self._passed(r)), None)
        if first is None or first.soonest in (None, date.max):
            return wear
        if another:
            bound = f"{OUT_WORDS[first.target.bound.word]} {first.target.text}"
            return f"{wear}, towards its other limit: {first.target.limit.stage}, {bound}, {self.when(first)}"
        return f"{wear}, {first.target.limit.stage} {first.target.text} {self.when(first)}"

    def _passed(self, reach: Reach) -> bool:
        """Whether the reading or all of the interval says that it is reached: the reading itself tells that better."""
        return reach.out or (reach.late is not None and reach.late <= self.as_of)

    @property
    def order(self) -> str:
        """What to order and by when; '' where nothing falls to be ordered or no lead time is on record."""
        order = self.made.order
        if order is None:
            return ""
        by = "now" if order.by <= self.as_of else f"by {order.by}"
        return f"{MENDS[order.what]} {by} ({order.lead} days ahead of the early end)"


def figure_words(target: Target) -> str:
    """A limit's figure as written, in both systems where it is a measure."""
    return shown(target.text)


def _left_words(one: Serviced, target: Target) -> str:
    found = one.left(target)
    unit, size = ("miles", MILE) if one.clock.name == "mile" else ("service days", 1.0)
    ends = (found.early, found.late) if found.has_interval else (found.middle, found.middle)
    if ends[0] is None or (ends[1] is not None and ends[1] <= 0):
        return ""
    low = _count(ends[0], size)
    if ends[1] is None or math.isinf(ends[1]):
        return "" if math.isinf(ends[0]) else f"{low} {unit} at least"
    high = _count(ends[1], size)
    return f"{low} {unit}" if low == high else f"{low} to {high} {unit}"


def _count(time: float, size: float) -> str:
    return "0" if time <= 0 else significant(time / size, 2) if time / size >= 100 else str(math.floor(time / size))


def when_words(day: date | None, as_of: date) -> str:
    """A day to come: to the month while it is near, else the year.

    >>> now = date(2026, 2, 28)
    >>> when_words(date(2027, 3, 9), now), when_words(date(2041, 3, 9), now), when_words(date.max, now)
    ('2027-03', '2041', 'beyond 50 years')
    """
    if day is None:
        return "never at this rate"
    if day == date.max:
        return BEYOND
    return f"{day:%Y-%m}" if day.year - as_of.year <= NEAR else str(day.year)


def wear_rows(book: Book, made: list[Forecast]) -> list[WearRow]:
    """Rows of some forecasts, in their order."""
    return [_row(book, one) for one in made]


def bare_row(book: Book, made: Forecast) -> WearRow:
    """A row by calendar days alone: what `status` tells."""
    return WearRow(made, (), _metric(book, made))


def _metric(book: Book, made: Forecast) -> bool:
    return book.in_mm(made.site.engine)


def _row(book: Book, made: Forecast) -> WearRow:
    found = []
    for clock in clocks(book, made.position):
        line, now = made.position.line(clock.at), clock.at(made.position.as_of)
        if line is not None and now is not None:
            found.append(Serviced(clock, line, now))
    return WearRow(made, tuple(found), _metric(book, made))
