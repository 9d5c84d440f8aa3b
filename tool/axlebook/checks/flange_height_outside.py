"""A flange is lower or higher than a limit on file.

What is judged: the latest flange height of every wheel, from the tread to the top of the flange. A flange grows
higher only because the tread wears under it; one that reads lower than before was misread.

What to do: set the gauge on the tread again, away from hollow and rolled edge. If it stands too high, the flange
will strike bolts and frogs: the tread has to be turned, and the flange with it.

Source: the limit named in the finding. For the United States 49 CFR 230.113(i).
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged

ID = "flange-height-outside"
QUANTITIES = ("flange_height",)
NEXT = "Re-measure with the gauge square on the tread."


def check(book: Book) -> Iterator[Finding]:
    """Judge the flange height of every wheel."""
    return judged(book, ID, QUANTITIES, NEXT)
