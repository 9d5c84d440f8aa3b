"""Two digits of a reading stand in each other's place.

What is judged: every reading that does not fit its neighbors, with each two adjoining digits exchanged. When one such
exchange puts it where it was expected, that is the likeliest slip; the error divides by 9 in units of its last place.

What to do: look at the paper sheet. If it is not kept, measure again; say each figure digit by digit.

Source: the other readings in this ledger; no published figure. How far off counts: `plausibility` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._slips import doubted

ID = "digits-transposed"
CAUSE = "With two digits exchanged it reads {meant}, which fits."
NEXT = "Look at the sheet for {meant}; if it is not kept, measure {named} {at} again."


def check(book: Book) -> Iterator[Finding]:
    """Tell the readings whose likeliest slip is this one."""
    yield from doubted(book, ID, CAUSE, NEXT)
