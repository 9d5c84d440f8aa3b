"""A date cannot be read.

What is judged: every date. It is written year, month, day, such as 2026-01-10, because 3/4/2025 is one day to one
reader and another to the next. Where an old card knows less, 2026-01, 2026 or `unknown` may stand.

What to do: write the date as proposed; where two days could be meant, look at the card again.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "not-a-date"


def check(book: Book) -> Iterator[Finding]:
    """Tell every date that cannot be read."""
    return form_findings(book, ID, Verdict.UNREADABLE)
