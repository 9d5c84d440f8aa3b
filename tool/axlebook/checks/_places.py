"""Whether a wheelset stands at a place of an engine on a day, each place and day looked up once a run."""

from __future__ import annotations

from datetime import date
from enum import Enum
from typing import NamedTuple

from axlebook.records.book import Book
from axlebook.records.dates import Day
from axlebook.records.engine import Line
from axlebook.records.forms import parse_place
from axlebook.records.reading import Observation, Reading
from axlebook.records.session import Session


class Trouble(Enum):
    """Why a place names no wheelset."""

    NONE = "a wheelset stands there, or the place is none of a wheelset"
    NO_ENGINE = "the record names no engine"
    NO_LINE = "the engine has no such place"
    BEFORE = "the first dated line of the place is later"
    EMPTY = "no dated line covers the day"


Placed = Reading | Observation


class Times(NamedTuple):
    """When a wheelset stood at a place: from the first day it can have been until the last, each."""

    stood: list[tuple[date, date]]
    began: date | None  # the first day that any line tells


def troubled(book: Book, session: Session) -> list[tuple[Placed, Trouble]]:
    """What a session reads at places that name no wheelset on its day, each place once; listed once a run."""
    known: dict[str, list[tuple[Placed, Trouble]]] | None = book.__dict__.get("_troubled")
    if known is None:
        known = book.__dict__["_troubled"] = {}
        spots: dict[tuple[str, str], Trouble | Times] = {}
        unread = _engines_unread(book)
        for each in book.sessions:
            if found := [(one, t) for one in _placed_once(each) if (t := _trouble(book, unread, spots, one))]:
                known[each.id] = found
    return known.get(session.id, [])


def _placed_once(session: Session) -> list[Placed]:
    """The first reading or observation at each place and day."""
    found: dict[object, Placed] = {}
    day = session.day
    group: tuple[Placed, ...]
    for group in (session.readings, session.observations):
        for one in group:
            key = one.place if one.day is day else (one.place, one.day.text)
            if key not in found and one.place:
                found[key] = one
    return list(found.values())


def _trouble(
    book: Book, unread: set[str], spots: dict[tuple[str, str], Trouble | Times], one: Placed
) -> Trouble | None:
    engine = one.source.engine
    spot = spots.get((engine, one.place))
    if spot is None:
        spot = spots[engine, one.place] = _look(book, unread, engine, one.place)
    found = _on(spot, one.day)
    return None if found is Trouble.NONE else found


def _on(spot: Trouble | Times, day: Day) -> Trouble:
    """What is wrong with a place on a day."""
    if isinstance(spot, Trouble):
        return spot
    first, last = day.first, day.last
    if first is None or last is None:
        return Trouble.NONE
    for start, until in spot.stood:
        if start <= last and first <= until:
            return Trouble.NONE
    return Trouble.BEFORE if last < (spot.began or last) else Trouble.EMPTY


def _look(book: Book, unread: set[str], engine: str, place: str) -> Trouble | Times:
    """What a place is on any day; else the times at which a wheelset stood there, and the day decides."""
    spot = parse_place(place)
    if spot is None or spot.number is None:
        return Trouble.NONE if engine or spot is None else Trouble.NO_ENGINE
    if not engine:
        return Trouble.NO_ENGINE
    if engine not in book.engines or engine in unread:
        return Trouble.NONE  # a fault of its own, told by itself
    lines = book.standing.lines.get((engine, spot.axle), [])
    if not lines:
        return Trouble.NO_LINE
    stood = [(line.start.first or date.min, _end(line)) for line in lines]
    return Times(stood, min((line.start.first for line in lines if line.start.first), default=None))


def _end(line: Line) -> date:
    return (line.until.last if line.until else None) or date.max


def _engines_unread(book: Book) -> set[str]:
    """Engines of whose dated lines some could not be read."""
    paths = {p.place.path for p in book.problems if p.place.pointer.startswith("/wheelsets")}
    return {engine.id for engine in book.engines.values() if engine.path in paths}
