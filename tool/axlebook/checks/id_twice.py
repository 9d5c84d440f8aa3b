"""Two things bear one id.

What is judged: the ids of all records, of the centers told inside the records of wheelsets, and of the entries of each
limit set. An id is the one name by which readings, work and people find a thing; with two of one name nobody can tell
which is meant. Of two records the first in order of path is used, the other is not read further. Two engines that carry
one number get a note: both may bear it, but no command finds either by it.

What to do: rename the one that came later, and put right what names it. If both tell of one thing, join them.

Source: the rules of the ledger: an id is unique in it.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.limits import AfterEvent, Interval, Limit, Practice
from axlebook.records.book import Book
from axlebook.records.engine import Engine

ID = "id-twice"


def check(book: Book) -> Iterator[Finding]:
    """Tell every id that two records, a record and a center, or two entries of a limit set bear."""
    for id, path in book.twins:
        yield _finding(id, Place(path), book.paths[id], "Nothing of this file is used until then.")
    yield from _centers(book)
    yield from _entries(book)
    yield from _numbers(book)


def _numbers(book: Book) -> Iterator[Finding]:
    first: dict[str, Engine] = {}
    for engine in book.engines.values():
        other = first.setdefault(engine.number, engine) if engine.number else engine
        if other is not engine:
            yield Finding(
                ID,
                Verdict.SUSPECT,
                Severity.NOTE,
                engine.id,
                Place(engine.path, "/number"),
                f"{engine.id} carries the number {engine.number}, as {other.id} does. By its number neither is found.",
                source="the records of the engines",
                next="Put the number right if it is a slip; if both bear it, name each by its id.",
                where="/number",
            )


def _centers(book: Book) -> Iterator[Finding]:
    first: dict[str, str] = {}
    for wheelset in book.wheelsets.values():
        for center in wheelset.centers:
            other = book.paths.get(center.id) or first.setdefault(center.id, wheelset.path)
            if other != wheelset.path:
                yield _finding(center.id, center.place, other, "The center that stands last in the book is used.")


def _entries(book: Book) -> Iterator[Finding]:
    for limit_set in book.limit_sets.values():
        first: set[str] = set()
        named: list[Limit | Practice | Interval | AfterEvent] = [*limit_set.limits, *limit_set.practices]
        named += [*limit_set.intervals, *limit_set.after]
        for name, place in ((entry.id, entry.place) for entry in named):
            id = name.removeprefix(f"{limit_set.id}/")
            if id in first:
                yield _finding(id, place.below("id"), f"{place.path}, further up", "Both are used.")
            first.add(id)


def _finding(id: str, place: Place, other: str, lost: str) -> Finding:
    return Finding(
        ID,
        Verdict.SUSPECT,
        Severity.DATA,
        id,
        place,
        f"The id {id} is also that of {other}. {lost}",
        source="the rules of the ledger: an id is unique in it",
        next="Rename the one that came later, and put right what names it; or join the two.",
        where=place.pointer,
    )
