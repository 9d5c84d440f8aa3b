"""A flange reads thicker by more than the wear of the tread explains.

What is judged: every flange thickness against the earlier and later readings of the same wheel. The gauge reads at a
height above the TREAD: when only the tread wears, the reading rises by wear / tan(flange angle). The wear is taken
from the tire's thickness, the angle from `plausibility: {flange_angle: ..}` in ledger.yaml (60 deg where it says
nothing, flatter than flanges are, so that more is allowed). What is above that, metal cannot do.

What to do: read the flange again at the same place with the same gauge, then the opposite one.

Source: the other readings in this ledger; no published figure. How far off counts: `plausibility` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._slips import doubted

ID = "flange-thickness-rises"
CAUSE = (
    "That is more than the wear of the tread can make it read, and no turning is on record since. Most likely a "
    "misread figure."
)
NEXT = "Read the flange of {named} again with the same gauge, then the opposite one."


def check(book: Book) -> Iterator[Finding]:
    """Tell the readings whose likeliest slip is this one."""
    yield from doubted(book, ID, CAUSE, NEXT)
