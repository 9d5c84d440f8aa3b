"""Values that can decide nothing by themselves: the card is not sure of them, or they are in the wrong unit."""

from __future__ import annotations

from .book import Book
from .condition import Value
from .other_unit import unit_slips
from .too_large import too_large_at

NO_PLANE = "no `where:` tells whether it was read in the plane of the limit"
NOT_SURE = "the card it stands on is not sure of it"
NO_BAND = "the limit asks for a guard band, and no uncertainty is on file for what it was read with"
NO_SIZE = "it is less than nothing, which no size is: most likely a dash was read as its sign"
TOO_LARGE = "it is more metal than the part had when it was new, or than there is room for"
SIGNED = frozenset({"quarter_error"})  # it tells which way it is out
WRONG_UNIT = "it is about 25.4 times off, most likely millimetres and inches taken for each other"


def unsure_of(book: Book, value: Value) -> str:
    """Why a value can decide nothing by itself; empty where it can."""
    if value.doubtful:
        return NOT_SURE
    less, slips = _less_than_nothing(book), unit_slips(book)
    if not less.isdisjoint(map(id, value.readings)):
        return NO_SIZE
    large = too_large_at(book)
    if any(value.position in large.get(id(reading), ()) for reading in value.readings):
        return TOO_LARGE
    if slips.keys().isdisjoint(map(id, value.readings)):  # nearly always
        return ""
    slipped = (slips.get(id(reading), ()) for reading in value.readings)
    derived = value.quantity in book.vocabulary.derived
    return WRONG_UNIT if any(at and (derived or value.position in at) for at in slipped) else ""


def _less_than_nothing(book: Book) -> set[int]:
    """The readings of which some value has a sign before it, by their id; found once a book."""
    found: set[int] | None = book.__dict__.get("_less_than_nothing")
    if found is None:
        found = book.__dict__["_less_than_nothing"] = set()
        for reading in book.readings:
            for _, measures in reading.values:
                for measure in measures:
                    if measure.text[:1] == "-" and reading.quantity not in SIGNED:
                        found.add(id(reading))
    return found
