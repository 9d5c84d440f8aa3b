"""An old card has a figure that nobody can read.

What is judged: every value that a record gives as `unknown`, and every result of an examination. The card had something
there, and it is lost: a blot, a torn corner, a hand that nobody can make out. It is kept as that, it is no reading, and
nothing is judged by it. Where the record says neither `transcribed:` nor how sure it is, somebody today did not write
down what was read: that weighs as data, not as a note.

What to do: nothing, of an old card. Else read it again, or write under `not_measured` why it was not read.

Source: the record.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.reading import UNKNOWN
from axlebook.records.session import Session

from ._records import counted, is_old_card, some, title

ID = "value-unknown"
CAUSE = "the card has a figure there that nobody can read"


def check(book: Book) -> Iterator[Finding]:
    """Tell every record with such values, once."""
    for session in book.past_sessions:
        lost = list(_lost(book, session))
        if lost:
            yield _finding(book, session, lost)


def _lost(book: Book, session: Session) -> Iterator[tuple[Place, fields.Tree, str]]:
    """Place, entry and words of each value that is unknown."""
    for index, reading in enumerate(fields.items(session.tree, "readings")):
        if not reading or UNKNOWN not in reading["values"].values():
            continue
        for position, value in reading["values"].items():
            if value == UNKNOWN:
                words = f"{title(book, reading['quantity'])} of {_of(reading)}, {position}"
                yield session.place.below("readings", index, "values", position), reading, words
    for one in session.examinations:
        if fields.text(one.tree, "result") == UNKNOWN:
            what, method = fields.text(one.tree, "of"), fields.text(one.tree, "method")
            yield one.at.below("result"), one.tree, f"{method} examination, {what} of {_of(one.tree)}: result"


def _of(entry: fields.Tree) -> str:
    return fields.text(entry, "place") or fields.text(entry, "part")


def _finding(book: Book, session: Session, lost: list[tuple[Place, fields.Tree, str]]) -> Finding:
    old = is_old_card(session) or all(fields.text(entry, "sure") not in ("", "yes") for _, entry, _ in lost)
    what = some(words for _, _, words in lost)
    return Finding(
        ID,
        Verdict.NOT_ASSESSED,
        Severity.NOTE if old else Severity.DATA,
        session.id,
        lost[0][0],
        f"{counted(len(lost), 'value')} of {session.day.text}: {CAUSE} ({what}).",
        source="record " + session.id,
        next="Nothing, of an old card." if old else "Read it again, or write under `not_measured` why it was not read.",
        cause=CAUSE,
    )
