"""Two records tell of one session.

What is judged: inspections of one day. Where half of the figures of one, and at least three, stand in another to the
last digit, at the same places, the sheet was most likely entered twice: every figure then counts twice, and a
correction to one leaves the other as it was.

What to do: keep the more complete record. Withdraw the other by a correction if it is signed; else take it out.

Source: the two records themselves.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.session import Session

ID = "two-files-one-session"
LEAST, SHARE = 3, 0.5
NEXT = "Keep the more complete one; withdraw the other by a correction, or take it out if it is not signed."


def check(book: Book) -> Iterator[Finding]:
    """Compare the inspections of each day: those that share figures, found by the figures."""
    days: dict[object, list[Session]] = defaultdict(list)
    for session in book.past_sessions:
        if session.kind == "inspection" and session.day.exact is not None:
            days[session.day.exact, session.engine].append(session)
    for sessions in days.values():
        if len(sessions) > 1:
            yield from _of_one_day(sessions)


def _of_one_day(sessions: list[Session]) -> Iterator[Finding]:
    figures = [_figures(session) for session in sessions]
    seen: dict[tuple[str, ...], list[int]] = {}
    for later, mine in enumerate(figures):
        shared: Counter[int] = Counter()
        for figure in mine:
            earlier = seen.setdefault(figure, [])
            shared.update(earlier)
            earlier.append(later)
        for earlier_one, same in shared.items():
            if same >= LEAST and same >= SHARE * min(len(mine), len(figures[earlier_one])):
                yield _finding(sessions[earlier_one], sessions[later], same, len(mine))


def _finding(one: Session, two: Session, same: int, many: int) -> Finding:
    return Finding(
        ID, Verdict.SUSPECT, Severity.DATA, two.id, two.place,
        f"{two.id}: {same} of its {many} figures stand in {one.id} too, same day, same places. Most likely one "
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
