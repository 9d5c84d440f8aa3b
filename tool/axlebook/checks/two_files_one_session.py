"""Two records tell of one session.

What is judged: inspections of one day. Where half of the figures of one, and at least three, stand in another to the
last digit, at the same places, the sheet was most likely entered twice: every figure then counts twice, and a
correction to one leaves the other as it was.

What to do: keep the more complete record. Withdraw the other by a correction if it is signed; else take it out.

Source: the two records themselves.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.session import Session

ID = "two-files-one-session"
LEAST, SHARE = 3, 0.5
NEXT = "Keep the more complete one; withdraw the other by a correction, or take it out if it is not signed."


def check(book: Book) -> Iterator[Finding]:
    """Compare the inspections of each day."""
    days: dict[object, list[Session]] = defaultdict(list)
    for session in book.past_sessions:
        if session.kind == "inspection" and session.day.exact is not None:
            days[session.day.exact].append(session)
    for sessions in days.values():
        for index, later in enumerate(sessions):
            for earlier in sessions[:index]:
                yield from _compared(earlier, later)


def _compared(one: Session, two: Session) -> Iterator[Finding]:
    mine, theirs = _figures(two), _figures(one)
    same = len(mine & theirs)
    if same < LEAST or same < SHARE * min(len(mine), len(theirs)):
        return
    yield Finding(
        ID, Verdict.SUSPECT, Severity.DATA, two.id, two.place,
        f"{two.id}: {same} of its {len(mine)} figures stand in {one.id} too, same day, same places. Most likely one "
        f"session was entered twice.",
        (Figure("figures alike", str(same), "", two.id), Figure("other record", one.id, "", one.path)),
        f"{one.id} and {two.id}", NEXT, "", one.id,
    )  # fmt: skip


def _figures(session: Session) -> set[tuple[str, ...]]:
    read = {
        (r.named, r.quantity, position, *(m.text for m in measures), *r.by)
        for r in session.readings
        for position, measures in r.values
    }
    return read | {(o.named, o.looked_for, o.answer) for o in session.observations if o.answer == "seen"}
