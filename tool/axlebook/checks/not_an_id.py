"""An id is not written as an id.

What is judged: every id that a record names. It is the name of a file without its ending: lower-case letters, digits
and hyphens, starting with a letter or a date, at most 60.

What to do: write the name of the file that is meant. T 4471 stamped on a tire is its mark; its id is t-4471.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "not-an-id"


def check(book: Book) -> Iterator[Finding]:
    """Tell every id that is not written as one."""
    return form_findings(book, ID, Verdict.UNREADABLE)
