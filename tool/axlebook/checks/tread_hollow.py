"""A tread is worn hollow by more than a limit on file.

What is judged: the latest depth of the hollow of every wheel, below a line across the tread.

What to do: measure again with the straightedge on sound tread on both sides. If it stands, the wheel has to be turned:
a hollow tread steers the engine wrong and wears the flange of the opposite wheel.

Source: the limit named in the finding. For the United States 49 CFR 230.113(h).
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged

ID = "tread-hollow"
QUANTITIES = ("tread_hollow",)
NEXT = "Re-measure with the straightedge on sound tread on both sides."


def check(book: Book) -> Iterator[Finding]:
    """Judge the hollow of every tread."""
    return judged(book, ID, QUANTITIES, NEXT)
