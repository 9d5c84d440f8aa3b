"""A figure in millimetres bears the unit of inches, or the other way round.

What is judged: every reading that does not fit its neighbors, 25.4 times larger and smaller. It is the slip of a table
in which both units are used.

What to do: look at the sheet and at the instrument: which unit does it show? Write the value with that unit.

Source: the other readings in this ledger; no published figure. How far off counts: `plausibility` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._slips import doubted

ID = "mm-for-inches"
CAUSE = "Taken as {meant} the same figure fits: most likely the unit is the wrong one."
NEXT = "Look which unit {instrument} shows, and read {named} {at} again."


def check(book: Book) -> Iterator[Finding]:
    """Tell the readings whose likeliest slip is this one."""
    yield from doubted(book, ID, CAUSE, NEXT)
