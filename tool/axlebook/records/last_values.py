"""Which values still tell the condition: the last at each position, until it was read again."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from .book import Book
from .engine import Engine
from .instruments import plane_of
from .reading import DOUBTFUL, Measure, Reading

EVERY = "every position"
WHOLE = frozenset({"worst", "all round"})  # these stand for every position
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
    sure = _not_read_again(certain, full)
    told = sure if len(certain) == len(found) else _not_read_again(found, full)
    return [
        value
        for reading, _ in found
        for value in (told if reading.sure in DOUBTFUL else sure).get(id(reading), ())
    ]  # fmt: skip


def _not_read_again(found: list[tuple[Reading, str]], full: int | None) -> dict[int, list[Last]]:
    """By reading, its values that none of these reads again on a later day: looked for from the newest back."""
    kept: dict[int, list[Last]] = {}
    planes: dict[str, dict[str, date]] = {}  # plane -> position -> the last day it was read on
    for reading, plane in reversed(found):
        last = planes.setdefault(plane, {})
        _, first, until = reading.day
        day, until = first or date.min, until or date.min
        if last.get(EVERY, date.min) > until:
            continue
        for position, measures in reading.values:
            if last.setdefault(position, day) > until:
                continue
            if position in WHOLE:
                last.setdefault(EVERY, day)
                if full is not None and _in_so_many(found, plane, until, full):
                    continue
            kept.setdefault(id(reading), []).append((reading, position, measures))
    return kept


def _in_so_many(found: list[tuple[Reading, str]], plane: str, until: date, full: int) -> bool:
    """Whether so many positions of a plane were read on one later day that they stand for the whole."""
    read: dict[date, set[str]] = {}
    for reading, where in found:
        day = reading.day.first
        if where == plane and day is not None and day > until:
            read.setdefault(day, set()).update(at for at, _ in reading.values if at not in WHOLE)
    return any(len(spots) >= full for spots in read.values())


def told_by_plane(book: Book, engine: Engine, quantity: str, found: Iterable[Reading]) -> bool:
    """Whether planes of a quantity are told apart: a reading names its own, or a limit is for one of them.

    Elsewhere the plane of a gauge is that of something else it measures: a flange is as high by either gauge.
    """
    if any(reading.where for reading in found):
        return True
    known: dict[tuple[str, str], bool] = book.__dict__.setdefault("_limits_by_plane", {})
    key = (engine.id, quantity)
    if key not in known:
        words = book.vocabulary.derived.values()
        names = (quantity, *(word.name for word in words if quantity in word.comes_from))
        known[key] = any(limit.where for name in names for limit in book.limits_on(engine, name))
    return known[key]


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
