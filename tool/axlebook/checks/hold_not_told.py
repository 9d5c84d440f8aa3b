"""A back-to-back does not say how the wheelset was held.

What is judged: every reading between the wheels, in every record. Load alone moves a back-to-back by 1/32 to 1/16 in:
in the lathe, on blocks, loose on the rail and under the engine are four different figures, and only readings of one
hold tell whether something moved.

What to do: add `hold:` to the reading, or to `setup` where it holds for the whole record. If nobody remembers, leave it
out and measure again in a known hold.

Source: the rules of the ledger; common practice of the trade.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._records import every_reading, not_told

ID = "hold-not-told"
HELD = frozenset({"back_to_back", "over_flanges_measured"})
CAUSE = "how the wheelset was held is not written"


def check(book: Book) -> Iterator[Finding]:
    """Tell every record with readings between the wheels in no named hold."""
    lacking = (r for r in every_reading(book) if not r.hold and r.quantity in HELD)
    return not_told(book, ID, lacking, CAUSE, "Add `hold:`, such as under the engine or in the lathe.")
