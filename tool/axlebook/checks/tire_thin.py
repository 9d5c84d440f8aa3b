"""A tire is thinner than a limit on file.

What is judged: the latest thickness of every tire at each place it was read, by the limits in force; with retaining
rings also the thickness from throat of flange to counterbore, and the thickness from the outside of the ring
together with what the tire extends between the rings. A table of limits goes by axle load (weight on drivers shared
by the pairs of drivers) and center diameter; between two rows the next row counts. A limit that names a plane judges
only what was read in that plane. For truck and tender tires the United States table has no row: not assessed, once.

What to do: read the thinnest place again with a depth gauge from the tire's edge, and once more with a second person.
If it stands, the tire is done: order new ones for the whole set, since one new tire will not match the others.

Source: the limit named in the finding. For the United States 49 CFR 230.112(d).
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged

ID = "tire-thin"
QUANTITIES = (
    "tire_thickness",
    "thickness_from_ring_with_extension",
    "thickness_from_ring",
    "ring_extension",
    "thickness_throat_to_counterbore",
)
NEXT = "Re-measure at the thinnest place; then a second person."


def check(book: Book) -> Iterator[Finding]:
    """Judge the thickness of every tire."""
    return judged(book, ID, QUANTITIES, NEXT)
