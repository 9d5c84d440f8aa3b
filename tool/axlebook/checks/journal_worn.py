"""A journal has worn below its original diameter by as much as a limit on file.

What is judged: the original journal diameter, as stamped on the axle end, less the latest reading of each journal.
Main drivers, other drivers and trucks have limits of their own, and one for larger journals may ask how large the
original was. Without the original diameter on record it is not assessed.

What to do: read the journal again at its smallest place, square across, at two positions; then read the stamp again.
If it stands, the axle is outside: it is not restored by a thicker bearing.

Source: the limit named in the finding. For the United States 49 CFR 230.98(a)(6) and (7).
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged

ID = "journal-worn"
QUANTITIES = ("journal_wear",)
NEXT = "Re-measure the journal at its smallest place; read the stamp again."


def check(book: Book) -> Iterator[Finding]:
    """Judge the wear of every journal."""
    return judged(book, ID, QUANTITIES, NEXT)
