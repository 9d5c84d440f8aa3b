"""What falls due once a year by a day of the calendar, for the year before."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from axlebook.findings import Verdict
from axlebook.limits import Interval

from .. import fields
from .done import Done
from .reckon import Term

NEVER = "never done on record"


def due_in(interval: Interval, year: int) -> date | None:
    """The last day within a year; 29 February is the 28th where there is none."""
    month, day = (int(part) for part in interval.each_year_by.split("-"))
    for found in range(day, max(day - 3, 0), -1):
        try:
            return date(year, month, found)
        except ValueError:
            continue
    return None


def filed_on(done: Done) -> date:
    """The day it was filed; the day of its record where that does not say."""
    return fields.day(done.session.tree, "reported_on").exact or done.day


def yearly(interval: Interval, times: list[Done], as_of: date) -> Term:
    """How it stands: filed this year, due this year, or overdue."""
    here, coming = due_in(interval, as_of.year), due_in(interval, as_of.year + 1)
    if here is None or coming is None:
        return Term(Verdict.NOT_ASSESSED, "", cause="its day of the year is not a day of the calendar")
    if not times:
        return Term(Verdict.NOT_ASSESSED, f"each year by {interval.each_year_by}", cause=NEVER)
    told = f"last done {filed_on(times[-1])}; each year by {interval.each_year_by}"
    if any(filed_on(done).year == as_of.year for done in times):
        return Term(Verdict.WITHIN, told, coming)
    missed = _first_missed(interval, times, as_of)
    if missed is not None:
        return Term(Verdict.OUTSIDE, f"{told}; none is on record for that of {missed}", missed, missed + timedelta(1))
    return Term(Verdict.WITHIN, told, here)


def _first_missed(interval: Interval, times: list[Done], as_of: date) -> date | None:
    """The first day that went by since the last time without one."""
    for year in range(filed_on(times[-1]).year + 1, as_of.year + 1):
        day = due_in(interval, year)
        if day is not None and day < as_of:
            return day
    return None


def yearly_late(interval: Interval, times: list[Done]) -> Iterator[tuple[Done, str, str]]:
    """Every time it was filed after its day."""
    for done in times:
        day, filed = due_in(interval, done.day.year), filed_on(done)
        if day is not None and filed > day:
            days = (filed - day).days
            yield done, f"{days} day{'' if days == 1 else 's'}", f"filed {filed}, due by {day}"
