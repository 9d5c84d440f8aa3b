"""A place on an engine cannot be read.

What is judged: every place. A wheel is named by role, number and side: `driver-2 right`, `engine-truck-1 left`; a
whole wheelset without the side: `tender-3`; other places by plain words: `crosshead left`, `engine`. Left and right
are seen from the cab, facing forward.

What to do: write the place as shown. R2 on a sheet is `driver-2 right`.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "not-a-place"


def check(book: Book) -> Iterator[Finding]:
    """Tell every place that cannot be read."""
    return form_findings(book, ID, Verdict.UNREADABLE)
