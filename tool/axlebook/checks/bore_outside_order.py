"""A tire came with another bore than was ordered.

What is judged: the mean bore of every tire that was received, and of every tire on by record, taken to 68 degF by
the temperatures of tire and instrument, against the least and the most that the order asks at its own temperature.
The uncertainty of the readings is a guard band: what lies inside it is undecided. An order that names no
temperature cannot be held against anything.

What to do: measure again at three diameters and in three planes, both temperatures written down. If it stands, talk
to the machine shop before any heat: a small bore can be bored again, a large one cannot.

Source: the order in the tire's own record.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.records import fields
from axlebook.records.book import Book

from ._bores import Bore, bores
from ._words import figured

ID = "bore-outside-order"
NEXT = "Measure again in three planes with both temperatures; then talk to the machine shop, before any heat."


def check(book: Book) -> Iterator[Finding]:
    """Hold every bore against its order."""
    for bore in bores(book):
        if bore.size is None or (bore.least is None and bore.most is None):
            received = fields.text(fields.inner(bore.tire.tree, "ordered"), "received_on")
            if bore.lack and (bore.size or bore.lack.reading or received):
                yield _lacking(bore)
        else:
            yield _judged(bore, book.in_mm())


def _lacking(bore: Bore) -> Finding:
    assert bore.lack is not None
    at = bore.lack.reading.at if bore.lack.reading else bore.at
    return Finding(
        ID, Verdict.NOT_ASSESSED, Severity.SHOP, bore.tire.id, at,
        f"{bore.tire.id}: the bore is NOT held against the order: {bore.lack.cause}.", next=bore.lack.next,
        quantity="tire_bore", cause=f"bore: {bore.lack.cause}",
    )  # fmt: skip


def _judged(bore: Bore, mm: bool) -> Finding:
    off, mean, band = bore.off(bore), Fraction(bore.mean), Fraction(bore.band)
    inside = (bore.least is None or mean - band >= bore.least) and (bore.most is None or mean + band <= bore.most)
    verdict = Verdict.OUTSIDE if off > bore.band else Verdict.WITHIN if inside else Verdict.UNDECIDED
    figures = (
        Figure("bore at 68 degF", repr(bore.mean * 1000), "mm", bore.at.path),
        Figure("guard band", repr(bore.band * 1000), "mm", "computed"),
    )
    words = ""
    if verdict is not Verdict.WITHIN:
        words = (
            f"{bore.tire.id}: bore at 68 degF {figured(mean, 'length', mm)}, good to {figured(band, 'length', mm)}. "
            f"Ordered was {bore.asked}."
        )
        told = "a temperature was not read" if bore.size and bore.size.doubt else "it lies nearer to a figure than that"
        words += f" Undecided: {told}." if verdict is Verdict.UNDECIDED else ""
    return Finding(
        ID, verdict, Severity.SHOP, bore.tire.id, bore.at, words, figures, f"order in {bore.tire.id}", NEXT,
        "tire_bore", "68 degF",
    )  # fmt: skip
