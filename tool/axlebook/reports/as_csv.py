"""Rows as CSV (RFC 4180). The one place where a cell is kept from acting as a formula in a spreadsheet.

A cell that begins with = + - @, a tab or a line's end gets an apostrophe before it: a spreadsheet then shows it as
text. Who reads the file with a program takes the apostrophe away from such cells.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

ACTS = ("=", "+", "-", "@", "\t", "\r", "\n")


def neutral(cell: str) -> str:
    """Return a cell that no spreadsheet takes for a formula.

    >>> neutral("=1+1"), neutral("15/16 in"), neutral(" @lead")
    ("'=1+1", '15/16 in', "' @lead")
    """
    return f"'{cell}" if cell.startswith(ACTS) or cell.lstrip(" \u00a0\u3000").startswith(ACTS) else cell


def render_csv(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """The CSV of some rows, lines ending as RFC 4180 wants them."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(heads)
    writer.writerows([neutral(cell.replace("\0", "")) for cell in row] for row in rows)
    return out.getvalue()
