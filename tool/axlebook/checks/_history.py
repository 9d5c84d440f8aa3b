"""What the checks of the book share: the history, which records are evidence, how a change is said."""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Place
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.entered import Change, Edit, Entered, Life, has_own_history
from axlebook.records.session import Session

SOURCE = "the history of this ledger in git"
EVIDENCE = frozenset({"inspections", "tire-work", "turnings", "mountings", "defects", "corrections", "waivers"})
FEW = 3  # changes told one by one


def history_of(book: Book) -> Entered | None:
    """How records came into the book; None where nothing is known, or the ledger says it is not its own."""
    if book.entered is None or book.entered.reason or not has_own_history(book.ledger.tree):
        return None
    return book.entered


def is_evidence(life: Life) -> bool:
    """Whether a record tells what was measured, found, done, corrected or waived: by its folder."""
    return life.path.partition("/")[0] in EVIDENCE


def evidence(book: Book) -> Iterator[Life]:
    """The records that are evidence and have more than one text, or are gone."""
    history = history_of(book)
    for life in history.lives.values() if history else ():
        if is_evidence(life) and (life.gone or len(life.versions) > 1):
            yield life


def sessions(book: Book) -> Iterator[tuple[Session, Life]]:
    """The dated records whose coming into the book is known: not what came with the ledger itself, nor old cards."""
    history = history_of(book)
    for session in book.sessions if history else ():
        life = history.lives.get(session.id) if history else None
        if life and life.entered and history and life.entered.hash != history.begun_in and not session.draft:
            yield session, life


def unexplained(book: Book, edit: Edit, id: str) -> tuple[Change, ...]:
    """The changes of a record that no correction tells: one that withdraws it tells all."""
    told = [c.tree for c in book.of_kind("correction") if fields.text(c.tree, "record") == id]
    if any(fields.yes(tree, "withdraws") for tree in told):
        return ()
    known = {(fields.text(tree, "at"), fields.text(tree, "is")) for tree in told}
    return tuple(change for change in edit.changes if (change.pointer, change.now) not in known)


def withdrawn(book: Book, id: str) -> bool:
    """Whether a correction withdraws a record."""
    return any(
        fields.text(c.tree, "record") == id and fields.yes(c.tree, "withdraws") for c in book.of_kind("correction")
    )


def changed_words(found: tuple[Change, ...]) -> str:
    """The first few changes: what was said, what is said now."""
    told = "; ".join(_change(change) for change in found[:FEW])
    return told if len(found) <= FEW else f"{told}; and {len(found) - FEW} more"


def _change(change: Change) -> str:
    where = change.pointer.strip("/").replace("/", " ").replace("~1", "/").replace("~0", "~")
    if not where:
        return "it can no longer be read"
    if not change.was:
        return f"{where}: {change.now} was added"
    return f"{where}: was {change.was}, now {change.now}" if change.now else f"{where}: {change.was} was taken away"


def place_of(life: Life, found: tuple[Change, ...]) -> Place:
    """Where the first change stands."""
    return Place(life.path, found[0].pointer if found else "")
