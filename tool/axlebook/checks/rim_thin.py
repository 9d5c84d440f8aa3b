"""The rim of a one-piece wheel is thinner than a limit on file.

What is judged: the latest rim thickness of every wheel, by the limits in force for its make and plate. The rim of a
center under a tire is another matter and is not this.

What to do: re-measure at the thinnest place. If it stands, the wheel is done: it cannot be built up (welding on
wheels is prohibited under most rules).

Source: the limit named in the finding. For the United States 49 CFR 230.113(j).
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged

ID = "rim-thin"
QUANTITIES = ("rim_thickness",)
NEXT = "Re-measure at the thinnest place; then a second person."


def check(book: Book) -> Iterator[Finding]:
    """Judge the rim of every one-piece wheel."""
    return judged(book, ID, QUANTITIES, NEXT)
