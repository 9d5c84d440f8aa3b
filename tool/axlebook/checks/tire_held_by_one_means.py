"""A hot tire was held by fewer independent means than practice asks.

What is judged: for every tire that is on by record, how many different means of holding the load its record names,
by the limits on `means_of_holding`. The same means named twice counts once; whether two means are independent, the
names must show.

What to do: before the next lift, have a second means that holds when the first lets go: stands under the axle, a
safety chain, blocks under the tire.

Source: the limit record named in the finding. The ledger records; it authorizes no lift.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Finding
from axlebook.limits import point
from axlebook.records import fields
from axlebook.records.book import Book

from ._by_limit import decide, limit_finding, once
from ._tire_day import Application, applications, not_told

ID = "tire-held-by-one-means"
QUANTITIES = ("means_of_holding",)
NEXT = "Have a second means that holds when the first lets go, before the next lift."


def check(book: Book) -> Iterator[Finding]:
    """Count the means of holding."""
    return once(_judged(book, app) for app in applications(book))


def _judged(book: Book, app: Application) -> Finding:
    means = {" ".join(m.casefold().split()) for m in fields.texts(fields.inner(app.session.tree, "before"), "held_by")}
    at = app.at("before", "held_by")
    if not means:
        return not_told(ID, app, at, "by what the load was held", "means_of_holding")
    judged = decide(book, app.stand, "means_of_holding", point(Fraction(len(means))))
    text = f"held by {len(means)} means: {', '.join(sorted(means))}"
    return limit_finding(book, ID, app.subject, at, judged, "means_of_holding", text, NEXT)
