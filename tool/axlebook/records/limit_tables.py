"""What keeps a table of a limit set from being read, or from being read in one way only."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from axlebook.quantities import NotAMeasure, Quantity, parse_measure

from . import fields

OPEN_END = "above"
STRAIGHT_LINE = "straight line"


class Fault(NamedTuple):
    """One fault: the steps to it below the table, what is told of it, and what to do."""

    at: tuple[str, ...]
    told: str
    step: str


def find_faults(tree: fields.Tree) -> list[Fault]:
    """All that is wrong with a table as it is written."""
    return [*_columns(tree), *_cells(tree), *_given_twice(tree)] if tree else []


def _columns(tree: fields.Tree) -> Iterator[Fault]:
    """A line is drawn over one fact; a table of figures alone has nothing to look its rows up by."""
    facts = len(fields.texts(tree, "columns")) - 1
    straight = fields.text(tree, "between_rows") == STRAIGHT_LINE
    if facts < 1 or (straight and facts > 1):
        asked = "one column to look up and one with the figure" if straight else "a column to look up and the figure"
        yield Fault(("columns",), f"it has {_many(facts + 1, 'column')}", f"Write {asked}.")


def _cells(tree: fields.Tree) -> Iterator[Fault]:
    """Rows of another width, and cells that are no measure, or one of another kind than those above them."""
    wide = len(fields.texts(tree, "columns"))
    kinds: dict[int, tuple[str, str]] = {}  # by column, the first cell with its kind
    for number, row in enumerate(fields.items(tree, "rows")):
        at = ("rows", str(number))
        if len(row) != wide:
            told = f"row {number + 1} has {_many(len(row), 'cell')} under {_many(wide, 'column')}"
            yield Fault(at, told, "Write a cell for each column.")
            continue
        for column, cell in enumerate(row):
            if cell == OPEN_END:
                continue
            kind = _kind(cell)
            if not kind:
                step = f"Write it with its unit, or `{OPEN_END}` for an open end."
                yield Fault((*at, str(column)), f"`{cell}` in row {number + 1} is no measure", step)
                continue
            first, same = kinds.setdefault(column, (cell, kind))
            if kind != same:
                told = f"`{cell}` in row {number + 1} is no {same}, as {first} above it is"
                yield Fault((*at, str(column)), told, "Write measures of one kind in a column.")


def _kind(cell: str) -> str:
    found = _size(cell)
    return found.dimension.replace("_", " ") if found else ""


def _given_twice(tree: fields.Tree) -> Iterator[Fault]:
    """Two rows for the same: which of them counts nothing tells."""
    first: dict[tuple[object, ...], int] = {}
    for number, row in enumerate(fields.items(tree, "rows")):
        key = tuple(_exact(cell) for cell in row[:-1])
        before = first.setdefault(key, number)
        if before != number:
            told = f"rows {before + 1} and {number + 1} are both for {', '.join(row[:-1])}"
            yield Fault(("rows", str(number)), told, "Keep the one that the source has.")


def _exact(cell: str) -> object:
    found = _size(cell)
    return (found.dimension, found.exact) if found else cell


def _size(cell: str) -> Quantity | None:
    try:
        found = parse_measure(cell)
    except NotAMeasure:
        return None
    return found if isinstance(found, Quantity) else None


def _many(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"


__all__ = ["OPEN_END", "Fault", "find_faults"]
