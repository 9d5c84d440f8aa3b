"""Of the annual summary: every quantity of every wheel as it was last read, a table a quantity."""

from __future__ import annotations

from collections import defaultdict

from axlebook.findings import VERDICT_ORDER, Verdict
from axlebook.records.book import Book

from .annual_parts import Cells, Listed, Part, people
from .condition_view import EngineCondition, Row
from .item import Item
from .text import sentence
from .view import Cause

HEAD = ("Where", "Reading", "Outside when", "Margin", "Verdict", "Trend", "Read")


def quantities_part(book: Book, condition: EngineCondition) -> Part:
    """A table a quantity, what is out first in each."""
    found: dict[str, list[Row]] = defaultdict(list)
    for axle in condition.axles:
        for row in axle.rows:
            found[row.finding.quantity].append(row)
    names = [*book.vocabulary.any_quantities, *book.vocabulary.observations]
    tables = tuple(_table(book, name, found[name]) for name in names if name in found)
    told = (Item("The latest reading on the part now fitted, by the tightest limit in force on the day. The margin is "
                 "to that limit; a negative one is past it."),)  # fmt: skip
    return Part("readings", "Every wheel, every quantity", told if tables else (), tables,
                nothing="Nothing was read on the wheels that stand on it.", own_page=True)  # fmt: skip


def _table(book: Book, name: str, rows: list[Row]) -> Listed:
    word = book.vocabulary.find_word(name)
    with_trend = any(row.trend for row in rows)
    head = HEAD if with_trend else tuple(title for title in HEAD if title != "Trend")
    ordered = sorted(rows, key=lambda row: VERDICT_ORDER[row.verdict])
    told = [(row_cells(row, row.trend if with_trend else None), row.verdict) for row in ordered]
    return Listed(_capital(word.title if word else name), head, _together(told))


def _together(rows: list[tuple[Cells, Verdict]]) -> tuple[tuple[Cells, Verdict], ...]:
    """Rows of which all but the place is the same, as one row that names all their places."""
    places: dict[tuple[Cells, Verdict], list[str]] = defaultdict(list)
    for cells, verdict in rows:
        places[cells[1:], verdict].append(cells[0])
    return tuple((("; ".join(where), *cells), verdict) for (cells, verdict), where in places.items())


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def row_cells(row: Row, trend: str | None) -> Cells:
    """The cells of a row; without a trend where None is given, and then the column is left out."""
    at = f", {row.position}" if row.position else ""
    part = f" ({row.part})" if row.part and row.part not in row.place else ""
    used = f" with {', '.join(row.instruments)}" if row.instruments else ""
    cells = [
        f"{row.place or 'engine'}{part}{at}",
        row.reading,
        f"{row.out}; {row.clause}" if row.limit else "no limit judges it",
        row.margin,
        str(row.verdict) + (f": {row.finding.cause}" if row.finding.cause else ""),
        f"{row.read_on} by {people(row.by)}{used}",
    ]
    if trend is not None:
        cells.insert(5, trend)
    return tuple(cells)


def not_judged_part(condition: EngineCondition, causes: list[Cause]) -> Part:
    """What was not measured at the last inspection, and all that no limit judged, by cause."""
    left_out = Listed(
        f"Not measured at the last inspection ({condition.last_session})", ("What", "Where", "Why"),
        tuple(((item.what, item.where or "everywhere", item.because), None) for item in condition.not_measured),
    )  # fmt: skip
    by_cause = Listed(
        "Not judged, by cause", ("Cause", "How many", "What to do"),
        tuple(((sentence(one.cause), str(len(one.findings)), sentence(one.next)), None) for one in causes),
    )  # fmt: skip
    unread = tuple(
        Item(f"{axle.name}: nothing on it was ever read.") for axle in condition.axles if axle.at and not axle.rows
    )
    tables = tuple(table for table in (left_out, by_cause) if table.rows)
    return Part("not-judged", "Not measured, not judged", unread, tables,
                nothing="Nothing was left out on record, and every reading is judged by a limit.")  # fmt: skip
