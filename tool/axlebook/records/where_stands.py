"""Where a part stands: under which engine, and at which place of it; and which wheelset carries it."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from .book import Book, Thing, side_of


class Whereabouts(NamedTuple):
    """Where a part stands now."""

    engine: str  # '' where it stands under none
    name: str  # e-2 driver-1 left; under no engine the part


def where_stands(book: Book, thing: Thing, day: date | None = None) -> Whereabouts | None:
    """Where a thing stands on a day, else on that the book is read at; None where it stands under no engine."""
    day = day or book.as_of
    wheelset, end = carried_by(book, thing, day)
    line, known = book.standing.line_of(wheelset, day), book.wheelsets.get(wheelset)
    if line is None or known is None or line.engine not in book.engines:
        return None
    side = side_of(line.a_end, known, end) if end else ""
    return Whereabouts(line.engine, f"{line.engine} {line.at} {side}".strip())


def place_of_part(book: Book, part: str, engine: str, day: date | None) -> str:
    """The place on an engine at which a part stood on a day, by the name that a record gives it; '' where at none.

    `t-1` and `d-1 left` are a wheel, and `d-1` is a pair.
    """
    id, _, side = part.partition(" ")
    if day is None or not engine:
        return ""
    kind = "tire" if id in book.tires else "center" if id in book.centers else "end"
    found = where_stands(book, Thing(kind, id, side), day)
    return found.name.removeprefix(f"{engine} ") if found and found.engine == engine else ""


def carried_by(book: Book, thing: Thing, day: date) -> tuple[str, str]:
    """The wheelset that a thing is, or is on, and which end of it; ('', '') where it lies by itself."""
    if thing.kind == "tire":
        carried = book.standing.wheel_of_tire(thing.id, day)
        return carried[1:] if carried else ("", "")
    if thing.kind == "center":
        on = ((w, e) for w, e, _ in book.standing.sides_of.get(thing.id, ()))
        return next((x for x in on if book.standing.center_on(*x, day) == thing.id), ("", ""))
    return thing.id, thing.side


def stood_since(book: Book, thing: Thing, day: date) -> bool:
    """Whether a thing stood under an engine on a day, or since by that of the book, as lines and tire work tell."""
    spells = book.standing.centers_of.get(thing.id, ()) if thing.kind == "tire" else ()
    if any(spell.until is not None and spell.until > day for _, spell in spells):
        return True
    wheelset, _ = carried_by(book, thing, day)
    every = book.standing.lines_of.get(wheelset, ())
    lines = (line for line in every if line.start.first is None or line.start.first <= book.as_of)
    return any(line.until is None or line.until.last is None or line.until.last > day for line in lines)
