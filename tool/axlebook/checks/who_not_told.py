"""A record does not say who measured.

What is judged: every reading of every record. Who measured is written once for the record, or with the reading where
it was another. A reading that nobody stands for is kept and judged, but nobody can be asked about it.

What to do: add `by:` with the ids of those who measured. For an old card, typed in later, this is only a note: write
`transcribed:` with where it came from, and the name if it can still be found.

Source: the rules of the ledger: who, when, with what, at what temperature.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._records import every_reading, not_told

ID = "who-not-told"
CAUSE = "the record does not say who measured"
NEXT = "Add `by:` with the ids of those who measured."


def check(book: Book) -> Iterator[Finding]:
    """Tell every record with readings that name nobody."""
    lacking = (reading for reading in every_reading(book) if not reading.by)
    return not_told(book, ID, lacking, CAUSE, NEXT, once=lambda session: session.place)
