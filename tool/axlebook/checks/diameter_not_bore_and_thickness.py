"""Tread diameter, bore and thickness do not add up.

What is judged: the taped tread of a tire off its center, as received or before it goes on, against the last bore and
twice the last thickness that were read while it lay loose. On its center a tire is not judged by this: the grip changes
its size. What is allowed is 2.2 times the combined standard uncertainty of the readings, from their instruments'
records; where one has none, nothing is judged. The thickness counts twice, so it is named.

What to do: measure the thickness again at all its places, then tape the tread.

Source: the other readings in this ledger; no published figure. How far off counts: `plausibility` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._slips import doubted

ID = "diameter-not-bore-and-thickness"
CAUSE = "{other} Most likely the thickness is misread."
NEXT = "Measure the thickness of {named} again at every place; then tape the tread."


def check(book: Book) -> Iterator[Finding]:
    """Tell the readings whose likeliest slip is this one."""
    yield from doubted(book, ID, CAUSE, NEXT)
