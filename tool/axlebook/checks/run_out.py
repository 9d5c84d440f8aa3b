"""A tread, a flange back or an axle runs out by more than a limit on file.

What is judged: the latest run-out of each, as read with an indicator over one turn. No published limit was found; the
railway adopts its own.

What to do: turn the wheelset again with the indicator on clean metal, and mark the high point: one that stays at the
same mark is the wheel's, one that wanders is the setup's.

Source: the limit named in the finding, as adopted by the railway.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged

ID = "run-out"
QUANTITIES = ("tread_run_out", "flange_back_run_out", "axle_run_out")
NEXT = "Turn it again with the indicator on clean metal; mark the high point."


def check(book: Book) -> Iterator[Finding]:
    """Judge the run-out of every wheel and axle."""
    return judged(book, ID, QUANTITIES, NEXT)
