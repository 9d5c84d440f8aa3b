"""Which values still tell the condition: the last at each position, until it was read again."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from functools import lru_cache

from .book import Book
from .engine import Engine
from .forms import parse_position
from .instruments import plane_of
from .reading import DOUBTFUL, Measure, Reading

WHOLE = frozenset({"worst", "all round"})  # these stand for every position
EVERY, MANY = "every position", "many positions"
Spot = tuple[str, str]
Last = tuple[Reading, str, tuple[Measure, ...]]  # a reading with one of its positions


def last_of_each(book: Book, readings: list[Reading], full: int | None, by_plane: bool) -> list[Last]:
    """The values that no later day read again, of readings in order of date.

    What was read at some positions says nothing of the others, so each position keeps its own, and each plane where
    planes are told apart. The worst, or a tape all round, stands for every position; it is read again by such a one,
    or by `full` positions on one day. What the card is not sure of takes the place of nothing that is sure. A value of
    a month may be the last of it.
    """
    found = [(reading, plane_of(book, reading) if by_plane else "") for reading in readings]
    certain = [one for one in found if one[0].sure not in DOUBTFUL]
    sure = _read_last(certain, full)
    told = sure if len(certain) == len(found) else _read_last(found, full)
    return [
        (reading, position, measures)
        for reading, plane in found
        for position, measures in reading.values
        if not _read_again(reading, position, plane, told if reading.sure in DOUBTFUL else sure)
    ]


def _read_last(found: Iterable[tuple[Reading, str]], full: int | None) -> dict[Spot, date]:
    """The last day on which each position of each plane was read; and as a whole, and in so many positions."""
    last: dict[Spot, date] = {}
    spots: dict[tuple[str, date], set[str]] = {}
    for reading, plane in found:
        day = reading.day.first or date.min
        for position, _ in reading.values:
            spot = _spot(position)
            last[plane, spot] = day
            if position in WHOLE:
                last[plane, EVERY] = day
            else:
                spots.setdefault((plane, day), set()).add(spot)
    if full is not None:
        last |= {(plane, MANY): day for (plane, day), read in spots.items() if len(read) >= full}
    return last


@lru_cache(maxsize=4096)
def _spot(position: str) -> str:
    """One text for each position, however it is written: `0 deg` for `0.0 deg`; what is read nowhere else, as it is."""
    found = parse_position(position)
    return repr(found) if found else position


def _read_again(reading: Reading, position: str, plane: str, last: dict[Spot, date]) -> bool:
    """Whether its position, or the whole of it, was certainly read on a later day."""
    until = reading.day.last or date.min
    if last.get((plane, _spot(position)), date.min) > until or last.get((plane, EVERY), date.min) > until:
        return True
    return position in WHOLE and last.get((plane, MANY), date.min) > until


def told_by_plane(book: Book, engine: Engine, quantity: str, found: Iterable[Reading]) -> bool:
    """Whether planes of a quantity are told apart: a reading names its own, or a limit is for one of them.

    Elsewhere the plane of a gauge is that of something else it measures: a flange is as high by either gauge.
    """
    if any(reading.where for reading in found):
        return True
    words = book.vocabulary.derived.values()
    names = (quantity, *(word.name for word in words if quantity in word.comes_from))
    return any(limit.where for name in names for limit in book.limits_on(engine, name))


def full_reading(book: Book, quantity: str) -> int | None:
    """How many positions a full reading has by the plans on file; None where none asks for several."""
    known: dict[str, int] | None = book.__dict__.get("_full_readings")
    if known is None:
        known = book.__dict__["_full_readings"] = {}
        for plan in book.plans:
            for ask in plan.asks:
                if len(ask.positions) > 1:
                    needed = plan.positions_needed(ask)
                    known[ask.what] = min(known.get(ask.what, needed), needed)
    return known.get(quantity)
