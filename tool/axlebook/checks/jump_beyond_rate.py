"""A reading jumps by more than its known rate of wear allows.

What is judged: every reading against the earlier and later ones of the same place. What is allowed is the known rate
of wear (the middle of all slopes within segments) over the time between, and the noise that this quantity and
instrument have shown in this book, times the factor of `plausibility` in ledger.yaml.

What to do: measure the same place again, with the same instrument, by a second person. If it stands, look for what wore
or broke.

Source: the other readings in this ledger; no published figure. How far off counts: `plausibility` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._slips import doubted

ID = "jump-beyond-rate"
CAUSE = "That is more than the known rate of wear allows. Most likely a misread figure."
NEXT = "Measure {named} {at} again with the same instrument; if it stands, look for what wore so fast."


def check(book: Book) -> Iterator[Finding]:
    """Tell the readings whose likeliest slip is this one."""
    yield from doubted(book, ID, CAUSE, NEXT)
