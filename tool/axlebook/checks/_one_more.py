"""The book as if it had one record more: what guided entry and `import` run the checks on, before it is written.

It is the whole book with the record in it, so that what is said at the wheel is what `check` says later.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from axlebook.records.book import Book, in_order
from axlebook.records.session import build_session

# What makes a reading unlikely, so that it is asked about before anyone leaves the wheel.
STOPPING = frozenset({
    "metal-added", "flange-height-falls", "flange-thickness-rises", "diameter-not-bore-and-thickness", "one-turn-out",
    "digits-transposed", "fraction-lost", "mm-for-inches", "sides-swapped", "wrong-wheel", "hot-reading",
    "jump-beyond-rate", "back-to-back-out-of-line", "back-to-back-moved", "method-changed",
    "second-reader-disagrees", "repeats-apart", "unlike-its-neighbors", "instrument-out-of-range",
    "wrong-tire-on-center",
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
