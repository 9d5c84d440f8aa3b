"""The two wheels of one axle differ in diameter by more than a limit on file.

What is judged: the difference of the two mean tread diameters, on every axle and always, whether or not the tires
were turned. With one wheel taped only, it is not assessed. A wheel that was taped earlier than the other, and ran since
or may have, is at most as large as it was then: the difference is then outside or undecided, never within.

What to do: tape both wheels again, the same person with the same tape, in the same plane of the tread. If it stands,
the larger wheel is turned to match the smaller one; look first at how much tire that leaves.

Source: the limit named in the finding. For the United States 49 CFR 230.112(a).
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged

ID = "diameters-differ-on-axle"
QUANTITIES = ("diameter_difference_on_axle", "tread_diameter")
NEXT = "Tape both wheels again, same person, same tape, same plane."


def check(book: Book) -> Iterator[Finding]:
    """Judge the difference of diameters on every axle."""
    return judged(book, ID, QUANTITIES, NEXT)
