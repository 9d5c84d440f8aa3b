"""One problem of a record, and the words for a text that is not written as its format asks."""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Iterable
from fractions import Fraction
from typing import NamedTuple

from axlebook.quantities import EXAMPLES, NO_UNIT, UNITS, NotAMeasure, parse_measure, parse_quantity
from axlebook.records.dates_meant import dates_meant, fault_of_iso
from axlebook.sources.names import letter_first
from axlebook.sources.places_meant import place_hint, position_hint
from axlebook.sources.refusals import shown
from axlebook.sources.schema_files import ONE

KEY = "#key"
UNITS_OF_KEY = {"miles": "mile"}  # a length that nobody writes in inches


class Problem(NamedTuple):
    """What is wrong in a record, where, and what to do; `left_out`: the part that cannot be used because of it."""

    check: str
    pointer: str
    message: str
    next: str
    left_out: str | None = None  # a JSON Pointer; "" is the whole record, None nothing


class Wording(NamedTuple):
    """Which check a fault belongs to, what is said of it, and what to do."""

    check: str
    message: str
    next: str


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Return the known word that a misspelled one was likely meant to be.

    >>> nearest("flange_heigth", ["flange_height", "tire_width"]), nearest("zzz", ["tire"])
    ('flange_height', None)
    """
    if len(word) > 80:
        return None
    by_folded = {text.casefold().replace(" ", "_").replace("-", "_"): text for text in known}
    folded = word.casefold().replace(" ", "_").replace("-", "_")
    found = difflib.get_close_matches(folded, by_folded, n=1, cutoff=0.7)
    return by_folded[found[0]] if found else None


def format_wording(name: str, text: str, key: str = "") -> Wording:
    """Say what is wrong with a text that does not satisfy the format of that name, under a key where one is."""
    said = _WRITTEN.get(name)
    return said(text) if said else _measure(name, text, key)


def _read(text: str) -> str:
    return f"Read `{shown(text)}`"


def _measure(name: str, text: str, key: str) -> Wording:
    asked = name.removeprefix(ONE)
    try:
        if name == "measure":
            measure = parse_measure(text)
        else:
            measure = parse_quantity(text) if name.startswith(ONE) else parse_measure(text)
    except NotAMeasure as refused:
        hint = _with_unit(text, asked, key) if refused.reason == NO_UNIT else refused.hint
        return Wording("not-a-measure", f"{_read(text)}: {refused.reason}", hint)
    try:
        parse_quantity(text, asked)
        hint = ""
    except NotAMeasure as refused:
        hint = refused.hint
    wanted, found = asked.replace("_", " "), measure.dimension.replace("_", " ")
    return Wording("wrong-dimension", f"{_read(text)}: a {wanted} is asked for, and this is a {found}.", hint)


def _with_unit(text: str, dimension: str, key: str) -> str:
    """The number with the units that are written under this key, or in this dimension."""
    unit = UNITS[UNITS_OF_KEY.get(key) or parse_measure(EXAMPLES.get(dimension, EXAMPLES["length"])).unit]
    both = [one.shown(Fraction(2)) for one in (unit, UNITS.get(unit.counterpart)) if one is not None]
    return f"Write the unit after it: {' or '.join(f'{text.strip()} {name}' for name in both)}."


def _date(example: str) -> Callable[[str], Wording]:
    def say(text: str) -> Wording:
        meant = dates_meant(text)
        if meant and text not in meant:
            return Wording("not-a-date", f"{_read(text)}: a date is not written like this here.",
                           f"Write {' or '.join(meant)}.")
        if fault := fault_of_iso(text):
            return Wording("not-a-date", f"{_read(text)}: {fault}.",
                           f"Look at the card again, and write it such as {example}.")
        return Wording("not-a-date", f"{_read(text)}, which is no date.", f"Write it such as {example}.")

    return say


def _plain(check: str, what: str, hint: str) -> Callable[[str], Wording]:
    def say(text: str) -> Wording:
        if re.fullmatch(r"[0-9]*,[0-9]+(?:[eE][-+]?[0-9]{1,2})?(?: *(?:percent|%))?", text.strip()):
            return Wording(check, f"{_read(text)}: a comma is not read as a decimal mark.",
                           f"Write {text.strip().replace(',', '.')}.")
        return Wording(check, f"{_read(text)}, which is {what}.", hint)

    return say


def _place(text: str) -> Wording:
    return Wording("not-a-place", f"{_read(text)}, which names no place on an engine.", place_hint(text))


def _position(text: str) -> Wording:
    return Wording("not-a-position", f"{_read(text)}, which is no position round a wheel.", position_hint(text))


def _id(text: str) -> Wording:
    fitting = re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")
    hint = f"Write {fitting} if a file of that name is meant." if re.match("[a-z]", fitting) else (
        f"{number}; its file has the same name." if (number := letter_first(text))
        else "Write the name of its file without the ending.")
    return Wording("not-an-id", f"{_read(text)}, which is no id: lower-case letters, digits and hyphens, "
                   "starting with a letter or a date, at most 60.", hint)


_WRITTEN: dict[str, Callable[[str], Wording]] = {
    "id": _id,
    "day": _date("2026-01-10"),
    "day-or-less": _date("2026-01-10, or 2026-01, 2026 or unknown where less is known"),
    "month": _date("2026-01"),
    "year": _date("2026"),
    "clock": _plain("not-a-time", "no time of day", 'Write hours and minutes of 24 hours, in quotes: "09:05".'),
    "whole-number": _plain("not-a-whole-number", "no whole number", "Write digits alone, such as 14."),
    "number": _plain("not-a-number", "no plain number above zero", "Write a number alone, such as 2 or 0.9, "
                     "or a share such as 90 percent."),
    "share": _plain("not-a-number", "no share above zero and up to the whole", "Write it such as 0.9 or 90 percent."),
    "poisson-ratio": _plain("not-a-number", "no Poisson ratio: that lies above zero and under one half",
                            "Look at the source again: for steel it is near 0.29."),
    "period": _plain("not-a-period", "no whole number of days, months, years or service days",
                     "Write it in a smaller unit, or with its unit: 18 months for a year and a half, 31 service days."),
    "place": _place,
    "part": _plain("not-a-part", "no part's id", "Write its id, with the side or end where it has two: t-4471, "
                   "d-3 left, et-1 A."),
    "position": _position,
}  # fmt: skip
