"""Service days and miles of one engine, counted from its dated lines; an old yearly total makes a count a range.

A calendar day counts once, however many lines tell of it. The day from which is counted is left out, the day up to
which is counted is in. Where only a total is known of a period, its days may lie on either side of a border: the
count is then `12 to 17`; where a time has no record at all it is `at least 12`.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from datetime import date, timedelta
from fractions import Fraction
from itertools import accumulate
from typing import NamedTuple

from .service import Service

SILENT = 366  # days without a record, after one or between two, up to which silence counts as no service: ours


class Count(NamedTuple):
    """How many: at least, and at most; `most` is None where the records do not tell."""

    least: int
    most: int | None

    @property
    def exact(self) -> int | None:
        """The number, where it is known."""
        return self.least if self.least == self.most else None

    @property
    def words(self) -> str:
        """The count for a reader.

        >>> Count(12, 12).words, Count(12, 17).words, Count(12, None).words
        ('12', '12 to 17', 'at least 12')
        """
        if self.most is None:
            return f"at least {self.least}"
        return str(self.least) if self.most == self.least else f"{self.least} to {self.most}"


class Total(NamedTuple):
    """Service days of a period whose days are not known."""

    first: int
    last: int
    days: int


class ServiceCalendar:
    """The service days of one engine."""

    def __init__(self, services: Iterable[Service], placed: date | None = None) -> None:
        self.services = tuple(services)
        lines = [line for service in self.services for line in service.lines]
        self._runs = _joined((line.first.toordinal(), line.last.toordinal()) for line in lines)
        self._starts, self._ends = [first for first, _ in self._runs], [last for _, last in self._runs]
        self._before = [0, *accumulate(last - first + 1 for first, last in self._runs)]
        self._totals = _totals(self.services)
        told = [(s.period.first, s.period.last) for s in self.services if s.period.first and s.period.last]
        self.first = min((first for first, _ in told), default=None)
        self.last = max((last for _, last in told), default=None)
        self._gaps = _gaps([*told, *((line.first, line.last) for line in lines if line.first <= line.last)])
        self._whole_life = placed is not None and self.first is not None and self.first <= placed

    def _up_to(self, day: int) -> int:
        """Dated service days up to and with a day."""
        index = bisect_right(self._starts, day)
        if not index:
            return 0
        return self._before[index] - max(self._ends[index - 1] - day, 0)

    def _between(self, first: int, last: int) -> int:
        return self._up_to(last) - self._up_to(first - 1) if last >= first else 0

    def count(self, after: date | None, until: date) -> Count:
        """Service days after a day (None: ever), up to and with another; a time without any record is not known."""
        found = self.on_file(after, until)
        return Count(found.least, None if self._silent(after, until) else found.most)

    def on_file(self, after: date | None, until: date) -> Count:
        """The same from the records there are, taking a time without any for a time without service."""
        first, last = (after.toordinal() + 1 if after else 1), until.toordinal()
        least = most = self._between(first, last)
        for total in self._totals:
            low, high = max(first, total.first), min(last, total.last)
            undated = total.days - self._between(total.first, total.last)
            if high < low or undated <= 0:
                continue
            inside = high - low + 1 - self._between(low, high)
            outside = total.last - total.first + 1 - self._between(total.first, total.last) - inside
            sure = max(undated - outside, 0)
            least, most = least + sure, most + max(min(undated, inside), sure)
        return Count(least, most)

    def _silent(self, after: date | None, until: date) -> bool:
        """Whether part of the time has no record: before the first, long after the last, or long between two."""
        if self.first is None or self.last is None:
            return True
        before = not self._whole_life and (after is None or after.toordinal() + 1 < self.first.toordinal())
        return before or self.gap(after, until) is not None or (until - self.last).days > SILENT

    def gap(self, after: date | None, until: date) -> tuple[date, date] | None:
        """The first time between two records that is too long to be one without service, if there is such a one."""
        return next((g for g in self._gaps if g[0] <= until and (after is None or after < g[1])), None)

    def day_of(self, number: int, after: date | None) -> date | None:
        """The day of the so-many-th service day after a day; None where it is not known or has not come."""
        start = after.toordinal() if after else 0
        wanted = self._up_to(start) + number
        index = bisect_left(self._before, wanted)
        if number < 1 or not 0 < index <= len(self._runs):
            return None
        day = self._starts[index - 1] + wanted - self._before[index - 1] - 1
        undated = any(
            t.first <= day and t.last > start and t.days > self._between(t.first, t.last) for t in self._totals
        )
        return None if undated else date.fromordinal(day)

    def miles(self, after: date | None, until: date) -> tuple[Fraction, bool]:
        """Distance in metres after a day, up to and with another; and whether all of it is told."""
        found, whole = Fraction(0), not self._silent(after, until)
        for service in self.services:
            for line in service.lines:
                if line.last < line.first or line.first > until or (after and line.last <= after):
                    continue
                inside = line.last <= until and (after is None or line.first > after)
                found += line.miles if line.miles is not None and inside else 0
                whole = whole and line.miles is not None and inside
            first, last = service.period.first, service.period.last
            if service.total is None or first is None or last is None or first > until or (after and last <= after):
                continue
            inside = last <= until and (after is None or first > after)
            found += service.total_miles if service.total_miles is not None and inside else 0
            whole = whole and service.total_miles is not None and inside
        return found, whole


def _gaps(told: Iterable[tuple[date, date]]) -> list[tuple[date, date]]:
    """The times between two records that are longer than silence is taken for no service."""
    found: list[tuple[date, date]] = []
    until: date | None = None
    for first, last in sorted(told):
        if until is not None and (first - until).days > SILENT:
            found.append((until + timedelta(1), first - timedelta(1)))
        until = last if until is None else max(until, last)
    return found


def _joined(runs: Iterable[tuple[int, int]]) -> list[tuple[int, int]]:
    """Runs of days in order, those that overlap or touch made one."""
    found: list[tuple[int, int]] = []
    for first, last in sorted(run for run in runs if run[0] <= run[1]):
        if found and first <= found[-1][1] + 1:
            found[-1] = (found[-1][0], max(last, found[-1][1]))
        else:
            found.append((first, last))
    return found


def _totals(services: Iterable[Service]) -> list[Total]:
    """The totals by period; of two for one period the larger, and none that lies in another."""
    found: list[Total] = []
    many = [
        Total(s.period.first.toordinal(), s.period.last.toordinal(), s.total)
        for s in services
        if s.total is not None and s.period.first and s.period.last
    ]
    for total in sorted(many, key=lambda t: (t.first - t.last, -t.days)):
        if not any(other.first <= total.first and total.last <= other.last for other in found):
            found.append(total)
    return found
