"""How ids, days, places, parts and positions are written, and what each text of them means.

Schemas name these forms as formats; records are built with the same functions, so that a text accepted by one
is never misread by the other. Every pattern here is read in one pass from left to right.
"""

from __future__ import annotations

import calendar
import re
from datetime import date
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from axlebook.quantities import Quantity, find_measure

LONGEST_ID = 60
_LONGEST_NUMBER = 30
_PERIODS = frozenset({"day", "month", "year", "service day"})
UNKNOWN = "unknown"
SIDES = ("left", "right")
ENDS = ("A", "B")
PLANES = ("inner", "middle", "outer")
POSITION_WORDS = ("worst", "all round", "front", "rear", "top", "bottom")

_DEVICES = frozenset(
    ["con", "prn", "aux", "nul", *(f"{port}{number}" for port in ("com", "lpt") for number in range(10))]
)
_ID = re.compile(r"(?:[a-z]|(?P<since>[12][0-9]{3}(?:-[0-9]{2}(?:-[0-9]{2})?)?)(?![0-9]))[a-z0-9-]*")
_DAY = re.compile(r"([12][0-9]{3})-([0-9]{2})-([0-9]{2})")
_MONTH = re.compile(r"([12][0-9]{3})-(0[1-9]|1[0-2])")
_YEAR = re.compile(r"[12][0-9]{3}")
_CLOCK = re.compile(r"(?:[01][0-9]|2[0-3]):[0-5][0-9]")
_WHOLE = re.compile(r"[0-9]{1,9}")
_NUMBER = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,9})?")
_PLACE = re.compile(r"([a-z]+(?:-[a-z]+)*)(?:-([1-9][0-9]?))?(?: (left|right|front|rear))?")
_PART = re.compile(r"([a-z0-9-]+)(?: (left|right|A|B))?")
_POSITION = re.compile(r"([0-9]{1,3}(?:\.[0-9]{1,3})?) ?(?:deg|°)(?: (inner|middle|outer))?")


class Spot(NamedTuple):
    """A place on an engine: `driver-2 right` is stem driver, number 2, side right."""

    stem: str
    number: int | None
    side: str

    @property
    def axle(self) -> str:
        """The place without its side: `driver-2`."""
        return self.stem if self.number is None else f"{self.stem}-{self.number}"


class PartName(NamedTuple):
    """A part by its identity, with the side or end where it has two."""

    id: str
    side: str


class Position(NamedTuple):
    """Where round and across a part a value was read; `plane` also holds words such as `worst`."""

    angle: Fraction | None
    plane: str


@lru_cache(maxsize=2**16)
def is_id(text: str) -> bool:
    """Say whether a text may be a record's id, and so its file name on every system.

    >>> is_id("t-4471"), is_id("2026-01-10-e-12-annual"), is_id("T 4471"), is_id("2026-02-30-x"), is_id("nul")
    (True, True, False, False, False)
    """
    match = _ID.fullmatch(text)
    if match is None or len(text) > LONGEST_ID or text in _DEVICES:
        return False
    since = match["since"]
    return since is None or is_day_or_less(since)


@lru_cache(maxsize=2**16)
def parse_day(text: str) -> date | None:
    """Read a day of the calendar; None where it is none.

    >>> parse_day("2024-02-29"), parse_day("2026-02-29"), parse_day("3/14/2025")
    (datetime.date(2024, 2, 29), None, None)
    """
    match = _DAY.fullmatch(text) if len(text) == 10 else None
    if match is None:
        return None
    year, month, day = map(int, match.groups())
    if not 1 <= month <= 12 or not 1 <= day <= calendar.monthrange(year, month)[1]:
        return None
    return date(year, month, day)


def is_day(text: str) -> bool:
    """Say whether a text is a real day, YYYY-MM-DD."""
    return parse_day(text) is not None


def is_month(text: str) -> bool:
    """Say whether a text is a month, YYYY-MM."""
    return _MONTH.fullmatch(text) is not None


def is_year(text: str) -> bool:
    """Say whether a text is a year, YYYY."""
    return _YEAR.fullmatch(text) is not None


def is_day_or_less(text: str) -> bool:
    """Say whether a text is a day, a month, a year, or the word unknown."""
    return text == UNKNOWN or span_of_days(text) is not None


