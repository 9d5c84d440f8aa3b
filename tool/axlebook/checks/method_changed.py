"""The figures step where another instrument, plane or hold was used.

What is judged: a reading taken with another instrument than its neighbors, where the step is more than the two
certificates together leave open; and a back-to-back read once in another hold amid readings in one hold. Load alone
moves a back-to-back, so that one is a note: it asks for a reading like the others, and is left out of the trend.

What to do: read it again the way its neighbors were read. If the new way is to stay, read once both ways on one day,
so that the step is known.

Source: the other readings in this ledger and the certificates of the instruments.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._slips import doubted

ID = "method-changed"
CAUSE = "It was taken another way than those beside it{way}: most likely the step comes from that."
NEXT = "Read {named} again the way the others were read, and once both ways on one day."


def check(book: Book) -> Iterator[Finding]:
    """Tell the steps that come with another way of measuring."""
    yield from doubted(book, ID, CAUSE, NEXT)
