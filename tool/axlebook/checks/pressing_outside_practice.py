"""A center went on its axle with a force outside the practice the railway has adopted.

What is judged: for every center pressed on the axle that carries it, the force at the end of the stroke for each inch
of the axle's wheel seat, by the practice on `tons_per_diameter`. Exactly on its least or most is within. Without a
force or a seat diameter on record it is not assessed.

What to do: too little force is a loose fit: look at the edge of the hub for rust and movement at every inspection,
and think of pressing it off. Too much may have galled the seat or cracked the hub: examine it by magnets.

Source: the practice named in the finding, adopted by the railway. Such figures are practice, not law.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Finding
from axlebook.quantities import parse_quantity
from axlebook.records import fields
from axlebook.records.book import Book

from ._pressed import Mounting, against_practice, lacks, mountings, seat_diameter

ID = "pressing-outside-practice"
QUANTITIES = ("tons_per_diameter",)
NEXT = "Look at the edge of the hub for rust and movement, and examine the hub by magnets."


def check(book: Book) -> Iterator[Finding]:
    """Hold every pressing force against the adopted practice."""
    for mounting in mountings(book):
        yield from _judged(book, mounting)


def _judged(book: Book, mounting: Mounting) -> Iterator[Finding]:
    tons = fields.exact(fields.inner(mounting.session.tree, "tons"), "end")
    seat = seat_diameter(book, mounting)
    if tons is None or not seat:
        what = "the force at the end of the stroke" if tons is None else "the diameter of the wheel seat"
        step = "Take it from the press's chart." if tons is None else "Enter `seat_diameter`."
        yield lacks(ID, mounting, "tons", "tons_per_diameter", f"{what} is not written down", step)
        return
    one = parse_quantity("1 long tonf").exact / parse_quantity("1 in").exact
    force = tons / seat
    read = f"it was pressed on with {fields.text(fields.inner(mounting.session.tree, 'tons'), 'end')}, "
    read += f"{float(Fraction(force / one)):.3g} long tons an inch of axle"
    yield from against_practice(
        book, ID, mounting, "tons_per_diameter", force, seat, "tons", read, ("long tons an inch", one), NEXT
    )
