"""Periods of the calendar: the last day within, counted exactly.

A period told in days runs until that many days have elapsed: 368 days from 2025-03-01 end with 2026-03-04.
A period told in years or months begins on its first day and ends with the day before it comes round again: 15 years
that begin on 2014-05-03 end with 2029-05-02; that begin on a 29 February, with the 28th where there is no 29th.
Which day is the last is our reading of words that leave it open; the finding names the day, so it can be seen.
"""

from __future__ import annotations

from calendar import monthrange
from datetime import date, timedelta

Period = tuple[int, str]
MONTHS = {"month": 1, "year": 12}
DAYS = {"day": 1, "week": 7}
SERVICE_DAY = "service day"


def shifted(start: date, period: Period) -> date:
    """The day a period after another, where the calendar has it; else the first day after that.

    >>> shifted(date(2012, 2, 29), (15, "year")), shifted(date(2025, 1, 31), (1, "month"))
    (datetime.date(2027, 3, 1), datetime.date(2025, 3, 1))
    """
    number, unit = period
    if unit in DAYS:
        ordinal = start.toordinal() + number * DAYS[unit]
        return date.fromordinal(ordinal) if ordinal < date.max.toordinal() else date.max
    year, month = divmod(start.year * 12 + start.month - 1 + number * MONTHS[unit], 12)
    if year >= date.max.year:
        return date.max
    days = monthrange(year, month + 1)[1]
    if start.day <= days:
        return date(year, month + 1, start.day)
    return date(year, month + 1, days) + timedelta(1)


def last_within(start: date, period: Period) -> date:
    """The last day within a period that begins at a day.

    >>> last_within(date(2025, 3, 1), (368, "day")), last_within(date(2014, 5, 3), (15, "year"))
    (datetime.date(2026, 3, 4), datetime.date(2029, 5, 2))
    """
    end = shifted(start, period)
    return end if period[1] in DAYS or end == date.max else end - timedelta(1)


def before(day: date, period: Period) -> date:
    """The day a period before another; the last of its month where that has no such day.

    >>> before(date(2026, 3, 31), (1, "month")), before(date(2026, 3, 4), (10, "day"))
    (datetime.date(2026, 2, 28), datetime.date(2026, 2, 22))
    """
    number, unit = period
    if unit in DAYS:
        return date.fromordinal(max(day.toordinal() - number * DAYS[unit], 1))
    year, month = divmod(day.year * 12 + day.month - 1 - number * MONTHS[unit], 12)
    if year < 1:
        return date.min
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))


def is_of_calendar(period: Period | None) -> bool:
    """Whether a period is told in days, weeks, months or years."""
    return period is not None and (period[1] in DAYS or period[1] in MONTHS)


LONG = 365  # days from which on a time is told in years and months


def time_words(start: date, end: date) -> str:
    """The days from one day to another for a reader; a long time in years and months first.

    >>> time_words(date(2014, 3, 26), date(2024, 2, 14)), time_words(date(2026, 2, 24), date(2026, 3, 1))
    ('9 years and 10 months (3612 days)', '5 days')
    """
    days = (end - start).days
    if days < LONG:
        return words((days, "day"))
    months = (end.year - start.year) * 12 + end.month - start.month - (end.day < start.day)
    many = [words((number, unit)) for number, unit in zip(divmod(months, 12), ("year", "month"), strict=True) if number]
    return f"{' and '.join(many)} ({words((days, 'day'))})"


def words(period: Period) -> str:
    """A period for a reader.

    >>> words((31, "service day")), words((1, "month"))
    ('31 service days', '1 month')
    """
    return f"{period[0]} {period[1]}{'' if period[0] == 1 else 's'}"
