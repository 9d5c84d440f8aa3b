"""From trees to the book. A tree comes with its id and path; what was wrong with its form was taken out before."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any, NamedTuple

from axlebook.findings import Problem

from .attached import Cited
from .book import Book, in_order
from .corrections import Correction
from .engine import build_engine
from .instrument import build_instrument
from .ledger import build_ledger
from .limit_set import build_limit_set
from .plain import build_plain
from .service import build_service
from .session import DATE_KEYS, build_session
from .tire import build_tire
from .vocabulary import Vocabulary
from .wheelset import build_wheelset


class Record(NamedTuple):
    """One record as read: its id, its path in the ledger, its tree."""

    id: str
    path: str
    tree: dict[str, Any]


BUILDERS = {
    "engine": build_engine,
    "driver": build_wheelset,
    "wheelset": build_wheelset,
    "tire": build_tire,
    "service": build_service,
    "instrument": build_instrument,
    "limit-set": build_limit_set,
}


def build_book(
    records: Iterable[Record],
    vocabulary: Vocabulary,
    *,
    as_of: date | None,
    today: date,
    problems: tuple[Problem, ...] = (),
    read: int = 0,
    sets_altered: frozenset[str] = frozenset(),
    corrections: tuple[Correction, ...] = (),
    cited: tuple[Cited, ...] = (),
    known: dict[int, tuple[dict[str, Any], Any]] | None = None,
) -> Book:
    """Join records into a book.

    `as_of` None: the day the ledger was closed on, else today. Records are taken in the order given; of two with one
    id the first counts (a check says so). `known` keeps what was built of a tree, for another book of the same trees.
    """
    found = _shelved(records, {} if known is None else known)
    ledger = build_ledger(*found.ledger)
    shelf_of = found.shelves.get
    return Book(
        ledger,
        vocabulary,
        as_of or ledger.closed_on or today,
        today,
        shelf_of("engine", {}),
        {**shelf_of("driver", {}), **shelf_of("wheelset", {})},
        shelf_of("tire", {}),
        in_order(shelf_of("sessions", {}).values()),
        shelf_of("service", {}),
        shelf_of("instrument", {}),
        shelf_of("limit-set", {}),
        shelf_of("plain", {}),
        found.paths,
        problems,
        read,
        sets_altered,
        corrections,
        tuple(found.twins),
        cited=cited,
    )


class _Shelved(NamedTuple):
    """Records built and sorted by what they are."""

    ledger: tuple[str, dict[str, Any]]  # path and tree
    shelves: dict[str, dict[str, Any]]
    paths: dict[str, str]
    twins: list[tuple[str, str]]  # id and path of what comes second under an id


def _shelved(records: Iterable[Record], known: dict[int, tuple[dict[str, Any], Any]]) -> _Shelved:
    found = _Shelved(("ledger.yaml", {}), {}, {}, [])
    for record in records:
        kind = record.tree["kind"]
        if kind == "ledger":
            found = found._replace(ledger=(record.path, record.tree))
            continue
        if found.paths.setdefault(record.id, record.path) != record.path:
            found.twins.append((record.id, record.path))
            continue
        shelf = "sessions" if kind in DATE_KEYS else kind if kind in BUILDERS else "plain"
        found.shelves.setdefault(shelf, {})[record.id] = built(record, known)
    return found


def built(record: Record, known: dict[int, tuple[dict[str, Any], Any]]) -> Any:
    """What a record is built to, once for each tree; None for that of the ledger, which is built with the book."""
    tree = record.tree
    if id(tree) not in known:  # the tree is kept beside what was built of it, so that no other takes its id
        kind = tree["kind"]
        builder = build_session if kind in DATE_KEYS else BUILDERS.get(kind, build_plain)
        known[id(tree)] = tree, None if kind == "ledger" else builder(record.id, record.path, tree)
    return known[id(tree)][1]
