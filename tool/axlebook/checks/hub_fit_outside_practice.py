"""The fit of a center's hub on its axle is outside the practice the railway has adopted.

What is judged: for every center pressed on the axle that carries it, the wheel seat less the hub bore (or the
allowance, where only that is written down), by the practice on `hub_interference`. The figures are taken as written:
a pressing record carries no temperatures, and seat and bore are of like steel. Exactly on the least or most is
within. A practice that names one diameter says nothing of others.

What to do: hold it against the force it took to press on. When both are small the fit is loose.

Source: the practice named in the finding, adopted by the railway. Such figures are practice, not law.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.quantities import parse_quantity
from axlebook.records import fields
from axlebook.records.book import Book

from ._pressed import Mounting, against_practice, lacks, mountings, seat_diameter
from ._words import figured

ID = "hub-fit-outside-practice"
QUANTITIES = ("hub_interference",)
NEXT = "Hold it against the force it took to press on; when both are small the fit is loose."


def check(book: Book) -> Iterator[Finding]:
    """Hold every hub fit against the adopted practice."""
    for mounting in mountings(book):
        yield from _judged(book, mounting)


def _judged(book: Book, mounting: Mounting) -> Iterator[Finding]:
    seat, bore = seat_diameter(book, mounting), fields.exact(mounting.session.tree, "bore")
    allowance = fields.exact(mounting.session.tree, "allowance")
    fit = seat - bore if seat is not None and bore is not None else allowance
    if fit is None or not seat:
        words = "wheel seat and hub bore are not both written down"
        yield lacks(ID, mounting, "bore", "hub_interference", words, "Enter `seat_diameter` and `bore`.")
        return
    key = "bore" if bore is not None else "allowance"
    mm = book.in_mm()
    read = f"hub on axle {figured(fit, 'length', mm)}, from a seat of {figured(seat, 'length', mm)}"
    one = parse_quantity("1 in").exact
    yield from against_practice(book, ID, mounting, "hub_interference", fit, seat, key, read, ("in", one), NEXT)
