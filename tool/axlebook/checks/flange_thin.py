"""A flange is thinner than a limit on file.

What is judged: the latest flange thickness of every wheel on the part now fitted, by every limit set in force for
its engine, at the plane the limit names. A limit that names a plane judges only readings taken there; the plane
comes from the reading, or from the gauge's own record.

What to do: read the flange again at the same place with the same gauge, then once more with a second person. If it
stands, the wheel is outside: tag the engine, tell the mechanical lead. A thin flange is restored only by turning
the whole tread down, so look at the tire thickness before the lathe is booked.

Source: the limit record named in the finding. For steam locomotives in the United States 49 CFR 230.113(g).
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged

ID = "flange-thin"
QUANTITIES = ("flange_thickness", "flange_gradient")


def check(book: Book) -> Iterator[Finding]:
    """Judge flange thickness and gradient of every wheel."""
    return judged(book, ID, QUANTITIES, "Re-measure at the same place with the same gauge; then a second person.")
