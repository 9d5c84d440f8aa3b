"""How much the tread grew when the tire gripped: taped cold before and after, beside the least to be expected."""

from __future__ import annotations

from typing import NamedTuple

from axlebook.findings import Place

from .book import Book
from .fit import TIRE_STEEL, Fit, Size, size
from .pair import guard
from .squeeze import Bounds, Squeeze, find_squeeze


class Growth(NamedTuple):
    """Growth of the taped tread on diameter at 20 degC, and the least that the measured fit lets expect [m]."""

    taped: float
    doubt: float
    least_expected: float
    at: Place


class Shown(NamedTuple):
    """What two tapings show of the grip, and how far they can be off [m]."""

    grown: float
    band: float
    finely: bool  # the tape can show so small a growth at all
    short: bool
    large: bool
    proved: bool


def shown_by(before: Size, after: Size, expected: Bounds) -> Shown:
    """Hold the growth that was taped against what the fit lets expect."""
    grown, band = after.mean - before.mean, (guard(before) ** 2 + guard(after) ** 2) ** 0.5
    short, large = grown + band < expected.low, grown - band > expected.high
    finely = not (band >= expected.low or before.not_told or after.not_told)
    return Shown(grown, band, finely, short, large, proved=grown - band >= expected.low and not large)


def shown_of(book: Book, fit: Fit) -> Shown | None:
    """The same of a fit; None where it was not taped twice, not finely enough, or has no geometry on record."""
    before, after = (_taped(book, fit, when) for when in ("cold before", "cold after"))
    squeeze = find_squeeze(book, fit)
    if before is None or after is None or not isinstance(squeeze, Squeeze):
        return None
    shown = shown_by(before, after, squeeze.growth)
    return shown if shown.finely else None


def growth_of(book: Book, fit: Fit) -> Growth | None:
    """The growth that was taped; None where it was not taped twice cold, or the fit has no geometry on record.

    The least expected is that of the least the fit can be, and of the center's rim alone: it yields the most.
    """
    before, after = (_taped(book, fit, when) for when in ("cold before", "cold after"))
    squeeze = find_squeeze(book, fit)
    if before is None or after is None or not isinstance(squeeze, Squeeze):
        return None
    return Growth(after.mean - before.mean, before.doubt + after.doubt, squeeze.growth.low, after.readings[0].at)


def _taped(book: Book, fit: Fit, when: str) -> Size | None:
    readings = [r for r in fit.session.readings if r.quantity == "tread_diameter"] if fit.session else []
    found = size(book, "tread_diameter", [r for r in readings if r.when == when], TIRE_STEEL)
    return found if isinstance(found, Size) else None
