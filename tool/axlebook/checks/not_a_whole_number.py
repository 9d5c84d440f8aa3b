"""A count is not written as a whole number.

What is judged: counts, such as spokes, pieces of a shim, service days of an old year.

What to do: write digits alone, such as 14. What is about or nearly belongs in `note`.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "not-a-whole-number"


def check(book: Book) -> Iterator[Finding]:
    """Tell every count that is no whole number."""
    return form_findings(book, ID, Verdict.UNREADABLE)
