"""The seat of a center, or the bore of a tire, tapers.

What is judged: the mean diameter at the outer edge less that at the inner, whichever way, of the center's seat and
of the tire's bore, by the limits on `taper`. Where one edge was not read it is not assessed. That seat and bore
taper alike is another matter: see taper-differs.

What to do: read both edges again with the same instrument. A tapered seat is turned before the tire is bored to it.

Source: the limit record named in the finding; no published figure was found.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Finding, Severity, Verdict
from axlebook.limits import point
from axlebook.records.book import Book

from ._by_limit import computed, decide, limit_finding, once
from ._shape import Face, difference_band, faces
from ._words import figured

ID = "seat-taper"
QUANTITIES = ("taper",)
NEXT = "Read both edges again with the same instrument."


def check(book: Book) -> Iterator[Finding]:
    """Judge the taper of every seat and bore."""
    return once(_judged(book, face) for face in faces(book))


def _judged(book: Book, face: Face) -> Finding:
    taper, at = face.size.taper(), face.size.readings[0].at
    if taper is None:
        return Finding(
            ID, Verdict.NOT_ASSESSED, Severity.SHOP, face.part, at,
            f"{face.part}: the taper of the {face.title} is not known, for both its edges were not read.", next=NEXT,
            quantity="taper", cause="an edge was not read, so the taper is not known",
        )  # fmt: skip
    judged = decide(book, face.stand, "taper", point(abs(Fraction(taper))), difference_band(book, face.size))
    figures = (computed("taper", taper),)
    mm = book.in_mm(face.stand.engine if face.stand else None)
    return limit_finding(book, ID, face.part, at, judged, "taper", _told(face, taper, mm), NEXT, figures)


def _told(face: Face, taper: float, mm: bool) -> str:
    if not taper:
        return f"the {face.title} reads the same at both edges"
    way = "larger at the outer edge" if taper > 0 else "smaller at the outer edge"
    return f"the {face.title} tapers {figured(abs(Fraction(taper)), 'length', mm)}, {way}"
