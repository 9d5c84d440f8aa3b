"""A center was pressed on its axle, and the record leaves out what only that day could tell.

What is judged: for every center pressed on the axle that carries it, whether the record gives the force at the start,
half way and the end, the number of the press's chart, and, for a driver, the quarter after. How much the quarter may
be out is the matter of the limits on `quarter_error`. A quarter read later counts as well.

What to do: ask the shop for its chart. The quarter can still be read: read it on every axle of the coupled set.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records import fields
from axlebook.records.book import Book, Thing

from ._pressed import Mounting, mountings

ID = "pressing-not-told"
NEXT = "Ask the shop for its chart; read the quarter on every axle of the coupled set."


def check(book: Book) -> Iterator[Finding]:
    """Look at what every pressing record tells."""
    for mounting in mountings(book):
        tons = fields.inner(mounting.session.tree, "tons")
        yield _told(mounting, "tons", "the force at start, half and end", {"start", "half", "end"} <= tons.keys())
        yield _told(mounting, "chart", "the number of the chart", bool(fields.text(mounting.session.tree, "chart")))
        wheelset = book.wheelsets.get(fields.text(mounting.session.tree, "wheelset"))
        if wheelset is not None and wheelset.driver:
            yield _told(mounting, "quarter_after", "the quarter after pressing", _quarter(book, mounting, wheelset.id))


def _quarter(book: Book, mounting: Mounting, wheelset: str) -> bool:
    if "quarter_after" in mounting.session.tree:
        return True
    day, readings = mounting.session.day.last, book.series.get((Thing("wheelset", wheelset), "quarter_error"), ())
    return any(r.day.first is not None and day is not None and r.day.first >= day for r in readings)


def _told(mounting: Mounting, key: str, what: str, told: bool) -> Finding:
    at = mounting.session.place.below(key)
    if told:
        return Finding(ID, Verdict.WITHIN, Severity.SHOP, mounting.subject, at, "", quantity=key)
    return Finding(
        ID, Verdict.NOT_ASSESSED, Severity.SHOP, mounting.subject, at,
        f"{mounting.subject}: {what} is not written down for {mounting.session.day.text}.",
        source="common practice, no source", next=NEXT, quantity=key,
        cause="not written down when a center was pressed on",
    )  # fmt: skip
