"""The formats that the schemas name, each a yes or no on a text."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache

from axlebook.quantities import Interval, find_measure
from axlebook.records import forms
from axlebook.sources.schema_files import DIMENSIONS, ONE

WRITTEN: dict[str, Callable[[str], bool]] = {
    "id": forms.is_id,
    "day": forms.is_day,
    "day-or-less": forms.is_day_or_less,
    "month": forms.is_month,
    "year": forms.is_year,
    "clock": forms.is_clock,
    "whole-number": lambda text: forms.parse_whole_number(text) is not None,
    "number": lambda text: forms.parse_number(text) is not None,
    "share": forms.is_share,
    "poisson-ratio": forms.is_poisson_ratio,
    "period": lambda text: forms.parse_period(text) is not None,
    "place": lambda text: forms.parse_place(text) is not None,
    "part": lambda text: forms.parse_part(text) is not None,
    "position": lambda text: forms.parse_position(text) is not None,
}

#: What each sort of text can be at all: most need not be tried.
CANDIDATES: dict[str, tuple[str, ...]] = {
    "prose": (),
    "two words": ("place", "part", "position", "number", "share", "poisson-ratio", "period"),
    "digits first": (
        "id", "part", "day", "day-or-less", "month", "year", "clock", "whole-number", "number", "share",
        "poisson-ratio", "period", "position",
    ),
    "one word": ("id", "part", "place", "position", "day-or-less"),
}
_LAST_WORDS = frozenset({
    *forms.SIDES, *forms.ENDS, *forms.PLANES, *(word.rpartition(" ")[2] for word in forms.POSITION_WORDS), "deg", "°",
    "percent", "%", "cent", "day", "days", "month", "months", "year", "years",
})  # fmt: skip

#: Counted in these, a length of time has no fixed number of seconds.
_COUNTED_TIME = frozenset({"service day", "month", "year"})
_LONGEST_MEASURE = 60
# Most texts that are no measure start with a letter or are a plain date: they are turned away without a parse.
_MAY_BE_MEASURE = re.compile(r"(?!\d{4}-\d\d(?:-|$))(?:[^a-zA-Z]|under|over)", re.IGNORECASE)
_NONE: frozenset[str] = frozenset()


def sort_of(text: str) -> str:
    """Return which sort of text this is, one of CANDIDATES; no text satisfies a format not listed there.

    >>> sort_of("driver-2 right"), sort_of("oil on the rim"), sort_of("2026-01-10")
    ('two words', 'prose', 'digits first')
    """
    if " " in text:
        return "two words" if text.rpartition(" ")[2] in _LAST_WORDS else "prose"
    return "digits first" if "0" <= text[:1] <= "9" else "one word"


def measured_formats(text: str) -> frozenset[str]:
    """Return the formats of measures that a text satisfies.

    >>> sorted(measured_formats("under 0.0015 in")), sorted(measured_formats("31 days"))
    (['length', 'measure'], ['measure', 'one measure', 'one time', 'time'])
    """
    if len(text) > _LONGEST_MEASURE or not _MAY_BE_MEASURE.match(text.lstrip()):
        return _NONE
    measure = find_measure(text)
    if measure is None:
        return frozenset({"count", "one count"}) if forms.parse_whole_number(text) is not None else _NONE
    return _formats(measure.dimension, measure.unit in _COUNTED_TIME, isinstance(measure, Interval))


@lru_cache
def _formats(dimension: str, is_counted_time: bool, is_interval: bool) -> frozenset[str]:
    names = {"measure", dimension}
    if is_counted_time:
        names.add("time")
    if dimension == "temperature":
        names.add("temperature_difference")
    return frozenset(names if is_interval else names | {ONE + name for name in names})


def known_formats() -> frozenset[str]:
    """Return the name of every format."""
    measured = DIMENSIONS | {"measure"}
    return frozenset(WRITTEN) | measured | {ONE + name for name in measured}
