"""Two people read the same place on the same day, and differ by more than their instruments allow.

What is judged: readings of one thing, quantity and position in one record by different people, against the noise of
that quantity in this book and the uncertainty in the instruments' records.

What to do: read it a third time, both people looking. Keep all three; say which one is right in a correction.

Source: the other readings in this ledger; no published figure. How far off counts: `plausibility` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._slips import doubted

ID = "second-reader-disagrees"
CAUSE = "{other} Most likely one of the two misread."
NEXT = "Read {named} {at} a third time, both looking."


def check(book: Book) -> Iterator[Finding]:
    """Tell the readings whose likeliest slip is this one."""
    yield from doubted(book, ID, CAUSE, NEXT)
