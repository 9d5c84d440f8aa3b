"""What `due` holds: overdue, to be seen to now, coming up, not known; the same by month; counters; what was late.

The annual summary takes the months and the counters from here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from types import MappingProxyType

from axlebook.checks._due import due_finding
from axlebook.checks._waiving import everything_due
from axlebook.findings import SEVERITY_ORDER, Verdict
from axlebook.limits import Interval
from axlebook.records import periods
from axlebook.records.book import Book
from axlebook.records.counters import Count
from axlebook.records.due import Due, Kind, Late, done_late
from axlebook.records.due.done import done_by_interval, intervals_for
from axlebook.records.due.inspections import concerns, lower
from axlebook.records.engine import Engine

from .annual_due import due_of, without_interval

CHECKS = {
    Kind.INSPECTION: "inspection-overdue",
    Kind.EXAMINATION: "examination-overdue",
    Kind.CERTIFICATE: "certificate-expired",
    Kind.RECHECK: "recheck-overdue",
    Kind.REPORT: "report-late",
}
MILE = Fraction(1609344, 1000)


@dataclass(frozen=True)
class DueRow:
    """What falls due at one time of one kind, on one or more parts."""

    many: tuple[Due, ...]
    waived: str = ""  # the waiver that speaks for it

    @property
    def first(self) -> Due:
        """The one that stands for all."""
        return self.many[0]

    @property
    def subject(self) -> str:
        """Engine and parts: `e-12 d-1, d-2, d-3`."""
        engine = self.first.engine
        parts = dict.fromkeys(due.subject.removeprefix(engine).strip() for due in self.many)
        return f"{engine} {', '.join(part for part in parts if part)}".strip()

    @property
    def words(self) -> str:
        """Subject and title, with the service days left."""
        left = self.first.left
        more = f", {left.words} service day{'' if left.exact == 1 else 's'} left" if left is not None else ""
        return f"{self.subject}: {self.first.title}{more}{f', waived by {self.waived}' if self.waived else ''}"


@dataclass(frozen=True)
class Month:
    """One month of the calendar, with what falls due in it."""

    first: date
    rows: tuple[DueRow, ...]

    @property
    def name(self) -> str:
        """As it is written: 2026-03."""
        return self.first.isoformat()[:7]

    @property
    def days(self) -> int:
        """How many days it has."""
        return (periods.shifted(self.first, (1, "month")) - self.first).days

    def on(self, day: int) -> list[DueRow]:
        """What falls due on a day of it."""
        return [row for row in self.rows if row.first.day is not None and row.first.day.day == day]


@dataclass(frozen=True)
class Counter:
    """Service days and distance since something was last done."""

    title: str
    short: str  # 31, annual
    since: str
    days: Count
    miles: str  # rounded, with `at least` where not all is told; '' where none is
    record: str


@dataclass(frozen=True)
class EngineCounters:
    """The counters of one engine, and how far its service records reach."""

    engine: str
    counters: tuple[Counter, ...]
    year: int
    last_year: Count
    this_year: Count
    told_until: date | None

    @property
    def since(self) -> str:
        """The counters in one line: `since the last 31: 12, 92: 40`; '' where nothing was ever done."""
        told = ", ".join(f"{c.short}: {c.days.words}" for c in self.counters)
        return f"since the last {told}" if told else ""

    @property
    def words(self) -> str:
        """The counters, and the years."""
        if self.told_until is None:
            return f"{self.engine}: no service record is on file."
        years = f"{self.last_year.words} in {self.year - 1}, {self.this_year.words} in {self.year}"
        since = f"{self.since}; " if self.since else ""
        return f"{self.engine}, service days: {since}{years}."


@dataclass(frozen=True)
class DueList:
    """Everything that falls due, as it is to be told."""

    as_of: date
    until: date
    overdue: tuple[DueRow, ...]
    now: tuple[DueRow, ...]
    coming: tuple[DueRow, ...]  # within the months asked for
    unknown: tuple[DueRow, ...]  # not assessed, undecided
    later: tuple[DueRow, ...]  # after the months asked for, or without a day
    months: tuple[Month, ...]
    counters: tuple[EngineCounters, ...]
    late: tuple[Late, ...]
    without_interval: str = ""  # of which engines no inspection can fall due; '' where that is none

    @property
    def rows(self) -> tuple[DueRow, ...]:
        """All rows, in the order they are told."""
        return (*self.overdue, *self.now, *self.unknown, *self.coming, *self.later)


def due_list(
    book: Book,
    *,
    engine: str = "",
    months: int = 12,
    only: tuple[str, ...] = (),
    waived: Mapping[str, str] = MappingProxyType({}),
) -> DueList:
    """What falls due for all engines or one, in the records asked for or all; `waived`: waivers by fingerprint.

    Of one engine it is what `status`, the annual summary and its page tell, the instruments used on it among it.
    """
    many = due_of(book, engine) if engine else everything_due(book)
    chosen = [due for due in many if _is_in(due.place.path, only)]
    until = periods.shifted(book.as_of, (months, "month")) if months else book.as_of
    rows = grouped(chosen, lambda due: waived.get(fingerprint_of(due, book.as_of), ""))
    overdue = [row for row in rows if row.first.verdict is Verdict.OUTSIDE]
    unknown = [row for row in rows if row.first.verdict in (Verdict.NOT_ASSESSED, Verdict.UNDECIDED)]
    rest = [row for row in rows if row not in overdue and row not in unknown]
    now = [row for row in rest if row.first.now]
    coming = [row for row in rest if not row.first.now and row.first.day is not None and row.first.day <= until]
    engines = [one for one in book.engines.values() if engine in ("", one.id)]
    return DueList(
        book.as_of,
        until,
        tuple(sorted(overdue, key=lambda row: (bool(row.waived), SEVERITY_ORDER[row.first.severity]))),
        tuple(now),
        tuple(coming),
        tuple(sorted(unknown, key=lambda row: SEVERITY_ORDER[row.first.severity])),
        tuple(row for row in rest if row not in now and row not in coming),
        months_of(book.as_of, until, coming),
        tuple(counters_of(book, one) for one in engines),
        tuple(
            late
            for late in _once(done_late(book))
            if (not engine or late.engine in ("", engine)) and _is_in(late.place.path, only)
        ),
        without_interval(book, engines),
    )


def _is_in(path: str, only: tuple[str, ...]) -> bool:
    """Whether a thing stands in a record asked for; in any where none is."""
    return not only or path in only or path.startswith(tuple(f"{folder}/" for folder in only))


def _once(many: Iterable[Late]) -> list[Late]:
    """Each thing done late once, where two parts of one axle say the same."""
    return list({(late.subject, late.title, late.done_on, late.late_by): late for late in many}.values())


def fingerprint_of(due: Due, as_of: date) -> str:
    """The identity of one thing that falls due: that of its finding, where a check finds it."""
    return due_finding(CHECKS.get(due.kind, "due"), due, as_of).fingerprint


def grouped(many: Iterable[Due], waived_by: Callable[[Due], str] = lambda due: "") -> list[DueRow]:
    """Rows of things that are alike but for the part: all pins examined on one day are one row."""
    found: dict[tuple[object, ...], list[Due]] = {}
    for due in many:
        by = waived_by(due)
        key = (due.kind, due.key, due.engine, due.title, due.verdict, due.day, due.cause, due.now, due.severity, by)
        found.setdefault(key if due.engine or due.kind is not Kind.CERTIFICATE else (due.subject, by), []).append(due)
    return [DueRow(tuple(one), str(key[-1])) for key, one in found.items()]


def months_of(as_of: date, until: date, rows: Iterable[DueRow]) -> tuple[Month, ...]:
    """Every month from a day to another, with what falls due in it."""
    found, first, chosen = [], as_of.replace(day=1), list(rows)
    while first <= until:
        after = periods.shifted(first, (1, "month"))
        here = [row for row in chosen if row.first.day is not None and first <= row.first.day < after]
        found.append(Month(first, tuple(here)))
        if after == date.max:
            break
        first = after
    return tuple(found)


def counters_of(book: Book, engine: Engine) -> EngineCounters:
    """Service days since each of an engine's inspections that come round by days, years or service days."""
    calendar, done = book.service_calendar(engine.id), done_by_interval(book, engine)
    found = []
    for interval in intervals_for(book, engine):
        times = done.get(interval.id)
        if not times or interval.every is None or interval.of not in ("", "engine"):
            continue
        if not concerns(book, engine, interval, done):
            continue
        day = times[-1].day
        count = calendar.count(day, book.as_of)
        told = times[-1].text, count, _miles(book, engine, day), times[-1].session.id
        found.append(Counter(interval.title, _short(interval), *told))
    year = book.as_of.year
    new_year, old_year = (periods.before(date(max(one, 1), 1, 1), (1, "day")) for one in (year, year - 1))
    return EngineCounters(
        engine.id,
        tuple(found),
        year,
        calendar.count(old_year, new_year),
        calendar.count(new_year, book.as_of),
        calendar.last,
    )


def _short(interval: Interval) -> str:
    """What an interval is called in few words: its service days, or its title without what all are."""
    if interval.every is not None and interval.every[1] == periods.SERVICE_DAY:
        return str(interval.every[0])
    return lower(interval.title.removesuffix(" inspection"))


def _miles(book: Book, engine: Engine, after: date) -> str:
    """The distance since a day, in the engine's unit, to the whole mile or kilometre."""
    metres, whole = book.service_calendar(engine.id).miles(after, book.as_of)
    if not metres:
        return ""
    in_km = book.in_mm(engine)
    shown = f"{round(metres / 1000)} km" if in_km else f"{round(metres / MILE)} miles"
    return shown if whole else f"at least {shown}"


__all__ = ["CHECKS", "Counter", "DueList", "DueRow", "EngineCounters", "Month", "due_list", "months_of"]
