"""A table of a limit set cannot be read, or not in one way only.

What is judged: every table of the limits and practices on file: a row for each column, each cell a measure with its
unit or `above`, the cells of a column of one kind, no two rows for the same size, every column a fact that is known
here, and a straight line drawn over one fact only. A cell without its unit would be an open end, and serve for all; of
two rows for one size either might count. Nothing is guessed: such a table judges nothing, and what it is for is not
assessed by it.

What to do: look at the source again, and put the row right as the finding shows.

Source: how limit sets are written (`limits/README.md`) and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.limits import Limit, Practice, Table
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.limit_tables import Fault, find_faults

from ._records import nearest

ID = "table-not-read"


class _Entry(NamedTuple):
    """A limit or practice that has a table: what it is called, where the table stands, as written and as built."""

    id: str
    at: Place
    tree: fields.Tree
    table: Table


def check(book: Book) -> Iterator[Finding]:
    """Tell every fault of every table."""
    for entry in _tables(book):
        for fault in (*find_faults(entry.tree), *_unknown(book, entry.table)):
            yield _finding(entry, fault)


def _tables(book: Book) -> Iterator[_Entry]:
    for limit_set in book.limit_sets.values():
        sections: tuple[tuple[str, tuple[Limit | Practice, ...]], ...] = (
            ("limits", limit_set.limits),
            ("practices", limit_set.practices),
        )
        for section, entries in sections:
            trees = [tree for tree in fields.items(limit_set.tree, section) if tree]
            for entry, tree in zip(entries, trees, strict=True):
                if entry.table is not None:
                    yield _Entry(entry.id, entry.place.below("table"), fields.inner(tree, "table"), entry.table)


def _unknown(book: Book, table: Table) -> Iterator[Fault]:
    """Columns to look a row up by that are no measured fact or size known here."""
    facts = {name for name, one in book.vocabulary.facets.items() if one.dimension}
    for number, name in enumerate(table.facets):
        if name not in facts and book.vocabulary.find_quantity(name) is None:
            near = nearest(name, facts)
            step = f"Write `{near}` if that is meant." if near else "Use a fact of the vocabulary that is measured."
            yield Fault(("columns", str(number)), f"`{name}` is no size that is known here", step)


def _finding(entry: _Entry, fault: Fault) -> Finding:
    return Finding(
        ID,
        Verdict.UNREADABLE,
        Severity.DATA,
        entry.id,
        entry.at.below(*fault.at),
        f"{entry.id}, its table: {fault.told}. The table judges nothing until then.",
        source="how limit sets are written",
        next=fault.step,
        where="/".join(fault.at),
    )
