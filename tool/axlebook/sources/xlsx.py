"""A workbook (.xlsx) to rows of cells, through openpyxl; looked at from outside before anything in it is opened."""

from __future__ import annotations

import io
import re
import zipfile
import zlib
from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from fractions import Fraction
from typing import Any

from axlebook.records.rows.cells import EMPTY, Cell
from axlebook.sources.csv_text import MOST_COLUMNS, MOST_ROWS, Grid, NotRead

SIGNATURE = b"PK\x03\x04"
OLD_SIGNATURE = b"\xd0\xcf\x11\xe0"  # .xls
MOST_UNPACKED = 50_000_000
MOST_MEMBERS = 500
_PLAIN_FORMAT = re.compile(r'(?:General|Standard|@|[#0,]*0(?P<decimals>\.[0#]+)?)(?P<unit>\\? ?"[^"]{1,12}")?')
_FRACTION_FORMAT = re.compile(r"(?:[#0]*\\? ?)?\?+/(?:\?+|[0-9]{1,2})")


def read_xlsx(content: bytes, sheet: str = "") -> Grid:
    """Read one sheet of a workbook.

    Raises
    ------
    NotRead
        It is no workbook, unpacks to more than a sheet of readings can be, or has several sheets and none is named.
    """
    _look_from_outside(content)
    from openpyxl import load_workbook

    try:
        book = load_workbook(io.BytesIO(content), read_only=True, data_only=False, keep_links=False)
        return _grid(book, sheet)
    except NotRead:
        raise
    except Exception as fault:  # openpyxl has no error of its own for a workbook that is broken inside
        raise NotRead(f"it cannot be read as a workbook ({type(fault).__name__}). Save it anew, or as CSV.") from None


def _look_from_outside(content: bytes) -> None:
    """Refuse, by its sizes and its first bytes, what would fill the memory when it is opened."""
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            members = archive.infolist()
            if len(members) > MOST_MEMBERS or sum(member.file_size for member in members) > MOST_UNPACKED:
                raise NotRead("it unpacks to far more than a sheet of readings can be.")
            if "xl/workbook.xml" not in archive.namelist():
                raise NotRead("it is a zip file, and no workbook (.xlsx). Save it as .xlsx or as CSV.")
            for member in members:
                if member.filename.endswith((".xml", ".rels")):
                    _refuse_declarations(archive.read(member))
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, RuntimeError, ValueError):
        raise NotRead("it is broken, or locked with a password. Save it anew, or as CSV.") from None


def _refuse_declarations(xml: bytes) -> None:
    """No spreadsheet declares entities; a few of them can stand for gigabytes."""
    if b"<!DOCTYPE" in xml or b"<!ENTITY" in xml or xml.startswith((b"\xff\xfe", b"\xfe\xff", b"<\0", b"\0<")):
        raise NotRead("it declares things that no spreadsheet writes.")


def _grid(book: Any, wanted: str) -> Grid:
    names = [sheet.title for sheet in book.worksheets]
    if wanted and wanted not in names:
        raise NotRead(f"it has no sheet {wanted[:40]!r}. There are: {', '.join(map(repr, names))[:200]}.")
    filled = {}
    for sheet in book.worksheets:
        if wanted in ("", sheet.title):
            rows = list(_rows(sheet))
            if rows or wanted:
                filled[sheet.title] = rows
    if len(filled) > 1:
        raise NotRead(f"it has several sheets; name one with --sheet: {', '.join(map(repr, filled))[:200]}.")
    title, rows = next(iter(filled.items()), ("", []))
    return Grid(rows, f"workbook, sheet {title!r}" if title else "workbook, empty")


def _rows(sheet: Any) -> Iterator[tuple[int, list[Cell]]]:
    sheet.reset_dimensions()  # what a sheet says of its own size need not be so
    cells = sheet.iter_rows(max_row=MOST_ROWS + 1, max_col=MOST_COLUMNS + 1)
    for number, row in enumerate(cells, 1):
        found = [_cell(cell) for cell in row]
        while found and not found[-1].text.strip():
            found.pop()
        if found and number > MOST_ROWS:
            raise NotRead(f"it has more than {MOST_ROWS} rows. Part it.")
        if len(found) > MOST_COLUMNS:
            raise NotRead(f"row {number} has more than {MOST_COLUMNS} columns.")
        if found:
            yield number, found


def _cell(cell: Any) -> Cell:
    value = cell.value
    if value is None:
        return EMPTY
    if cell.data_type == "f" or (isinstance(value, str) and cell.data_type != "s" and value.startswith("=")):
        return Cell("the cell holds a formula.", "wrong")
    if cell.data_type == "e":
        return Cell(f"the cell holds the spreadsheet's error {str(value)[:20]}.", "wrong")
    if isinstance(value, str):
        return Cell(value)
    if isinstance(value, bool):
        return Cell("yes" if value else "no")
    if isinstance(value, datetime | date):
        return _day(value, str(cell.number_format))
    if isinstance(value, time | timedelta):
        return Cell(f"the cell holds a time of day ({value}).", "wrong")
    return _number(value, str(cell.number_format))


def _day(value: datetime | date, shape: str) -> Cell:
    """A day; a month where the cell shows no day."""
    shown = re.sub(r'\[[^]]*]|"[^"]*"|\\.', "", shape).lower()
    if "d" not in shown and "t" not in shown and "y" in shown:
        return Cell(f"{value:%Y-%m}", "month")
    return Cell(f"{value:%Y-%m-%d}", "day")


def _number(value: float, shape: str) -> Cell:
    """A number as the cell shows it: decimals that were asked for stay, a fraction stays one where it is exact."""
    text = format(value, ".15g")
    if "e" in text or "n" in text:
        return Cell(f"the cell holds the number {text}.", "wrong")
    if _FRACTION_FORMAT.fullmatch(shape.replace("_", "").strip()):
        return Cell(_fraction(Fraction(text)) or text, "number")
    match = _PLAIN_FORMAT.fullmatch(shape)
    if match is None:
        return Cell(f"the cell shows the number {text} in a form of its own ({shape[:20]}).", "wrong")
    asked = (match["decimals"] or ".")[1:]
    exact = Decimal(text)
    if asked and set(asked) == {"0"} and exact == round(exact, len(asked)):
        text = f"{exact:.{len(asked)}f}"
    unit = (match["unit"] or "").strip('\\" ')
    return Cell(f"{text} {unit}" if unit else text, "number")


def _fraction(exact: Fraction) -> str:
    """A number as whole and fraction on a rule's grid; '' where it lies off it."""
    if (exact * 64).denominator != 1 or exact < 0:
        return ""
    whole, part = divmod(exact, 1)
    amount = [str(whole)] if whole or not part else []
    return " ".join([*amount, *([f"{part.numerator}/{part.denominator}"] if part else [])])
