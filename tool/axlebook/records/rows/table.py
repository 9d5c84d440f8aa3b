"""A sheet as a whole: its heads to columns, its rows to lines, and every cell that cannot be taken, by row number."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches
from typing import NamedTuple

from axlebook.quantities import Unit, find_unit

from ..book import Book
from ..forms import parse_position
from .cells import EMPTY, Cell, Refused, plain
from .columns import HEADS, MEANT, Column, folded
from .lines import Line, Ways, read_line

TEMPLATE = "Begin with a template: axlebook export -o FILE.csv"
Row = tuple[int, Sequence[Cell]]  # its number in the spreadsheet
MARK_MISREAD = "\u00ef\u00bb\u00bf"  # the mark at the head of UTF-8, as Windows-1252 shows it


class Wrong(NamedTuple):
    """A cell, row or head that cannot be taken."""

    row: int
    column: str
    why: str
    then: str

    @property
    def at(self) -> str:
        """Where it stands, for a person."""
        return f"row {self.row}" + (f", {self.column}" if self.column else "")


class Head(NamedTuple):
    """A column of the file: what it is, and the unit that its head carries."""

    at: int
    column: Column
    unit: Unit | None


@dataclass
class Sheet:
    """What a file says: its lines, how many rows say nothing, and what is wrong."""

    lines: list[Line] = field(default_factory=list)
    blank: int = 0
    wrong: list[Wrong] = field(default_factory=list)


def read_sheet(rows: Iterable[Row], book: Book, ways: Ways) -> Sheet:
    """Read a sheet; `rows` begin with the heads."""
    sheet = Sheet()
    told = [(number, cells) for number, cells in rows if any(cell.text.strip() for cell in cells)]
    if not told:
        sheet.wrong.append(Wrong(1, "", "the file is empty.", TEMPLATE))
        return sheet
    if told[0][1][0].text.startswith(MARK_MISREAD):
        spoilt = _spoilt(told)
        if spoilt:
            why = (
                "the sheet was opened in another encoding than it was written in: signs as \u00e9 or \u00b0 are spoilt."
            )
            sheet.wrong.append(Wrong(spoilt, "", why, "Open the CSV anew and choose Unicode (UTF-8)."))
            return sheet
        (number, (mark, *others)), *rest = told
        told = [(number, (mark._replace(text=mark.text.removeprefix(MARK_MISREAD)), *others)), *rest]
    (number, first), *rest = told
    heads = _heads(number, first, rest, sheet.wrong)
    if sheet.wrong:
        return sheet
    for number, cells in rest:
        _read_row(sheet, number, {h: cells[h.at] if h.at < len(cells) else EMPTY for h in heads}, book, ways)
    return sheet


def _spoilt(rows: Sequence[Row]) -> int:
    """The first row with a sign that the wrong encoding spoilt, where the mark before the first head shows it; 0."""
    for index, (number, cells) in enumerate(rows):
        texts = [cell.text for cell in cells]
        if index == 0:
            texts[0] = texts[0].removeprefix(MARK_MISREAD)
        if not all(text.isascii() for text in texts):
            return number
    return 0


def _read_row(sheet: Sheet, number: int, cells: Mapping[Head, Cell], book: Book, ways: Ways) -> None:
    wrong: list[Wrong] = []

    def refuse(column: str, refused: Refused) -> None:
        wrong.append(Wrong(number, column, refused.why, refused.then))

    line = read_line(number, {h.column: (cell, h.unit) for h, cell in cells.items()}, book, ways, refuse)
    sheet.wrong += wrong
    if line is not None:
        sheet.lines.append(line)
    elif not wrong:
        sheet.blank += 1


def _heads(number: int, cells: Sequence[Cell], rest: Sequence[Row], wrong: list[Wrong]) -> list[Head]:
    found: dict[str, Head] = {}
    if not any(folded(cell.text.partition("(")[0]) in HEADS for cell in cells):
        wrong.append(Wrong(number, "", "the first row names no column that is known here.", TEMPLATE))
        return []
    for index, cell in enumerate(cells):
        try:
            text = plain(cell.text)
            head = _head(index, text) if text else None
            if not text:
                _without_head(index, rest)
        except Refused as refused:
            wrong.append(Wrong(number, f"column {letters(index)}", refused.why, refused.then))
            continue
        if head is None:
            continue
        if head.column.key in found:
            wrong.append(Wrong(number, f"column {letters(index)}", f"there are two columns {head.column.head!r}.",
                               "Keep one."))  # fmt: skip
        found[head.column.key] = head
    widest = max((len(row) for _, row in rest), default=0)
    for index in range(len(cells), widest):
        try:
            _without_head(index, rest)
        except Refused as refused:
            wrong.append(Wrong(number, f"column {letters(index)}", refused.why, refused.then))
    if not wrong and "what" not in found:
        wrong.append(Wrong(number, "", "there is no column 'what'.", TEMPLATE))
    return list(found.values())


def _without_head(index: int, rest: Sequence[Row]) -> None:
    filled = next((number for number, row in rest if index < len(row) and row[index].text.strip()), None)
    if filled is not None:
        raise Refused(
            f"the column has no head, and row {filled} has something in it.",
            "Name it, or empty it; a cell with a separator in it needs quotes round it.",
        )


def _head(index: int, text: str) -> Head | None:
    """A head as a column; None for one in parentheses, which is for the eye alone."""
    if text.startswith("(") and text.endswith(")"):
        return None
    name, parted, unit_text = text.partition("(")
    column = HEADS.get(folded(text)) or HEADS.get(folded(name))
    if column is None:
        near = get_close_matches(folded(name), HEADS, n=1)
        meant = MEANT.get(folded(name)) or (HEADS[near[0]].head if near else "")
        if parse_position(folded(text)) is not None or (text.isdecimal() and int(text[:9]) < 360):
            raise Refused(
                f"no column is called {text[:40]!r}.",
                f"Give each figure a row of its own: {text[:40]} in the column position, the figure in the column "
                "value.",
            )
        raise Refused(
            f"no column is called {text[:40]!r}.",
            f"Write {meant} if that is meant." if meant else "Put it in parentheses, and it is not read.",
        )
    unit = find_unit(unit_text.rstrip(") ").strip()) if parted else None
    if parted and unit is None:
        raise Refused(f"{unit_text.rstrip(')')[:20]!r} in the head is no unit.", "Write it such as value (in).")
    return Head(index, column, unit)


def letters(index: int) -> str:
    """The name of a column in a spreadsheet.

    >>> letters(0), letters(25), letters(26)
    ('A', 'Z', 'AA')
    """
    before, last = divmod(index, 26)
    return (letters(before - 1) if before else "") + chr(ord("A") + last)
