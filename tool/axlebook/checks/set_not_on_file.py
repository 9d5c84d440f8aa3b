"""A limit set was adopted that cannot judge: it is not on file, could not be read, or is historic.

What is judged: every adoption of the ledger and of its engines, in force on the day the book is read at. A set that is
adopted and not there judges nothing, and without this finding nobody would see it.

What to do: put the set's record into `limits/`, or put its name right. A historic set is kept for reading only: adopt
one that is in force.

Source: the adoptions in `ledger.yaml` and in the engines' records.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.limits import Adoption
from axlebook.records.book import Book

from ._records import nearest, unread

ID = "set-not-on-file"


def check(book: Book) -> Iterator[Finding]:
    """Tell every adopted set that judges nothing."""
    ledger = Place(book.ledger.path, "/defaults/limit_sets")
    yield from _adopted(book, "the ledger", ledger, book.ledger.adoptions)
    for engine in book.engines.values():
        yield from _adopted(book, engine.id, Place(engine.path, "/overrides/limit_sets"), engine.adoptions)


def _adopted(book: Book, who: str, at: Place, adoptions: tuple[Adoption, ...]) -> Iterator[Finding]:
    for index, adoption in enumerate(adoptions):
        id = adoption.set_id
        if not adoption.in_force(book.as_of):
            continue
        if id in unread(book):
            why, next = "its record could not be read", f"Put the record of {id} right first."
        elif id not in book.limit_sets:
            near = nearest(id, list(book.limit_sets))
            why = "no set of that id is on file"
            next = (
                f"Write {near} if that is meant; else put the set into `limits/`." if near else "Put it into `limits/`."
            )
        elif book.limit_sets[id].historic:
            why, next = "it is marked historic, for reading only", "Adopt a set that is in force."
        else:
            continue
        yield Finding(
            ID,
            Verdict.SUSPECT,
            Severity.DATA,
            f"{who} {id}",
            at.below(index, "set"),
            f"{who} has adopted the limit set {id}, and {why}: nothing is judged by it.",
            source="the adoptions of the railway",
            next=next,
            where=id,
        )
