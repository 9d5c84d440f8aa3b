"""A wheelset moves sideways between hubs and boxes by more than a limit on file.

What is judged: the latest total lateral of every wheelset, from hub to box on both sides together, by its role and,
for engine trucks, by how the truck is centered.

What to do: bar the wheelset hard over to each side and read again. If it stands, new hub liners are due; tell the
shop which side is worn, for that moves the wheelset off the middle too.

Source: the limit named in the finding. For the United States 49 CFR 230.105.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged

ID = "lateral-excessive"
QUANTITIES = ("lateral",)
NEXT = "Bar the wheelset hard over to both sides and read again."


def check(book: Book) -> Iterator[Finding]:
    """Judge the total lateral of every wheelset."""
    return judged(book, ID, QUANTITIES, NEXT)
