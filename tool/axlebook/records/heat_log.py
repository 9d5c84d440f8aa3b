"""The heat log of the day a tire went on: what was read, on which face, with what, and what that proves."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from axlebook.findings import Place
from axlebook.limits import Span
from axlebook.quantities import Quantity

from . import fields
from .book import Book
from .session import Session

BORE, TREAD, ELSEWHERE = "bore", "tread", ""
BORE_WORDS = ("inside", "bore", "seat")
NOT_CONTACT = "infrared"
DAY = 24 * 60  # minutes


class HeatReading(NamedTuple):
    """One line of the log; the span is in kelvin, open where a crayon says no more."""

    at: Place
    minute: int  # since the heating began
    face: str
    angle: Fraction | None
    span: Span
    text: str
    contact: str  # crayon, pyrometer, infrared, or ''


def minutes(clock: str) -> int | None:
    """A time of day in minutes; None where none is told."""
    hours, _, rest = clock.partition(":")
    return int(hours) * 60 + int(rest) if hours.isdigit() and rest.isdigit() else None


def since(start: int, end: int, back: int = DAY // 2) -> int:
    """Minutes from one time of a day's work to another, negative where it is before.

    Clocks carry no day: work that goes on past midnight begins anew, so half a day back or more is the next morning.
    What may take longer than half a day is so from fewer minutes `back` on.
    """
    gap = end - start
    return gap + DAY if gap <= -back else gap


def _face(where: str) -> str:
    lower = where.lower()
    if "tread" in lower:
        return TREAD
    return BORE if any(word in lower for word in BORE_WORDS) else ELSEWHERE


def heat_readings(book: Book, session: Session) -> list[HeatReading]:
    """The lines of a heat log that are of the tire, in order of time, past midnight too; without one, as written."""
    found: list[HeatReading] = []
    begun, at = minutes(fields.text(session.tree, "heated_from")), 0
    for index, entry in enumerate(fields.items(session.tree, "heat")):
        clock = minutes(fields.text(entry, "time")) if entry else None
        if clock is not None:
            begun = clock if begun is None else begun
            at = since(begun, clock)
        read = fields.measure(entry, "read") if entry else None
        if read is None or fields.text(entry, "part") == "center":
            continue
        span = Span(read.exact, read.exact) if isinstance(read, Quantity) else Span(read.low_exact, read.high_exact)
        instrument = book.instruments.get(fields.text(entry, "with"))
        found.append(
            HeatReading(
                Place(session.path, f"/heat/{index}"),
                at,
                _face(fields.text(entry, "where")),
                fields.exact(entry, "angle"),
                span,
                read.text,
                instrument.contact if instrument else "",
            )
        )
    return sorted(found, key=lambda r: r.minute)


def last_round(readings: list[HeatReading], face: str) -> list[HeatReading]:
    """The last reading at each angle of one face, infrared only where nothing touched it."""
    here = [r for r in readings if r.face == face]
    touched = [r for r in here if r.contact != NOT_CONTACT] or here
    last: dict[Fraction | None, HeatReading] = {}
    for reading in touched:
        last[reading.angle] = reading
    return list(last.values())


def told_together(readings: list[HeatReading]) -> str:
    """Readings as one text: the coldest to the hottest, as written."""
    if not readings:
        return "nothing"
    coldest = min(readings, key=lambda r: r.span.low if r.span.low is not None else Fraction(0))
    hottest = max(readings, key=lambda r: r.span.high if r.span.high is not None else Fraction(10**6))
    return coldest.text if coldest.text == hottest.text else f"{coldest.text} to {hottest.text}"
