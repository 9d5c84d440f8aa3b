"""A list, a group or a single value stands where another of the three is asked for.

What is judged: the shape of every value. Often a dash or an indentation is missing, or a list was written on one line.

What to do: write it as the finding shows; `axlebook new KIND ID` writes a sample of the kind to compare with.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "wrong-shape"


def check(book: Book) -> Iterator[Finding]:
    """Tell every value of the wrong shape."""
    return form_findings(book, ID, Verdict.UNREADABLE)
