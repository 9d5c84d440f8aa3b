"""A value was left blank.

What is judged: every value. A blank is never read as good, as zero or as unchanged.

What to do: write the value, or take the line away. What could not be measured goes under `not_measured` with the
reason.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "blank-value"


def check(book: Book) -> Iterator[Finding]:
    """Tell every value that was left blank."""
    return form_findings(book, ID, Verdict.UNREADABLE)
