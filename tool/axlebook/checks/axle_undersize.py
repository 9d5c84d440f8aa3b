"""A size of an axle is smaller than a limit on file, or a gouge in it deeper.

What is judged: journal, wheel seat and middle of the axle, by axle load where a table goes by it (between two rows
the next higher load counts; above the last row no limit is on file), the thickness of the collar, and the depth of a
gouge between the wheel seats.

What to do: re-measure with a micrometer at the smallest place. If it stands, the axle may serve under a lighter load
only where the rule allows it: ask before it is moved to another place.

Source: the limit named in the finding. For the United States 49 CFR 230.99 and 230.100.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged

ID = "axle-undersize"
QUANTITIES = (
    "journal_diameter",
    "wheel_seat_diameter",
    "axle_center_diameter",
    "axle_collar_thickness",
    "axle_gouge_depth",
)
NEXT = "Re-measure with a micrometer at the smallest place."


def check(book: Book) -> Iterator[Finding]:
    """Judge the sizes of every axle."""
    return judged(book, ID, QUANTITIES, NEXT)
