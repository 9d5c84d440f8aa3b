"""Whether a wheelset stands at a place of an engine on a day, each place and day looked up once a run."""

from __future__ import annotations

from datetime import date
from enum import Enum

from axlebook.records.book import Book
from axlebook.records.dates import Day
from axlebook.records.engine import Line
from axlebook.records.forms import parse_place


class Trouble(Enum):
    """Why a place names no wheelset."""

    NONE = "a wheelset stands there, or the place is none of a wheelset"
    NO_ENGINE = "the record names no engine"
    NO_LINE = "the engine has no such place"
    BEFORE = "the first dated line of the place is later"
    EMPTY = "no dated line covers the day"


def trouble_at(book: Book, engine: str, place: str, day: Day) -> Trouble:
    """What keeps a place from naming a wheelset on a day."""
    known: dict[tuple[str, str, Day], Trouble] = book.__dict__.setdefault("_trouble", {})
    key = (engine, place, day)
    found = known.get(key)
    if found is None:
        found = known[key] = _look(book, engine, place, day)
    return found


def _look(book: Book, engine: str, place: str, day: Day) -> Trouble:
    spot = parse_place(place)
    if spot is None or spot.number is None:
        return Trouble.NONE if engine or spot is None else Trouble.NO_ENGINE
    if not engine:
        return Trouble.NO_ENGINE
    if engine not in book.engines or _lines_unread(book, engine):
        return Trouble.NONE  # a fault of its own, told by itself
    lines = book.standing.lines.get((engine, spot.axle), [])
    if not lines:
        return Trouble.NO_LINE
    first, last = day.first, day.last
    if first is None or last is None or any(_touches(line, first, last) for line in lines):
        return Trouble.NONE
    starts = [line.start.first for line in lines if line.start.first]
    return Trouble.BEFORE if last < min(starts, default=last) else Trouble.EMPTY


def _touches(line: Line, first: date, last: date) -> bool:
    start, until = line.start.first, line.until.last if line.until else None
    return (start is None or start <= last) and (until is None or first <= until)


def _lines_unread(book: Book, engine: str) -> bool:
    path = book.engines[engine].path
    return any(p.place.path == path and p.place.pointer.startswith("/wheelsets") for p in book.problems)
