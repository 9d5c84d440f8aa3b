"""Values that can decide nothing by themselves: the card is not sure of them, or they are in the wrong unit."""

from __future__ import annotations

from .book import Book
from .condition import Value
from .other_unit import unit_slips

NO_PLANE = "no `where:` tells whether it was read in the plane of the limit"
NOT_SURE = "the card it stands on is not sure of it"
WRONG_UNIT = "it is about 25.4 times off, most likely millimetres and inches taken for each other"


def unsure_of(book: Book, value: Value) -> str:
    """Why a value can decide nothing by itself; empty where it can."""
    if value.doubtful:
        return NOT_SURE
    slips = unit_slips(book)
    slipped = (slips.get(id(reading), ()) for reading in value.readings) if slips else ()
    derived = value.quantity in book.vocabulary.derived
    return WRONG_UNIT if any(at and (derived or value.position in at) for at in slipped) else ""
