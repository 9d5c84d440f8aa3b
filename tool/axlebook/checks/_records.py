"""What the checks of records share: every reading, old cards, readings that lack something, words near a word."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Collection, Iterable, Iterator
from heapq import nsmallest

from axlebook.findings import Finding, Place, Severity, Verdict, id_of
from axlebook.records.book import Book
from axlebook.records.engine import Engine
from axlebook.records.reading import Reading
from axlebook.records.session import Session

FEW = 300  # names that can all be compared in no time
MOST = 50  # of more, so many that differ in the fewest places


def begun(book: Book) -> list[Session]:
    """All records, drafts too, of what had begun by the day the book is read at: a later one is not yet there."""
    return [s for s in book.sessions if s.day.first is None or s.day.first <= book.as_of]


def every_reading(book: Book) -> list[Reading]:
    """All readings taken by the day the book is read at, those of drafts too, listed once a run."""
    found: list[Reading] | None = book.__dict__.get("_every_reading")
    if found is None:
        read = (r for s in begun(book) for r in s.readings)
        found = [r for r in read if r.day.first is None or r.day.first <= book.as_of]
        book.__dict__["_every_reading"] = found
    return found


def title(book: Book, quantity: str) -> str:
    """A quantity in shop words."""
    word = book.vocabulary.find_word(quantity)
    return word.title if word else quantity.replace("_", " ")


def shelves(book: Book) -> Iterator[tuple[Engine | None, str, Place]]:
    """Who has adopted limit sets, and where: the ledger, where an engine goes by those, and engines by their own."""
    own = [engine for engine in book.engines.values() if engine.adoptions]
    if not book.engines or len(own) < len(book.engines):
        yield None, "the ledger", Place(book.ledger.path, "/defaults/limit_sets")
    for engine in own:
        yield engine, engine.id, Place(engine.path, "/overrides/limit_sets")


def unread(book: Book) -> frozenset[str]:
    """Ids of records that are there and could not be read: a fault of their own, told once."""
    found: frozenset[str] | None = book.__dict__.get("_unread")
    if found is None:
        lost = (problem.place.path for problem in book.problems if problem.left_out == "")
        found = book.__dict__["_unread"] = frozenset(map(id_of, lost))
    return found


def nearest(word: str, known: Collection[str]) -> str:
    """The known id that a misspelled one was likely meant to be, or ''."""
    pool: Iterable[str] = known
    if len(known) > FEW:
        head, tail, many = word[:8], word[-6:], len(word)
        near = (k for k in known if (k[:8] == head or k[-6:] == tail) and abs(len(k) - many) <= 2)
        pool = nsmallest(MOST, near, key=lambda k: (_unlike(k, word), k))  # a set has another order in each run
    found = difflib.get_close_matches(word, pool, n=1, cutoff=0.7)
    return found[0] if found else ""


def _unlike(one: str, other: str) -> int:
    """At how many places two words differ, laid together at their beginnings or at their ends."""
    ends = (zip(one, other, strict=False), zip(reversed(one), reversed(other), strict=False))
    return min(sum(a != b for a, b in pairs) for pairs in ends)


def is_old_card(session: Session) -> bool:
    """Whether a record was typed in from an older card: what that lacks, nobody can add."""
    return "transcribed" in session.tree


def setup_of(session: Session) -> Place:
    """Where a record tells what holds for all its readings; the record itself where it has no such part."""
    return Place(session.path, "/setup") if "setup" in session.tree else session.place


def counted(many: int, what: str) -> str:
    """`1 reading`, `3 readings`."""
    return f"{many} {what}" if many == 1 else f"{many} {what}s"


def some(names: Iterable[str], most: int = 3) -> str:
    """The first few of some names, and how many more there are."""
    listed = list(dict.fromkeys(names))
    more = f" and {len(listed) - most} more" if len(listed) > most else ""
    return ", ".join(listed[:most]) + more


def by_session(book: Book, lacking: Iterable[Reading]) -> Iterator[tuple[Session, list[Reading]]]:
    """Readings gathered by the record they stand in; what-ifs are left out."""
    found: dict[str, list[Reading]] = {}
    for reading in lacking:
        found.setdefault(reading.source.record, []).append(reading)
    for id, readings in found.items():
        session = book.session_by_id[id]
        if not session.draft:
            yield session, readings


def not_told(
    book: Book,
    check: str,
    lacking: Iterable[Reading],
    cause: str,
    next: str,
    severity: Severity = Severity.DATA,
    once: Callable[[Session], Place] | None = None,
) -> Iterator[Finding]:
    """One finding a record for the readings that lack something: not assessed, and on an old card a note.

    `once`: where one line would tell it for all of them, for several that lack it.
    """
    for session, readings in by_session(book, lacking):
        old = is_old_card(session) or all(r.sure != "yes" for r in readings)
        what = some(f"{title(book, r.quantity)} of {r.named}" for r in readings)
        yield Finding(
            check,
            Verdict.NOT_ASSESSED,
            Severity.NOTE if old else severity,
            session.id,
            once(session) if once is not None and len(readings) > 1 else readings[0].at,
            f"{counted(len(readings), 'reading')} of {session.day.text}: {cause} ({what}).",
            source="what a reading must tell (records of this ledger)",
            next="Ask who kept the card; write it if it can still be known." if old else next,
            cause=cause,
        )
