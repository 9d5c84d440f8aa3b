"""What a column and a table are, and how a written measure becomes a text, a number and a unit side by side."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from axlebook.findings import Finding
from axlebook.quantities import Interval, NotAMeasure, parse_measure
from axlebook.records.book import Book
from axlebook.records.dates import Day
from axlebook.records.dates import parse_day as read_day

Value = str | float | int | date | bool | None
Row = dict[str, Value]
SI = {
    "length": "m", "mass": "kg", "force": "N", "pressure": "Pa", "temperature": "K", "temperature_difference": "K",
    "speed": "m/s", "time": "s", "power": "W", "angle": "deg", "expansion": "1/K", "ratio": "1", "hardness": "HB",
}  # fmt: skip


class Column(NamedTuple):
    """A column: its name, what sort of value it holds, and what it tells."""

    name: str
    sort: str  # text, number, whole, day, yes
    meaning: str


@dataclass(frozen=True)
class Source:
    """What the tables are made of."""

    book: Book
    findings: tuple[Finding, ...]  # what is within among them

    @property
    def ledger(self) -> str:
        """The name that tells this ledger from others: its railway."""
        return self.book.ledger.railway


@dataclass(frozen=True)
class Table:
    """A table: its name, what a row of it is, its columns, and how its rows are made."""

    name: str
    row_is: str
    columns: tuple[Column, ...]
    make: Callable[[Source], Iterator[Row]]

    def rows(self, source: Source) -> Iterator[Row]:
        """The rows, in the order of the records, each with the ledger it is of."""
        for row in self.make(source):
            yield {"ledger": source.ledger, **row}


LEDGER = Column("ledger", "text", "The railway whose book this is, as its ledger.yaml names it; the same in every row.")
RECORD = Column("record", "text", "Id of the record; unique in a ledger.")
PATH = Column("path", "text", "The record's file in the ledger.")


def days(name: str, meaning: str) -> tuple[Column, ...]:
    """The columns of a date that may be known in part."""
    return (
        Column(name, "text", f"{meaning}, as written: a day, a month, a year, or unknown."),
        Column(f"{name}_first", "day", "The first day that it can be; empty where unknown."),
        Column(f"{name}_last", "day", "The last day that it can be."),
    )


def day_cells(name: str, day: Day) -> Row:
    """The cells of such a date."""
    return {name: day.text, f"{name}_first": day.first, f"{name}_last": day.last}


def written_day(tree: Mapping[str, object], key: str, name: str) -> Row:
    """The same from a key of a record; all empty where it is not told."""
    told = tree.get(key)
    return day_cells(name, read_day(told)) if isinstance(told, str) else day_cells(name, Day("", None, None))


def figures(name: str, meaning: str) -> tuple[Column, ...]:
    """The columns of a measure: as written, and its bounds in SI base units."""
    return (
        Column(f"{name}_text", "text", f"{meaning}, exactly as written."),
        Column(f"{name}_low", "number", "Its lower bound in the SI unit; the value itself where it is one figure."),
        Column(f"{name}_high", "number", "Its upper bound; equal to the lower where it is one figure."),
        Column(f"{name}_si_unit", "text", "The SI unit of the two: m, K, deg; of counts, what is counted."),
    )


def figure_cells(name: str, text: str) -> Row:
    """The cells of a measure; a text that is none keeps its text alone.

    >>> figure_cells("value", "under 0.0015 in")["value_low"], figure_cells("value", "1 in")["value_high"]
    (None, 0.0254)
    """
    cells: Row = {f"{name}_text": text, f"{name}_low": None, f"{name}_high": None, f"{name}_si_unit": ""}
    try:
        measure = parse_measure(text)
    except NotAMeasure:
        return cells
    low, high = (
        (measure.low_exact, measure.high_exact) if isinstance(measure, Interval) else (measure.exact, measure.exact)
    )
    return cells | {
        f"{name}_low": None if low is None else float(low),
        f"{name}_high": None if high is None else float(high),
        f"{name}_si_unit": SI.get(measure.dimension, measure.unit),
    }


def texts(value: object) -> str:
    """A text, or a list of texts with a space between; '' for anything else."""
    if isinstance(value, list):
        return " ".join(item for item in value if isinstance(item, str))
    return value if isinstance(value, str) else ""
