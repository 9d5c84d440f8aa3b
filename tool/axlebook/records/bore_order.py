"""The bore to order for a measured center: its interference within the practice, whatever the readings allow.

The band is narrowed by the guard band of the center's readings and rounded inward, so that every bore inside it gives
an interference inside the practice. Exact, in metres at 20 degC.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from . import fields
from .book import Book, Thing
from .condition import BEFORE_WORK
from .dates import Day
from .fit import Missing, Size, size
from .instruments import GUARD_FACTOR
from .reading import Reading
from .tire import Tire
from .wheelset import Center


@dataclass(frozen=True)
class BoreBand:
    """The bores to accept, and the one to aim at."""

    least: Fraction
    aim: Fraction
    most: Fraction


def bore_band(center: Fraction, least: Fraction, most: Fraction, band: Fraction, step: Fraction) -> BoreBand | None:
    """The bores whose interference is in a practice for certain; None where the readings leave no tolerance.

    Parameters
    ----------
    center
        mean diameter of the center
    least, most
        interference that the practice accepts
    band
        guard band of the center's diameter, each way
    step
        what the bore is given in; rounded inward

    Examples
    --------
    >>> thou = Fraction("0.0000254")
    >>> found = bore_band(44005 * thou, 42 * thou, 52 * thou, 2 * thou, thou)
    >>> found.least / thou, found.aim / thou, found.most / thou
    (Fraction(43955, 1), Fraction(43958, 1), Fraction(43961, 1))
    >>> bore_band(44005 * thou, 42 * thou, 52 * thou, 6 * thou, thou) is None
    True
    """
    low = inward_up(center - most + band, step)
    high = inward_down(center - least - band, step)
    if low >= high:  # one single size is no tolerance: nobody bores to it
        return None
    middle = (low + high) / 2
    return BoreBand(low, middle if high - low < 2 * step else round(middle / step) * step, high)


def inward_up(value: Fraction, step: Fraction) -> Fraction:
    """The next step at or above a value."""
    return ceil(value / step) * step


def inward_down(value: Fraction, step: Fraction) -> Fraction:
    """The next step at or below a value."""
    return floor(value / step) * step


def center_size(book: Book, center: Center) -> Size | Missing:
    """The center's diameter at 20 degC from the readings of the last day it was measured."""
    seat = Thing("center", center.id)
    every = [r for r in book.series.get((seat, "center_diameter"), ()) if r.when in ("", *BEFORE_WORK)]
    last = max((r.day.first for r in every if r.day.first), default=None)
    readings = [r for r in every if r.day.first == last]
    return size(book, "center_diameter", readings, fields.text(center.tree, "material"), seat)


def guard_band(found: Size) -> Fraction:
    """How far the center's diameter is good, each way."""
    standard = sum(part**2 for part in found.parts.values()) ** 0.5
    return Fraction(standard) * GUARD_FACTOR + Fraction(found.doubt)


def tire_on_since(book: Book, center: Center, readings: Sequence[Reading]) -> tuple[str, Day] | None:
    """A tire that went on after the center was measured, and when it was measured; None where none did."""
    day = readings[-1].day
    for spell in book.standing.tires.get(center.id, ()):
        if day.first and (spell.until is None or spell.until > book.as_of) and (spell.start or book.as_of) >= day.first:
            return spell.what, day
    return None


def tires_ordered(book: Book, center: Center) -> list[Tire]:
    """The tires ordered for a center and on none yet."""
    return [t for t in book.tires.values() if t.for_center == center.id and not book.standing.centers_of.get(t.id)]
