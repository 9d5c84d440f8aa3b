"""A text is not written in the form that is asked for.

What is judged: texts of a set form, such as the SHA-256 of an attachment, or month and day of a yearly date.

What to do: write it as the finding shows.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "wrong-form"


def check(book: Book) -> Iterator[Finding]:
    """Tell every text that is not in its form."""
    return form_findings(book, ID, Verdict.UNREADABLE)
