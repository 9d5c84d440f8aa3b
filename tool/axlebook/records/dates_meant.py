"""Which days a date can mean that is not written as a record has it: one, two, or none."""

from __future__ import annotations

import re
from datetime import date

from .forms import is_day, is_month

LONGEST = 40  # signs; more is no date
_ISO = re.compile(r"[0-9]{4}-[0-9]{2}(?:-[0-9]{2})?")
_MONTH_NAMES = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_YEAR_FIRST = re.compile(r"([0-9]{4})[-/. ]?([0-9]{1,2})[-/. ]?([0-9]{1,2})")
_YEAR_LAST = re.compile(r"([0-9]{1,2})[-/. ]+([0-9]{1,2})[-/. ]+([0-9]{4})")
_NAMED = re.compile(r"(?:([0-9]{1,2})[-. ]+)?([A-Za-z]{3,9})[-., ]*(?:([0-9]{1,2}),? +)?([0-9]{4})")


def dates_meant(text: str) -> list[str]:
    """Return the ISO forms of every day that a date written otherwise can mean.

    >>> dates_meant("3/14/2025"), dates_meant("3/4/2025"), dates_meant("14 Mar 2025")
    (['2025-03-14'], ['2025-03-04', '2025-04-03'], ['2025-03-14'])
    """
    plain = text.strip()
    if len(plain) > LONGEST:
        return []
    tries: list[tuple[str | int, str | int, str | int]] = []
    if match := _YEAR_FIRST.fullmatch(plain):
        tries = [(match[1], match[2], match[3])]
    elif match := _YEAR_LAST.fullmatch(plain):
        tries = [(match[3], match[1], match[2]), (match[3], match[2], match[1])]
    elif match := _NAMED.fullmatch(plain):
        month, day = match[2][:3].lower(), match[1] or match[3]
        if month in _MONTH_NAMES and day:
            tries = [(match[4], _MONTH_NAMES.index(month) + 1, day)]
    found = [day for year, month, day_ in tries if (day := _iso(int(year), int(month), int(day_)))]
    return list(dict.fromkeys(found))


def as_written(text: str, otherwise: str) -> str:
    """How a day is to be written: as what it can mean, else such as another.

    >>> as_written("24/11/2026", "2026-03-07"), as_written("5/6/2026", "2026-03-07"), as_written("soon", "2026-03-07")
    ('Write 2026-11-24.', 'Write 2026-05-06 or 2026-06-05, whichever is meant.', 'Write it such as 2026-03-07.')
    """
    meant = dates_meant(text)
    if len(meant) > 1:
        return f"Write {' or '.join(meant)}, whichever is meant."
    return f"Write {meant[0]}." if meant else f"Write it such as {otherwise}."


def fault_of_iso(text: str) -> str:
    """What is wrong with a text in the form of an ISO day or month that is no day asked for; '' of another form.

    >>> fault_of_iso("2026-02-30"), fault_of_iso("2026-13"), fault_of_iso("2026-02"), fault_of_iso("3/14/2026")
    ('the calendar has no such day', 'the calendar has no such month', 'the day is missing', '')
    >>> fault_of_iso("9999-12-31")
    'a year from 1000 to 2999 is asked for'
    """
    if not _ISO.fullmatch(text):
        return ""
    if is_day(text):
        return "more is written than is asked for"
    if is_month(text):
        return "the day is missing"
    if not "1000" <= text[:4] < "3000":
        return "a year from 1000 to 2999 is asked for"
    return f"the calendar has no such {'month' if len(text) == 7 else 'day'}"


def _iso(year: int, month: int, day: int) -> str | None:
    try:
        text = date(year, month, day).isoformat()
    except ValueError:
        return None
    return text if is_day(text) else None
