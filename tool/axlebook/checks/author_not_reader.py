"""A record was committed by somebody who is not among those who made it.

What is judged: the author of the commit that brought an inspection, tire work, a turning or a mounting, by the names in
`git_authors:` of the records in `people/`, name or mail address. It is no finding where the author is one of `by`, or
signed the record, witnessed it, or copied it from an old card. One person often types what others read: that is a note,
so that a reviewer knows whom to ask, and no more. A name in a commit is what its author's machine said; nobody's
identity is proved by it. Where nobody in `people/` has `git_authors`, nothing is judged, and that is said once.

What to do: let one of those who read it look at the figures, and sign. Where a name of one's own is missing in
`people/`, add it to `git_authors:` there.

Source: `git_authors` in people/; the history of this ledger in git.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.entered import Commit
from axlebook.records.session import Session

from ._history import SOURCE, sessions

ID = "author-not-reader"
_NOBODY = "nobody in people/ says under which names they commit (git_authors)"


def check(book: Book) -> Iterator[Finding]:
    """Tell every record whose committer had no part in it."""
    known = _people(book)
    found = [(session, life.entered) for session, life in sessions(book) if life.entered]
    if found and not known:
        yield Finding(
            ID, Verdict.NOT_ASSESSED, Severity.NOTE, "ledger", book.place("ledger"),
            f"{len(found)} dated records were entered in git; by whom, nobody can say: {_NOBODY}.",
            source=SOURCE, next="Write git_authors into the records in people/.", cause=_NOBODY,
        )  # fmt: skip
        return
    for session, entered in found:
        people = known[entered.author] | known[entered.email] if entered else set()
        if entered and session.by and not people & _part_in(session):
            yield _finding(session, entered, people)


def _people(book: Book) -> dict[str, set[str]]:
    """The persons by the names they commit under."""
    found: dict[str, set[str]] = defaultdict(set)
    for person in book.of_kind("person"):
        for name in fields.texts(person.tree, "git_authors"):
            found[name].add(person.id)
    return found


def _part_in(session: Session) -> set[str]:
    signed, copied = fields.inner(session.tree, "signed"), fields.inner(session.tree, "transcribed")
    readers = {name for reading in session.readings for name in reading.by}
    vouching = {fields.text(signed, "signed_by"), fields.text(signed, "witness")}
    return {*session.by, *readers, *vouching, *fields.texts(copied, "by")}


def _finding(session: Session, entered: Commit, people: set[str]) -> Finding:
    who = f"{entered.author}, who is {' or '.join(sorted(people))}" if people else f"{entered.author}, nobody on record"
    return Finding(
        ID,
        Verdict.SUSPECT,
        Severity.NOTE,
        session.id,
        session.place.below("by"),
        f"Made by {', '.join(session.by)}; entered in commit {entered.hash[:10]} of {entered.on} by {who}.",
        source=f"git_authors in people/; {SOURCE}",
        next="Let one of those who made it look over the figures and sign; or add the name in people/.",
    )
