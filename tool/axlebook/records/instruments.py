"""What an instrument adds to its readings: the plane it measures in, and how far a reading can be trusted."""

from __future__ import annotations

from fractions import Fraction

from axlebook.quantities import Quantity, parse_measure

from . import fields
from .book import Book
from .instrument import Instrument
from .planes import plain_plane
from .reading import Reading

# Guard factor for a one-sided 95 percent decision, JCGM 106:2012, 8.3.2 (normal distribution), from memory.
GUARD_FACTOR = Fraction(1645, 1000)


def plane_of(book: Book, reading: Reading) -> str:
    """The plane of a reading: as said, or the one its instrument measures in; '' where neither says.

    Where a limit is for the same plane in other words, it is told in those.
    """
    instrument = None if reading.where else book.instruments.get(reading.instrument)
    told = reading.where or (instrument.where if instrument else "")
    if not told:
        return ""
    known: dict[str, str] | None = book.__dict__.get("_planes")
    if known is None:
        of_limits = [limit.where for one in book.limit_sets.values() for limit in one.limits if limit.where]
        known = book.__dict__["_planes"] = {plain_plane(where): where for where in of_limits}
        known |= {where: where for where in of_limits}
    if told not in known:
        known[told] = known.get(plain_plane(told), told)
    return known[told]


def standard_variance(book: Book, reading: Reading) -> Fraction | None:
    """Variance of one reading in SI: the instrument's uncertainty and its resolution; None where nothing is known."""
    told = fields.quantity(reading.tree, "expanded_uncertainty") if "expanded_uncertainty" in reading.tree else None
    if told is not None:
        return (told.exact / (fields.number(reading.tree, "coverage_factor") or 2)) ** 2
    return variance_by_record(book, reading.instrument)


def variance_by_record(book: Book, id: str) -> Fraction | None:
    """Variance of one reading with an instrument, by its record alone; the same for all its readings."""
    known: dict[str, Fraction | None] = book.__dict__.setdefault("_variances", {})
    if id not in known:
        known[id] = _own_variance(book.instruments.get(id))
    return known[id]


def _own_variance(instrument: Instrument | None) -> Fraction | None:
    if instrument is None:
        return None
    parts = []
    if instrument.standard_uncertainty is not None:
        parts.append(instrument.standard_uncertainty**2)
    if instrument.resolution is not None:
        parts.append(instrument.resolution**2 / 12)  # a rectangle one division wide
    return sum(parts, Fraction(0)) if parts else None


def resolution(book: Book, reading: Reading) -> Fraction | None:
    """The instrument's resolution, or a decimal's last digit; None where neither is known."""
    instrument = book.instruments.get(reading.instrument)
    if instrument is not None and instrument.resolution is not None:
        return instrument.resolution
    digits = [m.resolution for _, many in reading.values for m in many if isinstance(m, Quantity)]
    known = [digit for digit in digits if digit is not None]
    return min(known) if known else None


def guard_band(book: Book, readings: tuple[Reading, ...]) -> Fraction | None:
    """Guard band of a value made of readings, in SI, exact to a nanometre; None where no uncertainty is known.

    It is the same for all readings with the same instruments, but for those that tell an uncertainty of their own.
    """
    for reading in readings:
        if "expanded_uncertainty" in reading.tree:
            return _guard_band([standard_variance(book, reading) for reading in readings])
    bands: dict[tuple[str, ...], Fraction | None] = book.__dict__.setdefault("_guard_bands", {})
    tools = tuple([reading.instrument for reading in readings])
    if tools not in bands:
        bands[tools] = _guard_band([variance_by_record(book, tool) for tool in tools])
    return bands[tools]


def _guard_band(variances: list[Fraction | None]) -> Fraction | None:
    known = [v for v in variances if v is not None]
    if not known or len(known) < len(variances):
        return None
    return GUARD_FACTOR * Fraction(round(float(sum(known, Fraction(0))) ** 0.5 * 10**9), 10**9)


def temperature(text: str) -> Fraction | None:
    """A temperature as written, in kelvin; None where none is written. Never a reference temperature by default."""
    if not text:
        return None
    found = parse_measure(text)
    return found.exact if isinstance(found, Quantity) else None
