"""Tread diameter, bore and thickness do not add up.

What is judged: a tire's taped tread against its bore and twice its thickness; on a center the bore is the center's
diameter and twice the shim. What is allowed is twice the combined standard uncertainty of the readings, from their
instruments' records. The thickness counts twice, so it is named.

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
