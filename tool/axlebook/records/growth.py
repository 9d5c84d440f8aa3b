"""How much the tread grew when the tire gripped: taped cold before and after, beside the least to be expected."""

from __future__ import annotations

from typing import NamedTuple

from axlebook.findings import Place

from .book import Book
from .fit import TIRE_STEEL, Fit, Missing, Size, size
from .pair import guard
from .squeeze import Bounds, Squeeze, find_squeeze

COARSE = Missing(
    "the tread was not taped finely enough to show that it grew",
    "Tape it with a pi tape that reads to a thousandth of an inch.",
)
NO_TEMPERATURE = Missing(
    "a temperature was not written when the tread was taped, which may hide that it grew or did not",
    "Add `part_temperature` and `instrument_temperature` from the paper; if nobody wrote them, watch the tire.",
)
UNKNOWN_TAPE = Missing(
    "how finely the tread was taped is not on record", "Enter resolution or uncertainty in the instrument's record."
)
UNSURE_FIT = Missing(
    "its fit is so uncertain that it need not let the tread grow at all",
    "See what is told of its interference: a temperature or an uncertainty of center or bore.",
)


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
    hidden: Missing | None  # what keeps so small a growth from being shown, that first which a record would mend
    short: bool
    large: bool
    proved: bool


def shown_by(before: Size, after: Size, expected: Bounds) -> Shown:
    """Hold the growth that was taped against what the fit lets expect."""
    grown, band = after.mean - before.mean, (guard(before) ** 2 + guard(after) ** 2) ** 0.5
    short, large = grown + band < expected.low, grown - band > expected.high
    proved = grown - band >= expected.low and not large
    return Shown(grown, band, _hidden(before, after, band, expected.low), short, large, proved)


def _hidden(before: Size, after: Size, band: float, least: float) -> Missing | None:
    if before.not_told or after.not_told:
        return UNKNOWN_TAPE
    if band < least:
        return None
    if least <= 0:
        return UNSURE_FIT
    alone = ((guard(before) - before.doubt) ** 2 + (guard(after) - after.doubt) ** 2) ** 0.5
    return NO_TEMPERATURE if alone < least else COARSE


def shown_of(book: Book, fit: Fit) -> Shown | None:
    """The same of a fit; None where it was not taped twice, cannot be shown, or has no geometry on record."""
    before, after = (_taped(book, fit, when) for when in ("cold before", "cold after"))
    squeeze = find_squeeze(book, fit)
    if before is None or after is None or not isinstance(squeeze, Squeeze):
        return None
    shown = shown_by(before, after, squeeze.growth)
    return None if shown.hidden else shown


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
