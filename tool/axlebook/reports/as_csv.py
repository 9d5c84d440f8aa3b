"""Rows as CSV (RFC 4180). The one place where a cell is kept from acting as a formula in a spreadsheet.

A cell that begins with = + - @, a tab or a line's end gets an apostrophe before it: a spreadsheet then shows it as
text. Who reads the file with a program takes the apostrophe away from such cells.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from datetime import date

Cell = str | float | int | date | bool | None
ACTS = ("=", "+", "-", "@", "\t", "\r", "\n")


def neutral(cell: str) -> str:
    """Return a cell that no spreadsheet takes for a formula.

    >>> neutral("=1+1"), neutral("15/16 in"), neutral(" @lead")
    ("'=1+1", '15/16 in', "' @lead")
    """
    return f"'{cell}" if cell.startswith(ACTS) or cell.lstrip(" \u00a0\u3000").startswith(ACTS) else cell


def as_written(cell: str) -> str:
    """A cell as it was before `neutral`.

    >>> as_written("'=1+1"), as_written("'tis"), as_written(neutral("-1/16 in"))
    ('=1+1', "'tis", '-1/16 in')
    """
    return cell[1:] if cell.startswith("'") and neutral(cell[1:]) == cell else cell


def render_csv(heads: Sequence[str], rows: Iterable[Sequence[Cell]], separator: str = ",") -> str:
    """The CSV of some rows, lines ending as RFC 4180 wants them; a number is never text, and stays as it is."""
    out = io.StringIO()
    writer = csv.writer(out, delimiter=separator, lineterminator="\r\n")
    writer.writerow(heads)
    writer.writerows([_written(cell) for cell in row] for row in rows)
    return out.getvalue()


def _written(cell: Cell) -> str:
    if isinstance(cell, str):
        return neutral(cell.replace("\0", ""))
    if isinstance(cell, bool):
        return "true" if cell else "false"
    return "" if cell is None else cell.isoformat() if isinstance(cell, date) else repr(cell)
