"""Tires are on whose fit nobody recorded.

What is judged: the tires now on an engine that the book only found there: their interference, heat and shrinking on
are not on record, and nothing of it can be judged. It is said once an engine, as a note: an old engine's tires are
not a fault of today's.

What to do: watch their marks, their ring and their gauge. When a tire comes off, measure its bore and the center.

Source: none; the ledger's own `tire-found` records.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.condition import Stand
from axlebook.records.session import Session

from ._judging import every_stand

ID = "fit-not-recorded"
NEXT = "Watch mark, ring and gauge; when a tire comes off, measure its bore and the center."


def check(book: Book) -> Iterator[Finding]:
    """Tell of the tires of each engine that were found on."""
    found: dict[str, list[tuple[Stand, Session]]] = {}
    for stand in every_stand(book):
        session = _found(book, stand)
        if session is not None:
            found.setdefault(stand.engine.id, []).append((stand, session))
    for engine, tires in found.items():
        names = [stand.tire.id for stand, _ in tires if stand.tire]
        count = f"{len(names)} tires" if len(names) != 1 else "1 tire"
        yield Finding(
            ID, Verdict.NOT_ASSESSED, Severity.NOTE, engine, tires[0][1].place,
            f"{engine}: the fit of {count} is on no record ({', '.join(names)}): found on, not applied.", next=NEXT,
            quantity="interference", cause="the tire was found on, and its fit is on no record",
        )  # fmt: skip


def _found(book: Book, stand: Stand) -> Session | None:
    """The record that found the tire of a wheel, where no application is on record."""
    if stand.tire is None or stand.center is None:
        return None
    spells = [s for s in book.standing.tires.get(stand.center.id, ()) if s.what == stand.tire.id]
    session = book.session_by_id.get(spells[-1].by) if spells else None
    return session if session is not None and session.kind == "tire-found" else None
