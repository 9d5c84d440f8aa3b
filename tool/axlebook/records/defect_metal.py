"""Which metal a defect is of, and where that stands now: a tag goes with the wheel that was tagged."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from . import fields
from .book import Book, Thing
from .where_stands import Whereabouts, where_stands


def whereabouts(book: Book, tree: fields.Tree) -> tuple[Whereabouts, ...]:
    """Where the metal of a defect stands on the day the book is read at, or stays by what is written.

    It is the metal of its part; else what stood at its place on the day it was found. What is of the engine itself,
    and what no line tells, stays at the place as written. Of a wheel without a limit nobody knows
    whether it is of the tire or of the center: should they stand apart, it is of both.
    """
    metal = _metal(book, tree)
    if not metal:
        return (_as_written(tree),)
    found = [_sided(here, tree) for thing in metal if (here := where_stands(book, thing))]
    return tuple(dict.fromkeys(found)) or (Whereabouts("", metal[-1].name),)


def written_at(tree: fields.Tree) -> str:
    """The place a defect was found at, in shop words, as its record has it; else the part."""
    engine, place, part = (fields.text(tree, key) for key in ("engine", "place", "part"))
    return f"{engine} {place}".strip() or part


def _as_written(tree: fields.Tree) -> Whereabouts:
    return Whereabouts(fields.text(tree, "engine"), written_at(tree))


def _metal(book: Book, tree: fields.Tree) -> tuple[Thing, ...]:
    """What it is of, the center before the tire; none where that is the engine, or not known."""
    part = fields.text(tree, "part")
    if part:
        return tuple(_of_part(book, *part.partition(" ")[::2]))
    day, of = fields.day(tree, "found_on").exact, _of(book, fields.text(tree, "limit"))
    if day is None or of == "engine":
        return ()
    return _at(book, fields.text(tree, "engine"), fields.text(tree, "place"), day, of)


def _sided(here: Whereabouts, tree: fields.Tree) -> Whereabouts:
    """The place as written where it tells more: which end is left of a wheelset may not be on record."""
    written = _as_written(tree)
    return written if written.name.startswith(f"{here.name} ") else here


def _of_part(book: Book, id: str, side: str) -> Iterator[Thing]:
    if id in book.tires:
        yield Thing("tire", id)
    elif id in book.centers:
        yield Thing("center", id)
    elif id in book.wheelsets:
        yield Thing("end", id, side) if side else Thing("wheelset", id)


def _at(book: Book, engine: str, place: str, day: date, of: str) -> tuple[Thing, ...]:
    """What stood at a place of an engine on a day, as far as a limit tells which of it is meant."""
    stood = book.stood_at(engine, place, day)
    if stood is None:
        return ()
    if not stood.end:
        return (Thing("wheelset", stood.wheelset),)
    by_center = stood.center and of in ("", "wheel", "tire", "center")
    hub = Thing("center", stood.center) if by_center else Thing("end", stood.wheelset, stood.end)
    if not stood.tire or of not in ("", "wheel", "tire"):
        return (hub,)
    return (Thing("tire", stood.tire),) if of else (hub, Thing("tire", stood.tire))


def _of(book: Book, limit_id: str) -> str:
    """What kind of thing a limit judges; '' where it is not on file, or does not tell."""
    limit_set = book.limit_sets.get(limit_id.partition("/")[0])
    limit = next((one for one in limit_set.limits if one.id == limit_id), None) if limit_set else None
    words = (book.vocabulary.find_word(name) for name in (limit.quantities if limit else ()))
    return next((word.of for word in words if word and word.of), "")
