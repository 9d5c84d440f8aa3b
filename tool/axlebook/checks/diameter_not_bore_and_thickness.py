"""Tread diameter, bore and thickness do not add up.

What is judged: the taped tread of a tire off its center, as received or before it goes on, against the last bore and
twice the last thickness that were read while it lay loose. On its center a tire is not judged by this: the grip changes
its size. What is allowed is 2.2 times the combined standard uncertainty of the readings, from their instruments'
records; where one has none, nothing is judged. The thickness counts twice, so it is named.

Whatever the instruments: a tread that is not larger than the center under it, a bore that is not smaller than the tread
round it, and a tire far thicker than the tread leaves room for, read with that tread or after it.

What to do: measure the thickness again at all its places, then tape the tread.

Source: the other readings in this ledger; no published figure. How far off counts: `plausibility` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._slips import doubted
from ._too_large import larger

ID = "diameter-not-bore-and-thickness"
CAUSE = "{other} Most likely the thickness is misread."
NEXT = "Measure the thickness of {named} again at every place; then tape the tread."

NO_ROOM = "Measure {named} again, and the other of the two; most likely one is misread, or is another part's."


def check(book: Book) -> Iterator[Finding]:
    """Tell the readings whose likeliest slip is this one."""
    yield from doubted(book, ID, CAUSE, NEXT)
    yield from larger(book, ID, NO_ROOM)
