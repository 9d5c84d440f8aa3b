"""A tire stands on, or is meant for, another center than the one it was bored for.

What is judged: tires are bored to measured centers and are not interchangeable. A tire that went on another center
than its order names is told, unless it was on the center of its order before. And the bore of every tire received
or on is held against what was ordered: when it lies outside its own figures and fits those of another tire, the two
were exchanged, in the readings or in the metal. That is found at receiving, before any heat.

What to do: read the stamps of both tires and measure both bores again, side by side. If the marks were taken for
one another, correct the record. If the metal is exchanged, give each tire to the center that its bore fits.

Source: the order in the tire's own record. That tires are not interchangeable is common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.records.book import Book

from ._bores import Bore, bores
from ._tire_day import Application, applications
from ._words import figured

ID = "wrong-tire-on-center"
NEXT = "Read the stamps of both tires, and measure both bores again side by side."


def check(book: Book) -> Iterator[Finding]:
    """Look at where each tire went, and at whose order each bore fits."""
    for app in applications(book):
        if app.tire.for_center:
            yield _placed(book, app)
    found = bores(book)
    for bore in found:
        # only a bore outside its own order can fit another's better: most need not be held against any
        outside = bore.off(bore) > 0.0
        yield _matched(bore, [other for other in found if outside and other is not bore], book.in_mm())


def _placed(book: Book, app: Application) -> Finding:
    wanted = app.tire.for_center
    before = {center for center, _ in book.standing.centers_of.get(app.tire.id, ())}
    if wanted in before:
        return Finding(ID, Verdict.WITHIN, Severity.WATCH, app.subject, app.at("center"), "", quantity="for_center")
    others = [t.id for t in book.tires.values() if t.for_center == app.center.id and t.id != app.tire.id]
    swap = f" For {app.center.id} was ordered {' and '.join(others)}." if others else ""
    return Finding(
        ID, Verdict.SUSPECT, Severity.WATCH, app.subject, app.at("center"),
        f"{app.subject}: it was ordered and bored for {wanted}, and went on {app.center.id}.{swap}",
        (Figure("ordered for", wanted, "", app.tire.id), Figure("went on", app.center.id, "", app.session.id)),
        f"order in {app.tire.id}", "Read the stamp on the tire. If it stands, work out its fit on this center.",
        "for_center",
    )  # fmt: skip


def _matched(bore: Bore, others: list[Bore], mm: bool) -> Finding:
    """Whether a bore fits its own order, or that of another tire better."""
    severity = Severity.WATCH if bore.on else Severity.SHOP
    fits = [
        other
        for other in others
        if (bore.off(bore) > bore.band and bore.off(other) < bore.off(bore) / 2)
        or _exchanged(bore, other)
        or _copied(bore, other)
    ]
    if not fits:
        return Finding(ID, Verdict.WITHIN, severity, bore.tire.id, bore.at, "", quantity="tire_bore")
    best = min(fits, key=lambda other: (bore.off(other), other.tire.id))
    alone = best.size is not None and best.off(best) > best.band and best.off(bore) < best.off(best) / 2
    both = alone or _exchanged(bore, best)
    told = f" And the bore of {best.tire.id} fits the order of {bore.tire.id}: the two are exchanged." if both else ""
    read = f"bore at 68 degF {figured(Fraction(bore.mean), 'length', mm)}"
    return Finding(
        ID, Verdict.SUSPECT, severity, bore.tire.id, bore.at,
        f"{bore.tire.id}: {read}. Ordered was {bore.asked}; it fits what was ordered for {best.tire.id}, {best.asked}."
        + told,
        (
            Figure("bore at 68 degF", repr(bore.mean * 1000), "mm", bore.at.path),
            Figure("exchanged with", best.tire.id, "", best.tire.path),
        ),
        f"orders in {bore.tire.id} and {best.tire.id}", NEXT, "tire_bore", best.tire.id,
    )  # fmt: skip


def _copied(bore: Bore, other: Bore) -> bool:
    """Whether a bore outside its own order has, figure for figure, the readings of a tire that is in order."""
    if bore.size is None or other.size is None or other.off(other) > 0.0:
        return False
    mine, theirs = ([(d.position, d.text) for d in size.diameters] for size in (bore.size, other.size))
    return mine == theirs and len(set(mine)) > 2


def _exchanged(one: Bore, two: Bore) -> bool:
    """Whether two bores together lie further outside their own orders than both are good to, and fit each other's.

    Two that err by so much in just the way that puts each into the other's order are no chance.
    """
    if one.size is None or two.size is None or one.off(two) > 0.0 or two.off(one) > 0.0:
        return False
    own = one.off(one), two.off(two)
    return min(own) > 0.0 and sum(own) > math.hypot(one.band, two.band)
