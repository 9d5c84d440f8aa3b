"""The findings that one record more would have, were it in the book: what guided entry says after every answer.

Every check is run on the whole book with the record in it, so that what is said at the wheel is what `check` says
later.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from axlebook.findings import Finding
from axlebook.records.book import Book, in_order
from axlebook.records.session import build_session

from . import ALL_IDS
from . import findings_of as findings_of_check

# What makes a reading unlikely, so that it is asked about before anyone leaves the wheel.
STOPPING = frozenset({
    "metal-added", "flange-height-falls", "flange-thickness-rises", "diameter-not-bore-and-thickness", "one-turn-out",
    "digits-transposed", "fraction-lost", "mm-for-inches", "sides-swapped", "wrong-wheel", "hot-reading",
    "jump-beyond-rate", "back-to-back-out-of-line", "back-to-back-moved", "method-changed",
    "second-reader-disagrees", "unlike-its-neighbors", "instrument-out-of-range", "wrong-tire-on-center",
})  # fmt: skip


def with_record(book: Book, id: str, path: str, tree: Mapping[str, Any]) -> Book:
    """The book with one record of readings more, read at its day where that is later."""
    session = build_session(id, path, dict(tree))
    day = session.day.first or date.min
    return replace(
        book,
        sessions=in_order([*(s for s in book.sessions if s.id != id), session]),
        paths={**book.paths, id: path},
        as_of=max(book.as_of, day),
        read=book.read + 1,
    )


def findings_of_record(
    book: Book, id: str, path: str, tree: Mapping[str, Any], checks: Iterable[str] = ALL_IDS
) -> list[Finding]:
    """The findings of some checks that stand in the record, what is within among them."""
    more = with_record(book, id, path, tree)
    return [finding for check in checks for finding in findings_of_check(more, check) if finding.place.path == path]
