"""Dates as old cards know them: a day, a month, a year, or unknown."""

from __future__ import annotations

from calendar import monthrange
from datetime import date
from functools import lru_cache
from typing import NamedTuple


class Day(NamedTuple):
    """What is known of a date: the first and the last day it can be; None where unknown."""

    text: str
    first: date | None
    last: date | None

    @property
    def exact(self) -> date | None:
        """The day, where it is known to the day."""
        return self.first if self.first == self.last else None


UNKNOWN = Day("unknown", None, None)


@lru_cache(maxsize=65536)
def parse_day(text: str) -> Day:
    """A date text to what is known of it. Text that is no date is unknown here: its form was judged before."""
    try:
        match len(text):
            case 10:
                day = date.fromisoformat(text)
                return Day(text, day, day)
            case 7:
                year, month = int(text[:4]), int(text[5:])
                return Day(text, date(year, month, 1), date(year, month, monthrange(year, month)[1]))
            case 4:
                return Day(text, date(int(text), 1, 1), date(int(text), 12, 31))
    except ValueError:
        pass
    return Day(text or "unknown", None, None)
