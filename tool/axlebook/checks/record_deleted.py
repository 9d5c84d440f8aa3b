"""A record that nobody had signed was in the book and is gone.

What is judged: every record that a commit brought and that is not there now, on the disk as little as in the last
commit. An inspection, tire work, a turning, a mounting, a defect, a correction or a waiver that is gone is suspect:
what was measured once cannot be measured again. Any other record is a note. No finding is a record that lies in
another folder, one that was renamed with every value as it was, or one that a correction withdraws; nor an inspection
that never said more than its day, engine and purpose, as its template does. A record that was on another branch and
was lost while branches were merged is found too. A signed one is told by `signed-record-edited`.

What to do: bring it back (`git log -- PATH` names the commits). A record that was wrong from the start stays, and a
correction with `withdraws: yes` takes it out of the book; two files for one session are one record and a withdrawn
one.

Source: the history of this ledger in git.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.entered import Life, signed_version

from ._history import SOURCE, history_of, is_evidence, withdrawn

ID = "record-deleted"
BEGUN = frozenset({"kind", "measured_on", "engine", "purpose"})  # what an inspection's template says by itself


def check(book: Book) -> Iterator[Finding]:
    """Tell every record that was taken away."""
    history = history_of(book)
    for life in history.lives.values() if history else ():
        if not life.gone or life.renamed or not life.versions or withdrawn(book, life.id):
            continue
        if is_evidence(life) and (signed_version(life) or _held_nothing(life)):
            continue
        yield Finding(
            ID,
            Verdict.SUSPECT,
            Severity.DATA if is_evidence(life) else Severity.NOTE,
            life.id,
            Place(life.path),
            f"{_last(life)} It is gone since {_taken(life)}.",
            source=SOURCE,
            next=f"Bring it back (git log -- {life.path} names where it was), or withdraw it by a correction.",
        )


def _held_nothing(life: Life) -> bool:
    """Whether every text of it is an inspection's template as it was begun; a clone may not reach back to the first."""
    trees = [version.tree or {} for version in life.versions]
    begun = all(tree.get("kind") == "inspection" and tree.keys() <= BEGUN for tree in trees)
    return begun and life.entered is not None


def _kind(life: Life) -> str:
    """What it was; '' where no text of it can be read any more."""
    return next((str(v.tree.get("kind", "")) for v in reversed(life.versions) if v.tree is not None), "")


def _last(life: Life) -> str:
    entered = life.versions[0].commit
    kind = _kind(life) or "record"
    return f"The {kind} {life.id} was entered in commit {entered.named}." if entered else f"The {kind} {life.id}."


def _taken(life: Life) -> str:
    if life.taken_by:
        return f"commit {life.taken_by.named}"
    return "it was lost in a merge, or was deleted on the disk and that is not committed yet"
