"""Readings of more metal than the part had when it was new, or than there is room for, with nothing read before.

Wear takes metal, and a tire lies between its center and its tread: what is larger was misread, stands on the wrong
part, or the size on file is wrong.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from . import fields
from .book import Book, Thing
from .condition import Stand, Value, current, stands, values_of
from .plausibility import ROUNDED
from .reading import Reading

NEW, NO_ROOM = "metal-added", "diameter-not-bore-and-thickness"
JOURNAL, THICKNESS, WIDTH, TREAD = "journal_diameter", "tire_thickness", "tire_width", "tread_diameter"


class TooLarge(NamedTuple):
    """One value, and what it cannot be larger than, or as a tread smaller."""

    check: str  # that tells it
    value: Value
    bound: Fraction
    said: str  # what the bound is: `its original diameter on record`

    @property
    def reading(self) -> Reading:
        """The reading it stands in."""
        return self.value.readings[0]


def too_large(book: Book) -> tuple[TooLarge, ...]:
    """Every such value that tells the condition now, or of a loose tire its last; worked out once."""
    known: tuple[TooLarge, ...] | None = book.__dict__.get("_too_large")
    if known is None:
        read = {name for _, name in book.series}
        found = [*_than_new(book)] if not read.isdisjoint(ROUNDED) else []
        found += [*_than_there_is_room(book), *_bores(book)] if TREAD in read else []
        known = tuple(one for one in found if "reason_kept" not in one.reading.tree)
        book.__dict__["_too_large"] = known
    return known


def too_large_at(book: Book) -> dict[int, set[str]]:
    """The positions at which a reading is so, by its id; worked out once."""
    known: dict[int, set[str]] | None = book.__dict__.get("_too_large_at")
    if known is None:
        known = book.__dict__["_too_large_at"] = {}
        for one in too_large(book):
            known.setdefault(id(one.reading), set()).add(one.value.position)
    return known


def _than_new(book: Book) -> Iterator[TooLarge]:
    for stand in stands(book):
        for name, new, title in _sizes_new(stand):
            for value in current(book, stand, name) if new else ():
                if new and value.span.low is not None and value.span.low > new * (1 + ROUNDED[name]):
                    yield TooLarge(NEW, value, new, title)


def _sizes_new(stand: Stand) -> Iterator[tuple[str, Fraction | None, str]]:
    if stand.side:
        yield JOURNAL, stand.wheelset.original_journal_diameter, "its original diameter on record"
        if stand.tire is not None:
            thick = fields.exact(fields.inner(stand.tire.tree, "form"), "nominal_thickness")
            yield THICKNESS, thick, f"the thickness of {stand.tire.id} as new on record"
            yield WIDTH, stand.tire.nominal_width, f"the width of {stand.tire.id} as new on record"
        elif stand.wheelset.made == "one-piece":
            yield TREAD, stand.wheelset.nominal_diameter, f"the diameter of {stand.wheelset.id} as new on record"


def _than_there_is_room(book: Book) -> Iterator[TooLarge]:
    """Treads that leave no room for their center, and tires too thick for a tread that was taped before, or with it."""
    for stand in stands(book):
        inner = _inner(book, stand)
        for tread in current(book, stand, TREAD) if inner is not None and stand.tire is not None else ():
            high = tread.span.high
            if inner is None or high is None:
                continue
            if high <= inner:
                yield TooLarge(NO_ROOM, tread, inner, f"the center under it, {stand.center.id if stand.center else ''}")
                continue
            room, said = (high - inner) / 2, f"the room that a tread of {tread.text} leaves on its center"
            for thick in current(book, stand, THICKNESS):
                over = thick.span.low is not None and thick.span.low > room + high * ROUNDED[TREAD] / 2
                if over and _not_before(thick, tread):
                    yield TooLarge(NO_ROOM, thick, room, said)


def _inner(book: Book, stand: Stand) -> Fraction | None:
    """What the tire lies on: the center as it was read last, else as its record has it."""
    if stand.center is None:
        return None
    read = [v.span.low for v in current(book, stand, "center_diameter") if v.span.low is not None]
    return max(read, default=stand.center.nominal_diameter)


def _not_before(thick: Value, tread: Value) -> bool:
    """Whether a thickness was read with a tread or after it: before, there may have been more metal."""
    first, last = thick.day.first, tread.day.last
    return thick.readings[0].source.record == tread.readings[0].source.record or (
        first is not None and last is not None and first >= last
    )


def _bores(book: Book) -> Iterator[TooLarge]:
    """Bores as large as the tread round them."""
    for tire in book.tires:
        bores, treads = (book.series.get((Thing("tire", tire), name)) for name in ("tire_bore", TREAD))
        if not bores or not treads:
            continue
        least = [v.span.high for v in values_of(book, treads[-1:]) if v.span.high is not None]
        for value in values_of(book, bores[-1:]) if least else ():
            if value.span.low is not None and value.span.low >= min(least):
                yield TooLarge(NO_ROOM, value, min(least), "the tread round it")
