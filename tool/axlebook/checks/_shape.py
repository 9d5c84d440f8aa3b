"""The form of a fit's two faces: how round they are, and how much they taper, each from its own readings."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from axlebook.records.book import Book
from axlebook.records.condition import Stand
from axlebook.records.fit import Fit, Size, applied_fits, find_fit
from axlebook.records.instruments import GUARD_FACTOR, resolution

from ._tire_day import wheel


class Face(NamedTuple):
    """One measured face: the part, what it is called, its size and its wheel."""

    part: str
    title: str
    size: Size
    stand: Stand | None


def fits(book: Book) -> Iterator[tuple[Fit, Stand | None]]:
    """Every fit that can be worked out: of tires on by record, and of tires ordered for a center."""
    for tire, center, session in applied_fits(book):
        fit = find_fit(book, tire, center, session)
        if isinstance(fit, Fit):
            yield fit, wheel(book, tire, center)


def faces(book: Book) -> Iterator[Face]:
    """Seats and bores of every fit, each once."""
    seen: set[tuple[str, ...]] = set()
    for fit, stand in fits(book):
        for part, title, size in (
            (fit.center.id, "seat", fit.center_size),
            (fit.tire.id, "bore", fit.bore_size),
        ):
            key = (part, *(r.source.record + r.pointer for r in size.readings))
            if key not in seen:
                seen.add(key)
                yield Face(part, title, size, stand)


def difference_band(book: Book, size: Size, values: int = 2) -> Fraction:
    """Guard band of a difference within one set of readings.

    An instrument's own error is in all of them alike and drops out: what is left is its resolution. Readings of two
    instruments keep the whole.
    """
    readings = size.readings
    if len({r.instrument for r in readings}) > 1:
        alone = max((u for name, u in size.parts.items() if name.endswith("instrument")), default=0.0)
    else:
        alone = float(resolution(book, readings[0]) or 0) / math.sqrt(12)
    return GUARD_FACTOR * Fraction(alone * math.sqrt(values))
