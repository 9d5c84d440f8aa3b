"""What is asked before the walk: when, who, what for, how held, how warm, with what."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date

from axlebook.quantities import NotAMeasure, both_ways, parse_quantity

from ..dates_meant import as_written
from ..forms import is_id, parse_day
from .record import names

LEFT_OUT = "-"
UNITS = ("in", "mm")
UNITS_TYPED = {"1": "in", "2": "mm", '"': "in", "inch": "in", "inches": "in", "millimeter": "mm", "millimeters": "mm",
               "millimetres": "mm"}  # fmt: skip
_HOUR = re.compile(r"(\d{1,2})(?: ?o['’´` ]?clock| ?h)?", re.IGNORECASE)
OF_THE_WALK = re.compile(r"(?:e|end|k|b|w|n|n .*|(?:r|redo) ?\d+|2nd .*)", re.IGNORECASE)
LISTED = 12  # names that are shown with their numbers


class Refused(Exception):  # noqa: N818 - an answer to the person
    """Why an answer cannot be taken, in a sentence."""

    def __init__(self, why: str, *, insist: bool = False) -> None:
        super().__init__(why)
        self.why, self.insist = why, insist  # insist: the same answer once more is taken


@dataclass(frozen=True)
class Known:
    """What the ledger knows of the people, the instruments and the day."""

    today: date
    people: tuple[str, ...] = ()
    instruments: tuple[str, ...] = ()
    measures: Mapping[str, tuple[str, ...]] | None = None  # by instrument: the quantities it is for
    holds: tuple[str, ...] = ()
    purposes: tuple[str, ...] = ()
    reasons: tuple[str, ...] = ()
    planes: Mapping[str, str] = field(default_factory=dict)  # by instrument: the plane it reads in

    def instruments_for(self, quantity: str) -> list[str]:
        """The instruments that say that they measure a quantity."""
        return [id for id in self.instruments if quantity in (self.measures or {}).get(id, ())]


@dataclass(frozen=True)
class Field:
    """One thing asked before the walk."""

    key: str
    asks: str
    help: str
    read: Callable[[Known, str], str]
    choices: Callable[[Known], tuple[str, ...]] = lambda known: ()
    needed: bool = False
    kept_for_next: bool = False  # what was said last time is offered


def _day(known: Known, text: str) -> str:
    day = parse_day(text)
    if day is None:
        raise Refused(f"{text[:30]!r} is no day as it is written here. {as_written(text, str(known.today))}")
    if day > known.today:
        raise Refused(f"{day} is not yet here: today is {known.today}.")
    return day.isoformat()


def _choice(words: tuple[str, ...], text: str, what: str) -> str:
    """One of some words, by its number, by how it begins or by a part of it that no other has.

    >>> _choice(("on blocks", "loose on the rail"), "the rail", "way")
    'loose on the rail'
    """
    if text.isdecimal() and 1 <= int(text) <= len(words):
        return words[int(text) - 1]
    asked = text.lower()
    ways = (lambda word: word == asked), (lambda word: word.startswith(asked)), (lambda word: asked in word)
    for fits in ways:
        found = [word for word in words if fits(word)]
        if len(found) == 1:
            return found[0]
    raise Refused(f"{text[:30]!r} is no {what}. There are: {numbered(words)}.")


def numbered(words: tuple[str, ...]) -> str:
    """Words with their numbers.

    >>> numbered(("no access", "too hot"))
    '1 no access, 2 too hot'
    """
    return ", ".join(f"{number} {word}" for number, word in enumerate(words, 1))


def no_such_number(words: tuple[str, ...], text: str) -> str:
    """What is said of a number that none of some listed words has."""
    return f"There is no {text[:30]} in the list: {numbered(words)}."


def _people(known: Known, text: str) -> str:
    return _ids(known.people, text, "person", "people")


def _instruments(known: Known, text: str) -> str:
    return _ids(known.instruments, text, "instrument", "instruments")


def _ids(there: tuple[str, ...], text: str, what: str, folder: str) -> str:
    found = [_listed(there, name) for name in names(text)]
    for id in found:
        if id.isdecimal() and id not in there and there:
            raise Refused(no_such_number(there, id) if len(there) <= LISTED else
                          f"{id[:30]} is no name, and there are too many for numbers: {', '.join(there)}.")  # fmt: skip
        if not is_id(id):
            raise Refused(f"{id[:30]!r} cannot be a name here: lower-case letters, digits and hyphens, such as v3.")
    for id in found:
        if id not in there:
            listed = f" There are: {', '.join(there)}." if there else ""
            raise Refused(
                f"No {what} {id} is on record in {folder}/.{listed} If it is right, write it once more; "
                f"`axlebook new {what} {id}` adds the record later.",
                insist=True,
            )
    return ", ".join(dict.fromkeys(found))


def _listed(there: tuple[str, ...], name: str) -> str:
    """A name as it is on record: by its number in the list, and however it is capitalized."""
    if name.isdecimal() and name not in there and 1 <= int(name) <= len(there) <= LISTED:
        return there[int(name) - 1]
    return name if name in there or name.lower() not in there else name.lower()


def _clock(known: Known, text: str) -> str:
    """An hour of the clock; other words, where they are typed twice.

    >>> _clock(None, "6"), _clock(None, "9 oclock")
    ("6 o'clock", "9 o'clock")
    """
    match = _HOUR.fullmatch(text)
    if match and 1 <= int(match[1]) <= 12:
        return f"{int(match[1])} o'clock"
    words = any(word.isalpha() and len(word) > 2 for word in text.split())
    again = " If it is what you mean, write it once more." if words else ""
    raise Refused(f"{text[:30]!r} is no hour of the clock. Write 6 for 6 o'clock, or - to leave it out.{again}",
                  insist=words)  # fmt: skip


def _temperature(known: Known, text: str) -> str:
    scale = text[-1:].upper()
    if scale in ("F", "C") and text[:-1].rstrip(" °").lstrip("+-").replace(".", "", 1).isdecimal():
        text = f"{text[:-1].rstrip(' °')} deg{scale}"  # no other unit of that letter is a temperature
    if text.lstrip("+-").replace(".", "", 1).isdecimal():
        raise Refused(f"{text} on which scale? Type {text} F or {text} C.")
    try:
        return parse_quantity(text, "temperature").text.strip()
    except NotAMeasure as refused:
        raise Refused(f"{sentence(refused.reason)} Write it such as 54 degF or 12 degC.") from None


def sentence(words: str) -> str:
    """Words that begin as a sentence does."""
    return words[:1].upper() + words[1:]


def _unit(known: Known, text: str) -> str:
    plain = text.lower().rstrip(".")
    found = UNITS_TYPED.get(plain, plain)
    if found not in UNITS:
        raise Refused("Write in or mm, or - to write the unit with every reading.")
    return found


def _hold(known: Known, text: str) -> str:
    return _choice(known.holds, text, "way to hold a wheelset")


def _purpose(known: Known, text: str) -> str:
    if not known.purposes and is_id(text):
        return text
    return _choice(known.purposes, text, "purpose that a plan is for")


HEADER = (
    Field("measured_on", "Day", "The day of measuring, YYYY-MM-DD. Enter: today.", _day, needed=True),
    Field("purpose", "What for", "The occasion: the plans of the ledger say what is asked for on it.", _purpose,
          lambda known: known.purposes, needed=True),
    Field("by", "Who measures", "The people at the wheel, as their files in people/ are named: lead, v3.", _people,
          lambda known: known.people, kept_for_next=True),
    Field("hold", "How held", "How the wheelset is held. Back-to-back depends on it.", _hold,
          lambda known: known.holds, kept_for_next=True),
    Field("clock", "Clock position", "Where round the clock back-to-back is read: 6 o'clock, level with the axle.",
          _clock, kept_for_next=True),
    Field("air_temperature", "Air temperature", "Of the shop or the pit: 54 degF.", _temperature),
    Field("part_temperature", "Temperature of the part",
          "Of wheel and tire: 54 degF. What nobody read stays unknown; it is never taken for 68.", _temperature),
    Field("instrument_temperature", "Temperature of the instrument",
          "Of micrometer or tape, where it matters: 61 degF.", _temperature),
    Field("instruments", "Instruments at hand", "As their files in instruments/ are named: rule-1, gauge-2.",
          _instruments, lambda known: known.instruments, kept_for_next=True),
    Field("unit", "Unit where none is written",
          "in or mm: taken for a reading that is typed without a unit, and echoed in both. -: always type it.", _unit,
          lambda known: UNITS, kept_for_next=True),
)  # fmt: skip


def offered(field: Field, known: Known, last: Mapping[str, str]) -> str:
    """What Enter alone takes; '' where nothing is offered."""
    if field.key == "measured_on":
        return known.today.isoformat()
    if field.key == "purpose" and len(known.purposes) == 1:
        return known.purposes[0]
    return last.get(field.key, "") if field.kept_for_next else ""


def before_the_walk(field: Field, text: str) -> str:
    """An answer as it is typed here: s leaves out as it does at a box; what only a box can be told is refused."""
    if text.lower() in ("s", "skip"):
        return LEFT_OUT
    if OF_THE_WALK.fullmatch(text):
        left_out = "" if field.needed else " s or - leaves this out,"
        raise Refused(f"{text[:30]} is for the boxes, which come after these questions. Here:{left_out} u takes the "
                      "last answer back, q stops (the draft stays).")  # fmt: skip
    return text


def insisted(field: Field, known: Known, text: str) -> str:
    """An answer that was refused once and is typed once more; numbers stand for the names that were listed."""
    there = {"by": known.people, "instruments": known.instruments}.get(field.key)
    return text if there is None else as_listed(there, text)


def as_listed(there: tuple[str, ...], text: str) -> str:
    """Names as they are on record, those that are not as they are typed."""
    return ", ".join(dict.fromkeys(_listed(there, name) for name in names(text)))


def read_field(field: Field, known: Known, text: str, last: Mapping[str, str]) -> str:
    """The answer as it is kept; '' for what is left out.

    Raises
    ------
    Refused
        It is no answer to this.
    """
    if not text:
        text = offered(field, known, last) or LEFT_OUT
    if text == LEFT_OUT:
        if field.needed:
            raise Refused(f"This is needed. {field.help}")
        return ""
    if field.key == "clock" and len(text) > 2 and text == last.get("clock"):
        return text  # words that were taken last time are not doubted again
    return field.read(known, text)


def said_back(field: Field, text: str) -> str:
    """What was understood."""
    if not text:
        return f"{field.asks}: left out."
    if field.key.endswith("temperature"):
        return f"{field.asks}: {both_ways(parse_quantity(text, 'temperature'))}"
    return f"{field.asks}: {text}"


__all__ = [
    "HEADER", "LISTED", "Field", "Known", "Refused", "no_such_number", "numbered", "offered", "read_field", "said_back",
    "sentence",
]  # fmt: skip
