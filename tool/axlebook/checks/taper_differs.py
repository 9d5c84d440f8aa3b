"""Seat and bore do not taper alike, so the tire grips at one edge.

What is judged: the taper of the seat (outer edge less inner) less that of the bore, by the limits on
`taper_difference`; where none is on file by those on `taper`, for what one edge grips less than the other is a taper
like any other. A tire that grips at one edge only draws off its register as it cools, and works loose.

What to do: read both edges of both parts again, with one instrument for each. Have the bore made to the seat.

Source: the limit record named in the finding. That seat and bore must match is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Finding
from axlebook.limits import point
from axlebook.records.book import Book
from axlebook.records.condition import Stand
from axlebook.records.fit import Fit

from ._by_limit import computed, decide, limit_finding, once
from ._shape import difference_band, fits
from ._words import figured

ID = "taper-differs"
QUANTITIES = ("taper_difference",)
NEXT = "Read both edges of seat and bore again; before heat, have the bore made to the seat."


def check(book: Book) -> Iterator[Finding]:
    """Hold the taper of every bore against that of its seat; a taper not known is told by seat-taper."""
    return once(finding for fit, stand in fits(book) if (finding := _judged(book, fit, stand)) is not None)


def _judged(book: Book, fit: Fit, stand: Stand | None) -> Finding | None:
    seat, bore = fit.center_size.taper(), fit.bore_size.taper()
    if seat is None or bore is None:
        return None
    apart = Fraction(seat) - Fraction(bore)
    bands = [difference_band(book, size) for size in (fit.center_size, fit.bore_size)]
    band = Fraction(float(sum(b * b for b in bands)) ** 0.5)
    judged = decide(book, stand, "taper_difference", point(abs(apart)), band)
    if isinstance(judged, str):
        judged = decide(book, stand, "taper", point(abs(apart)), band)
    edge = "outer" if apart > 0 else "inner"
    subject = f"{fit.tire.id} on {fit.center.id}"
    mm = book.in_mm(stand.engine if stand else None)
    differ = f"seat and bore differ in taper by {figured(abs(apart), 'length', mm)}: the {edge} edge grips harder"
    text = differ if apart else "seat and bore have the same taper"
    figures = (computed("taper of the seat", seat), computed("taper of the bore", bore))
    at = fit.bore_size.readings[0].at
    return limit_finding(book, ID, subject, at, judged, "taper_difference", text, NEXT, figures)
