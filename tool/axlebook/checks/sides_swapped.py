"""Left and right were written in each other's place.

What is judged: both readings of an axle in one record, against what each side read before and after. Equal and
opposite jumps that vanish when the two are exchanged.

What to do: stand at the wheel, face forward, and read both sides again, left first.

Source: the other readings in this ledger; no published figure. How far off counts: `plausibility` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._slips import doubted

ID = "sides-swapped"
CAUSE = "It fits {other}, and that one fits here: most likely left and right are exchanged."
NEXT = "Read both sides again, facing forward: {named} and {other}."


def check(book: Book) -> Iterator[Finding]:
    """Tell the readings whose likeliest slip is this one."""
    yield from doubted(book, ID, CAUSE, NEXT)
