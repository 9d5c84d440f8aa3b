"""Days on which something falls due as an iCalendar file (RFC 5545): the same book and day give the same bytes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from .cleaning import clean

LONGEST = 75  # octets a line, without its end
PRODUCT = "-//axlebook//due//EN"


@dataclass(frozen=True)
class Event:
    """One whole day of a calendar. `id` stays the same as long as it is the same thing."""

    id: str
    day: date
    title: str
    lines: tuple[str, ...]  # the description
    category: str


def render_ics(events: Iterable[Event], as_of: date, *, alarm: int | None = None) -> str:
    """The calendar; `alarm` is how many days before each day it is to remind, None for not at all."""
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", f"PRODID:{PRODUCT}", "CALSCALE:GREGORIAN"]
    for event in events:
        lines += _event(event, as_of, alarm)
    lines.append("END:VCALENDAR")
    return "".join(f"{part}\r\n" for line in lines for part in folded(line))


def _event(event: Event, as_of: date, alarm: int | None) -> Iterator[str]:
    yield "BEGIN:VEVENT"
    yield f"UID:{event.id}@axlebook"
    yield f"DTSTAMP:{_basic(as_of)}T000000Z"
    yield f"DTSTART;VALUE=DATE:{_basic(event.day)}"
    if event.day < date.max:
        yield f"DTEND;VALUE=DATE:{_basic(event.day + timedelta(1))}"
    yield f"SUMMARY:{escaped(event.title)}"
    yield "DESCRIPTION:" + "\\n".join(escaped(line) for line in event.lines)
    yield f"CATEGORIES:{escaped(event.category)}"
    yield "TRANSP:TRANSPARENT"
    if alarm is not None:
        yield "BEGIN:VALARM"
        yield "ACTION:DISPLAY"
        yield f"DESCRIPTION:{escaped(event.title)}"
        yield f"TRIGGER:{'-' if alarm else ''}P{alarm}D"
        yield "END:VALARM"
    yield "END:VEVENT"


def _basic(day: date) -> str:
    return day.isoformat().replace("-", "")


def escaped(text: str) -> str:
    r"""Text as a value of type TEXT: one line, with what has a meaning there escaped.

    >>> escaped("a, b; c\\d")
    'a\\, b\\; c\\\\d'
    """
    return clean(text).replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,")


def folded(line: str) -> Iterator[str]:
    """A content line in parts of at most 75 octets, no character torn; each after the first begins with a space."""
    part, size = "", 0
    for sign in line:
        octets = len(sign.encode("utf-8"))
        if size + octets > LONGEST:
            yield part
            part, size = " ", 1
        part, size = part + sign, size + octets
    yield part
