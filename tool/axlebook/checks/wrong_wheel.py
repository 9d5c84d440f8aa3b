"""The figure fits another wheel of the same record.

What is judged: every reading that does not fit its own wheel's earlier and later ones, against what every other wheel
of the record was expected to read. Also two wheels whose figures stand in each other's place.

What to do: look at the place stamped or chalked on the wheel, and measure both again.

Source: the other readings in this ledger; no published figure. How far off counts: `plausibility` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._slips import doubted

ID = "wrong-wheel"
CAUSE = "It fits {other} much better: most likely the figure belongs there."
NEXT = "Measure {named} again {at}, then {other}."


def check(book: Book) -> Iterator[Finding]:
    """Tell the readings whose likeliest slip is this one."""
    yield from doubted(book, ID, CAUSE, NEXT)
