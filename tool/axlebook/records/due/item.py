"""One thing that falls due, whatever asks for it; and one that was done late."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from enum import StrEnum
from typing import NamedTuple

from axlebook.findings import Place, Severity, Verdict

from ..counters import Count
from ..periods import before, time_words


class Kind(StrEnum):
    """What sort of thing falls due."""

    INSPECTION = "inspection"
    EXAMINATION = "examination"
    REPORT = "report"
    NOTICE = "notice"
    CERTIFICATE = "certificate"
    RECHECK = "re-check"
    WATCH = "watch"
    WAIVER = "waiver"
    RESTRICTION = "restriction"
    LIMIT = "limit"


class Due(NamedTuple):
    """One thing that falls due. `within` is not due yet; `outside` is overdue; else it is said why it is not known."""

    kind: Kind
    key: str  # interval, entry, instrument: what asks for it
    engine: str  # '' where it is no engine's
    subject: str  # e-12, e-12 d-4, pyrometer-1
    title: str
    verdict: Verdict
    severity: Severity
    told: str  # how it was reckoned: what was done when, and the period
    next: str
    source: str
    place: Place
    due_on: date | None = None  # the last day within
    left: Count | None = None  # service days left
    estimate: date | None = None  # when those would be used up, at the pace of the last year
    since: date | None = None  # overdue from this day on, where it is known
    done_on: str = ""
    record: str = ""  # the record of the last time
    cause: str = ""  # why it was not assessed
    where: str = ""  # what tells two of one subject apart, beside the key
    now: bool = False  # to be seen to before the engine runs, whatever the date
    silent: bool = False  # whether the record of the last time holds nothing that was read, seen or left out
    partial: str = ""  # what tells of too few wheels to count as the last time, in words

    @property
    def day(self) -> date | None:
        """The day it stands at in a list: overdue since, due on or estimated; None where no day is known."""
        if self.since is not None:
            return self.since
        return min((day for day in (self.due_on, self.estimate) if day is not None), default=None)

    @property
    def estimated(self) -> bool:
        """Whether its day is an estimate."""
        return self.since is None and self.estimate is not None and self.day == self.estimate != self.due_on


class Late(NamedTuple):
    """One thing that was done, and late."""

    kind: Kind
    key: str
    engine: str
    subject: str
    title: str
    severity: Severity
    done_on: date
    late_by: str  # 12 days, 3 service days
    told: str
    source: str
    place: Place
    record: str

    @property
    def late_words(self) -> str:
        """How late; a long time in years and months."""
        number, _, unit = self.late_by.partition(" ")
        if not number.isdecimal() or unit not in ("day", "days"):
            return self.late_by
        return time_words(before(self.done_on, (int(number), "day")), self.done_on)


def on_silent(many: Iterable[Due]) -> str:
    """On which records the dates of some things stand that hold no reading, in words; '' where on none.

    The date moved on because somebody stands for the record. Whoever reads the date has to know.
    """
    found: dict[str, list[str]] = {}
    for due in many:
        if due.silent and due.title not in found.setdefault(due.record, []):
            found[due.record].append(due.title)
    return "; ".join(f"{record} ({_first_of(titles)})" for record, titles in found.items())


def not_counted(many: Iterable[Due]) -> str:
    """Which records do not count as the last time, and of what they tell nothing; '' where none is."""
    return "; ".join(dict.fromkeys(due.partial for due in many if due.partial))


def _first_of(titles: list[str]) -> str:
    return titles[0] if len(titles) == 1 else f"{titles[0]} and {len(titles) - 1} more"


def in_order(due: Due) -> tuple[object, ...]:
    """Overdue first, then what asks to be seen to now, then by day, then what has none."""
    rank = 0 if due.verdict is Verdict.OUTSIDE else 1 if due.now else 2 if due.day is not None else 3
    return (rank, due.day or date.max, due.engine, due.subject, due.kind, due.key, due.where)


__all__ = ["Due", "Kind", "Late", "in_order", "not_counted", "on_silent"]
