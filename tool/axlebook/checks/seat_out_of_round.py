"""The seat of a center, or the bore of a tire, is out of round.

What is judged: the largest less the smallest diameter read in one plane, of the center's seat and of the tire's
bore, for every tire on by record or ordered for a center, by the limits on `out_of_round`. Diameters read across two
points are blind to odd lobes: a seat of three humps can read round. Read once in a plane, it is not assessed.

What to do: read again at three diameters or more, the parts resting as they will rest when they go together. A seat
out of round is turned before the tire is bored; a tire out of round is looked at on even blocks first.

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

ID = "seat-out-of-round"
QUANTITIES = ("out_of_round",)
NEXT = "Read again at three diameters, the part resting evenly."


def check(book: Book) -> Iterator[Finding]:
    """Judge how round every seat and bore is."""
    return once(_judged(book, face) for face in faces(book))


def _judged(book: Book, face: Face) -> Finding:
    found, at = face.size.out_of_round(), face.size.readings[0].at
    if found is None:
        return Finding(
            ID, Verdict.NOT_ASSESSED, Severity.SHOP, face.part, at,
            f"{face.part}: one diameter of the {face.title} does not tell whether it is round.", next=NEXT,
            quantity="out_of_round", cause="only one diameter was read in a plane",
        )  # fmt: skip
    worst, plane = found
    judged = decide(book, face.stand, "out_of_round", point(Fraction(worst)), difference_band(book, face.size))
    mm = book.in_mm(face.stand.engine if face.stand else None)
    text = f"the {face.title} is {figured(Fraction(worst), 'length', mm)} out of round{f', {plane}' if plane else ''}"
    return limit_finding(
        book, ID, face.part, at, judged, "out_of_round", text, NEXT, (computed("out of round", worst),), plane
    )
