"""A part's id cannot be read.

What is judged: every reading or observation of a part that was read by its identity: the tire's or center's id, or
the wheelset's with the side or end: `t-4471`, `d-3 left`, `et-1 A`.

What to do: write the id as the part's own file is named.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "not-a-part"


def check(book: Book) -> Iterator[Finding]:
    """Tell every part that cannot be read."""
    return form_findings(book, ID, Verdict.UNREADABLE)
