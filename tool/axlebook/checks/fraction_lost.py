"""A part of a fraction was lost or misread.

What is judged: every reading that does not fit its neighbors, and its fraction: whole inches lost (1/2 for 1 1/2),
the space after them (17/64 for 1 7/64), the fraction lost (1 for 1 13/64), another denominator (3/4 for 3/8), a digit
short in the numerator (1/16 for 11/16).

What to do: look at the paper sheet; if it is not kept, measure again, and write the fraction with a space: 1 1/2 in.

Source: the other readings in this ledger; no published figure. How far off counts: `plausibility` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._slips import doubted

ID = "fraction-lost"
CAUSE = "Most likely part of the fraction was lost or misread{meant_words}."
NEXT = "Look at the sheet; if it is not kept, measure {named} {at} again."


def check(book: Book) -> Iterator[Finding]:
    """Tell the readings whose likeliest slip is this one."""
    yield from doubted(book, ID, CAUSE, NEXT)
