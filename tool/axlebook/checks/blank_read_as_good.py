"""What nobody looked at stands as if it were good.

What is judged: inspections. One that holds no reading, no observation and no examination, and names nothing as not
measured, says nothing: it is no pass. Where nobody stands for it either (`by`, `signed`, `note`) it is a template as
it was begun, and the next inspection falls due as if it were not there. A report that was only filed (`reported_on`)
claims none. An answer `not seen`, or a reading, for what the same record lists under `not_measured` cannot both be
true; an entry that names positions speaks of those alone. No more can `not seen` with spokes, or with a size where a
limit is for it. And a sheet whose figures all stand in the sheet before, to the last digit, was most likely copied.

What to do: ask who held the lamp. What was not looked at goes to `not_measured`, with the reason, and nowhere else.

Source: the record itself; silence is never a pass.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.session import Session

from ._records import title
from ._seen import sizes_told

ID = "blank-read-as-good"
COPIED = 12  # so many figures alike, all that there are, are no chance
SOURCE = "the record itself: silence is never a pass"
LOOK = "Ask who looked. What nobody looked at goes to `not_measured`, with the reason."


def check(book: Book) -> Iterator[Finding]:
    """Look at what every inspection claims."""
    last: dict[tuple[str, str], Session] = {}
    keys = frozenset({"spokes", *(word.key for word in book.vocabulary.sizes.values())})
    for session in (one for one in book.past_sessions if one.kind == "inspection"):
        yield from _silent(session)
        if session.not_measured:
            yield from _both(book, session)
        yield from _sized(book, session, keys)
        before = last.get((session.engine, session.purpose))
        if before is not None and before.day != session.day:
            yield from _copied(before, session)
        last[session.engine, session.purpose] = session


def _silent(session: Session) -> Iterator[Finding]:
    if session.silent:
        begun = " Until somebody fills it in, it counts as begun, not as done." if session.blank else ""
        yield _finding(
            session.id, session.place, f"{session.id}: {session.purpose} of {session.day.text}, and not one reading, "
            f"observation or examination in it. It says nothing, and nothing is within.{begun}", "", "silent",
        )  # fmt: skip


def _both(book: Book, session: Session) -> Iterator[Finding]:
    out = session.not_measured
    left_out = {(n.what, place, at): n for n in out for place in n.places for at in n.positions or ("",)}
    whats = {what for what, _, _ in left_out}
    for observation in (one for one in session.observations if one.looked_for in whats):
        why = left_out.get((observation.looked_for, observation.place or observation.part, ""))
        if why is not None and observation.answer == "not seen":
            what = f"{title(book, observation.looked_for)} is answered “not seen”"
            yield _contradicted(observation.named, observation.at, what, why.because, observation.looked_for)
    for reading in (one for one in session.readings if one.quantity in whats):
        where = reading.quantity, reading.place or reading.part
        positions = "", *(position for position, _ in reading.values)
        why = next((left_out[*where, at] for at in positions if (*where, at) in left_out), None)
        if why is not None:
            what = f"{title(book, reading.quantity)} is read"
            yield _contradicted(reading.named, reading.at, what, why.because, reading.quantity)


def _sized(book: Book, session: Session, keys: frozenset[str]) -> Iterator[Finding]:
    for one in session.observations:
        if one.answer != "not seen" or keys.isdisjoint(one.tree):
            continue
        if told := sizes_told(book, one):
            what = f"{one.named}: {title(book, one.looked_for)} is answered “not seen”, and {told[0]}"
            yield _finding(one.named, one.at, f"{what}. One of the two is not so.", one.looked_for, "sized")


def _contradicted(named: str, at: Place, what: str, because: str, quantity: str) -> Finding:
    words = f"{named}: {what}, and the same record says that it was not measured: {because}. One of the two is not so."
    return _finding(named, at, words, quantity, "both")


def _copied(before: Session, session: Session) -> Iterator[Finding]:
    if len(before.readings) != len(session.readings) or not _alike_at_first(before, session):
        return
    mine, theirs = _figures(session), _figures(before)
    if len(mine) >= COPIED and mine == theirs:
        yield _finding(
            session.id, session.place, f"{session.id}: all {len(mine)} figures are those of {before.id}, to the last "
            "digit. Most likely the last sheet was copied.", "", "copied",
        )  # fmt: skip


def _alike_at_first(before: Session, session: Session) -> bool:
    """Whether the first readings are alike: most sheets differ there, and need no longer look."""
    return [one.values for one in before.readings[:4]] == [one.values for one in session.readings[:4]]


def _figures(session: Session) -> dict[tuple[str, str, str], tuple[str, ...]]:
    return {
        (r.named, r.quantity, position): tuple(m.text for m in measures)
        for r in session.readings
        for position, measures in r.values
    }


def _finding(subject: str, at: Place, words: str, quantity: str, where: str) -> Finding:
    return Finding(ID, Verdict.SUSPECT, Severity.DATA, subject, at, words, (), SOURCE, LOOK, quantity, where)
