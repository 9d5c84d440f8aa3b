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
) -> Book:
    """Join records into a book.

    `as_of` None: the day the ledger was closed on, else today. Records are taken in the order given; of two with one
    id the first counts (a check says so).
    """
    built: dict[str, dict[str, Any]] = {}
    paths: dict[str, str] = {}
    twins: list[tuple[str, str]] = []
    ledger_path, ledger_tree = "ledger.yaml", {}
    for record in records:
        kind = record.tree["kind"]
        if kind == "ledger":
            ledger_path, ledger_tree = record.path, record.tree
            continue
        if paths.setdefault(record.id, record.path) != record.path:
            twins.append((record.id, record.path))
            continue
        builder = build_session if kind in DATE_KEYS else BUILDERS.get(kind, build_plain)
        shelf = "sessions" if kind in DATE_KEYS else kind if kind in BUILDERS else "plain"
        built.setdefault(shelf, {})[record.id] = builder(record.id, record.path, record.tree)
    ledger = build_ledger(ledger_path, ledger_tree)
    shelves = built.get
    return Book(
        ledger,
        vocabulary,
        as_of or ledger.closed_on or today,
        today,
        shelves("engine", {}),
        {**shelves("driver", {}), **shelves("wheelset", {})},
        shelves("tire", {}),
        in_order(shelves("sessions", {}).values()),
        shelves("service", {}),
        shelves("instrument", {}),
        shelves("limit-set", {}),
        shelves("plain", {}),
        paths,
        problems,
        read,
        sets_altered,
        corrections,
        tuple(twins),
        cited=cited,
    )
