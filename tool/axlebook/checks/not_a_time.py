"""A time of day cannot be read.

What is judged: times in the heat log and in the seating of a tire, as hours and minutes of 24 hours.

What to do: write it in quotes, such as `"09:05"` or `"15:30"`: without quotes other programs read a number.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "not-a-time"


def check(book: Book) -> Iterator[Finding]:
    """Tell every time of day that cannot be read."""
    return form_findings(book, ID, Verdict.UNREADABLE)
