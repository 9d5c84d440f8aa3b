"""Readings that a fault of form keeps out of the book: which they are, and whether one may be what a sum lacks."""

from __future__ import annotations

from typing import NamedTuple

from axlebook.findings import Dropped

from . import fields
from .book import Book

READINGS = "readings"


class Wanted(NamedTuple):
    """A reading that a sum lacks: of any of these quantities, on a center or a tire."""

    quantities: tuple[str, ...]
    part: str


def dropped_of(tree: fields.Tree, left_out: str | None) -> tuple[Dropped, ...]:
    """The readings in what is left out of a record, by its JSON Pointer, as far as they tell of what they are.

    >>> dropped_of({"readings": [{"quantity": "tire_bore", "part": "t-1", "values": "44"}]}, "/readings/0")
    (Dropped(quantity='tire_bore', engine='', place='', part='t-1'),)
    """
    if left_out is None:
        return ()
    key, _, below = left_out.removeprefix("/").partition("/")
    number, engine = below.partition("/")[0], fields.text(tree, "engine")
    found = []
    for name in [key] if key else tree:
        many = tree.get(name)
        entries = many if isinstance(many, list) else [many]
        for entry in [many[int(number)]] if number and isinstance(many, list) else entries:
            told = entry if isinstance(entry, dict) else fields.EMPTY
            if name == READINGS or "values" in told:
                named = (fields.text(told, "quantity"), engine, fields.text(told, "place"), fields.text(told, "part"))
                found.append(Dropped(*named))
    return tuple(found)


def may_be(dropped: Dropped, wanted: Wanted, book: Book) -> bool:
    """Whether a reading that is not used may be the one that is wanted: what it does not tell may be anything."""
    if dropped.quantity in book.vocabulary.quantities and dropped.quantity not in wanted.quantities:
        return False
    ends = _ends(wanted.part, book)
    if dropped.part:
        return dropped.part == wanted.part or dropped.part in {f"{wheelset} {side}" for wheelset, side in ends}
    lines = book.standing.lines.get((dropped.engine, dropped.place.partition(" ")[0]), ())
    return not dropped.place or bool({line.wheelset for line in lines} & {wheelset for wheelset, _ in ends})


def _ends(part: str, book: Book) -> set[tuple[str, str]]:
    """The wheelsets, with their side, on which a center or a tire ever stood."""
    standing = book.standing
    centers = {part, *(center for center, _ in standing.centers_of.get(part, ()))}
    return {(wheelset, side) for center in centers for wheelset, side, _ in standing.sides_of.get(center, ())}
