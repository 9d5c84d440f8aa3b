"""A quantity was read on a thing that cannot have it.

What is judged: every reading, and every observation that says `seen`, against the vocabulary, which tells what a
quantity belongs to. A flange belongs to one wheel: it needs its side. A back-to-back belongs to a pair: it has none. A
one-piece wheelset has no tire and no center, a plain (blind) tire no flange, a tire by its id no journal.

None of it is judged, but the flange: somebody has read one, and the tire's record may be what is wrong.

What to do: look at the sheet. Most often the side was forgotten, or the reading belongs to the wheel next to it.

Source: the vocabulary of the ledger, and the records of wheelsets and tires.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.reading import Observation, Reading

from ._records import begun, title
from ._things import Things

ID = "wrong-thing"
NEXT = "Look at the sheet: which wheel, side or part was it? Write that."
AS_IT_STANDS = "It is judged as it stands: the tire's record may be what is wrong."
FLANGE = "Look at the wheel: if it has a flange, correct `form: flange` of the tire; if not, which wheel was read?"


def check(book: Book) -> Iterator[Finding]:
    """Tell every reading and sighting of what the thing named cannot have."""
    things = Things(book)
    by_engine: dict[str, dict[tuple[str, str], str | None]] = {}
    for session in begun(book):
        engine = session.engine
        known = by_engine.setdefault(engine, {})
        for reading in session.readings:
            key = (reading.quantity, reading.place or reading.part)
            why = known.get(key, "")
            if why == "":
                why = known[key] = things.always_wrong(reading.quantity, reading.place, reading.part, engine)
            depends = things.any_plain and things.depends_on_day(reading.quantity)
            if depends and (plain := things.wrong_that_day(reading.quantity, reading)):
                yield _finding(book, reading, reading.quantity, plain, AS_IT_STANDS, FLANGE)
            elif why:
                yield _finding(book, reading, reading.quantity, why)
        for seen in session.observations:
            if seen.answer == "seen":
                why = things.always_wrong(seen.looked_for, seen.place, seen.part, engine)
                if why:
                    yield _finding(book, seen, seen.looked_for, why)


def _finding(
    book: Book, one: Reading | Observation, quantity: str, why: str, kept: str = "It is not judged.", step: str = NEXT
) -> Finding:
    return Finding(
        ID,
        Verdict.SUSPECT,
        Severity.DATA,
        one.named,
        one.at.below("place" if one.place else "part"),
        f"{one.named}, {title(book, quantity)}: {why}. {kept}",
        source="the vocabulary of the ledger",
        next=step,
        quantity=quantity,
        where=one.pointer,
    )
