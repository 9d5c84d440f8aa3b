"""One value does not fit the others of the same reading.

What is judged: readings of several positions that have no earlier or later fellow, such as a bore at receiving: each
value against the others taken in the same minute with the same instrument.

What to do: measure that position again.

Source: the other readings in this ledger; no published figure. How far off counts: `plausibility` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._slips import doubted

ID = "unlike-its-neighbors"
CAUSE = "The other positions of the same reading do not bear it out. Most likely a misread figure."
NEXT = "Measure {named} {at} again."


def check(book: Book) -> Iterator[Finding]:
    """Tell the readings whose likeliest slip is this one."""
    yield from doubted(book, ID, CAUSE, NEXT)
