"""An old card has a figure that nobody can read.

What is judged: every value that a record gives as `unknown`. The card had something there, and it is lost: a blot, a
torn corner, a hand that nobody can make out. It is kept as that, it is no reading, and nothing is judged by it. Where
the record says neither `transcribed:` nor how sure it is, somebody today did not write down what was read: that weighs
as data, not as a note.

What to do: nothing, of an old card. Else read it again, or write under `not_measured` why it was not read.

Source: the record.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

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
        lost = list(_lost(session))
        if lost:
            yield _finding(book, session, lost)


def _lost(session: Session) -> Iterator[tuple[str, dict[str, Any], str]]:
    """Pointer, reading and position of each value that is unknown."""
    for index, reading in enumerate(fields.items(session.tree, "readings")):
        for position, value in reading["values"].items() if reading else ():
            if value == UNKNOWN:
                yield f"/readings/{index}/values", reading, position


def _finding(book: Book, session: Session, lost: list[tuple[str, dict[str, Any], str]]) -> Finding:
    old = is_old_card(session) or all(reading.get("sure", "yes") != "yes" for _, reading, _ in lost)
    what = some(f"{title(book, r['quantity'])} of {r.get('place') or r['part']}, {at}" for _, r, at in lost)
    pointer, _, position = lost[0]
    return Finding(
        ID,
        Verdict.NOT_ASSESSED,
        Severity.NOTE if old else Severity.DATA,
        session.id,
        Place(session.path, pointer).below(position),
        f"{counted(len(lost), 'value')} of {session.day.text}: {CAUSE} ({what}).",
        source="record " + session.id,
        next="Nothing, of an old card." if old else "Read it again, or write under `not_measured` why it was not read.",
        cause=CAUSE,
    )
