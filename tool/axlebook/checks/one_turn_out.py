"""A reading is off by one turn of its micrometer or dial.

What is judged: every reading whose instrument's record says what one turn is, against the earlier and later readings
and the other positions. The thimble shows the same figures one turn further on: the eye reads the sleeve or the
small hand wrong. Where a later reading does not yet bear it out and it is a back-to-back, metal may as well have moved.

What to do: measure again and read the sleeve first, then the thimble; let a second person read it.

Source: the other readings in this ledger; no published figure. How far off counts: `plausibility` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._slips import doubted

ID = "one-turn-out"
CAUSE = "It is off by one turn of {instrument}: most likely the sleeve was read one line wrong."
NEXT = "Measure {named} {at} again; read the sleeve aloud before the thimble."


def check(book: Book) -> Iterator[Finding]:
    """Tell the readings whose likeliest slip is this one."""
    yield from doubted(book, ID, CAUSE, NEXT)
