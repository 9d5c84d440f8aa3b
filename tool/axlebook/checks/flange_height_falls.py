"""A flange reads lower than before and after.

What is judged: every flange height against the earlier and later readings of the same wheel. The height is taken
from the tread: as the tread wears it rises. Only a turning lowers it, and that has a record of its own.

What to do: clean tread and flange, set the gauge square and read it again; look that its foot stands on the taping
line and not in the hollow.

Source: the other readings in this ledger; no published figure. How far off counts: `plausibility` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._slips import doubted

ID = "flange-height-falls"
CAUSE = (
    "As a tread wears its flange height rises, and no turning is on record since. Most likely the gauge stood askew, "
    "or the figure is misread."
)
NEXT = "Clean the tread, set the gauge on the taping line, and read {named} again."


def check(book: Book) -> Iterator[Finding]:
    """Tell the readings whose likeliest slip is this one."""
    yield from doubted(book, ID, CAUSE, NEXT)
