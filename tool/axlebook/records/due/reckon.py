"""How far a period has run: by the calendar exactly, by service days as far as the records tell."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from math import ceil
from typing import NamedTuple

from axlebook.findings import Verdict

from .. import periods
from ..counters import Count, ServiceCalendar
from ..periods import SERVICE_DAY, Period

YEAR = 365
WEIGHT = [Verdict.OUTSIDE, Verdict.UNDECIDED, Verdict.NOT_ASSESSED, Verdict.WITHIN]
NO_RECORD = "no service record tells all of the time since"


class Term(NamedTuple):
    """One period as it stands on a day."""

    verdict: Verdict
    told: str
    due_on: date | None = None
    since: date | None = None
    left: Count | None = None
    estimate: date | None = None
    cause: str = ""
    now: bool = False  # to be done with what is overdue already


def by_calendar(start: date, period: Period, as_of: date) -> Term:
    """A period of days, months or years that began on a day."""
    last = periods.last_within(start, period)
    told = f"{periods.words(period)} from {start} end with {last}"
    if as_of > last:
        return Term(Verdict.OUTSIDE, told, last, last + timedelta(1))
    return Term(Verdict.WITHIN, told, last)


def by_service(calendar: ServiceCalendar, after: date, number: int, as_of: date) -> Term:
    """A number of service days since a day.

    The last of them is still within (ours): the inspection is due before the engine is in steam once more.
    """
    count = calendar.count(after, as_of)
    told = f"{count.words} of {number} service days since {after}"
    if count.least > number:
        return Term(Verdict.OUTSIDE, told, since=calendar.day_of(number + 1, after))
    if count.most is None:
        gap = calendar.gap(after, as_of)
        cause = f"no service record tells of {gap[0]} to {gap[1]}, nor that there was none" if gap else NO_RECORD
        return Term(Verdict.NOT_ASSESSED, told, cause=cause)
    if count.most > number:
        return Term(Verdict.UNDECIDED, told)
    left = Count(number - count.most, number - count.least)
    return Term(Verdict.WITHIN, told, left=left, estimate=estimated(calendar, left.least, as_of))


def estimated(calendar: ServiceCalendar, left: int, as_of: date) -> date | None:
    """When so many service days would be used up, were the coming year like the last 365 days.

    The service days of the last 365 days are laid over the time to come, so a summer season stays one; where only
    totals are known they are spread evenly. None where there were none, or where it is not known how many.
    """
    start = periods.before(as_of, (YEAR, "day"))
    pace = calendar.on_file(start, as_of).exact
    if not pace:
        return None
    years, rest = divmod(max(left, 1) - 1, pace)
    if years > 200:
        return None
    like = calendar.day_of(rest + 1, start)
    if like is not None:
        return periods.shifted(like, (YEAR * (years + 1), "day"))
    return periods.shifted(as_of, (ceil(left * YEAR / pace), "day"))


def reckoned(
    start: date, after: date, asked: Iterable[Period | None], calendar: ServiceCalendar, as_of: date, of_two: str
) -> Term:
    """One or two periods together: the first of them to run out, or the last.

    `start` begins a period of the calendar, `after` is the day whose service days no longer count.
    """
    terms = [
        by_service(calendar, after, period[0], as_of) if period[1] == SERVICE_DAY else by_calendar(start, period, as_of)
        for period in asked
        if period is not None and (period[1] == SERVICE_DAY or periods.is_of_calendar(period))
    ]
    if not terms:
        return Term(Verdict.NOT_ASSESSED, "", cause="its period is not told in days, months, years or service days")
    order = WEIGHT if of_two == "first" else WEIGHT[::-1]
    verdict = min((term.verdict for term in terms), key=order.index)
    return _together(terms, verdict, last=of_two == "last")


def _together(terms: list[Term], verdict: Verdict, *, last: bool) -> Term:
    pick = max if last else min
    due_on = pick((term.due_on for term in terms if term.due_on is not None), default=None)
    estimate = pick((term.estimate for term in terms if term.estimate is not None), default=None)
    if last and due_on is not None and estimate is not None:
        due_on, estimate = (due_on, None) if due_on >= estimate else (None, estimate)
    sinces = [term.since for term in terms if term.since is not None and verdict is Verdict.OUTSIDE]
    return Term(
        verdict,
        "; ".join(term.told for term in terms),
        due_on,
        pick(sinces) if sinces else None,
        next((term.left for term in terms if term.left is not None), None),
        estimate,
        next((term.cause for term in terms if term.verdict is verdict and term.cause), ""),
    )