def span_of_days(text: str) -> tuple[date, date] | None:
    """Give the first and last day that a written date may mean; None for `unknown` and for what is no date.

    >>> span_of_days("2014-02")
    (datetime.date(2014, 2, 1), datetime.date(2014, 2, 28))
    """
    day = parse_day(text)
    if day is not None:
        return day, day
    if not "1" <= text[:1] <= "2":
        return None
    if match := _MONTH.fullmatch(text):
        year, month = int(match[1]), int(match[2])
        return date(year, month, 1), date(year, month, calendar.monthrange(year, month)[1])
    if is_year(text):
        return date(int(text), 1, 1), date(int(text), 12, 31)
    return None


def is_clock(text: str) -> bool:
    """Say whether a text is a time of day, HH:MM."""
    return _CLOCK.fullmatch(text) is not None


def parse_whole_number(text: str) -> int | None:
    """Read a count of things; None where it is none."""
    return int(text) if _WHOLE.fullmatch(text) else None


def parse_number(text: str) -> Fraction | None:
    """Read a plain number or a share in percent, above zero and exact; None where it is neither.

    >>> parse_number("0.9"), parse_number("90 percent"), parse_number("9 in"), parse_number("1/2")
    (Fraction(9, 10), Fraction(9, 10), None, None)
    """
    if _NUMBER.fullmatch(text):
        return Fraction(text) or None
    found = find_measure(text) if "0" <= text[:1] <= "9" and len(text) <= _LONGEST_NUMBER else None
    return (found.exact or None) if isinstance(found, Quantity) and found.dimension == "ratio" else None


def is_share(text: str) -> bool:
    """Say whether a text is a share: above zero and not more than the whole.

    >>> is_share("0.9"), is_share("100 percent"), is_share("120 percent"), is_share("90")
    (True, True, False, False)
    """
    found = parse_number(text)
    return found is not None and found <= 1


def is_poisson_ratio(text: str) -> bool:
    """Say whether a text may be a metal's Poisson ratio: at one half nothing could be compressed at all.

    >>> is_poisson_ratio("0.29"), is_poisson_ratio("0.5"), is_poisson_ratio("29 percent")
    (True, False, True)
    """
    found = parse_number(text)
    return found is not None and found < Fraction(1, 2)


def parse_period(text: str) -> tuple[int, str] | None:
    """Read a whole number of days, months, years or service days; None where it is none.

    >>> parse_period("31 service days"), parse_period("15 years"), parse_period("1.5 years"), parse_period("36 h")
    ((31, 'service day'), (15, 'year'), None, None)
    """
    found = find_measure(text) if "0" <= text[:1] <= "9" and len(text) <= _LONGEST_NUMBER else None
    if not isinstance(found, Quantity) or found.unit not in _PERIODS or found.number.denominator != 1:
        return None
    return int(found.number), found.unit


@lru_cache(maxsize=2**12)
def parse_place(text: str) -> Spot | None:
    """Read a place on an engine; None where it is none. A numbered place has a left and a right only.

    >>> parse_place("driver-2 right"), parse_place("tender rear"), parse_place("driver-2 rear")
    (Spot(stem='driver', number=2, side='right'), Spot(stem='tender', number=None, side='rear'), None)
    """
    match = _PLACE.fullmatch(text)
    if match is None:
        return None
    stem, number, side = match.groups(default="")
    if number and side not in ("", *SIDES):
        return None
    return Spot(stem, int(number) if number else None, side)


def parse_part(text: str) -> PartName | None:
    """Read a part by its identity; None where it is none.

    >>> parse_part("t-4471"), parse_part("et-1 A")
    (PartName(id='t-4471', side=''), PartName(id='et-1', side='A'))
    """
    match = _PART.fullmatch(text)
    if match is None or not is_id(match[1]):
        return None
    return PartName(match[1], match[2] or "")


@lru_cache(maxsize=2**12)
def parse_position(text: str) -> Position | None:
    """Read where round (0 deg or more, under 360) and across a part a value was taken; None where it is none.

    >>> parse_position("120 deg inner"), parse_position("worst"), parse_position("360 deg")
    (Position(angle=Fraction(120, 1), plane='inner'), Position(angle=None, plane='worst'), None)
    """
    if text in PLANES or text in POSITION_WORDS:
        return Position(None, text)
    match = _POSITION.fullmatch(text)
    if match is None:
        return None
    angle = Fraction(match[1])
    return Position(angle, match[2] or "") if angle < 360 else None


@lru_cache(maxsize=2**12)
def position_named(text: str) -> str:
    """One text for each position, however it is written; what is none is given back as it is.

    >>> position_named("090 deg"), position_named("22.50° inner"), position_named("worst")
    ('90 deg', '22.5 deg inner', 'worst')
    """
    found = parse_position(text)
    if found is None or found.angle is None:
        return text
    return f"{float(found.angle):g} deg {found.plane}".rstrip()
