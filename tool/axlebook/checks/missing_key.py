"""Something is missing without which a record or an entry cannot be used.

What is judged: the few names that a record must have: its kind, what it is about, its date; and those of an entry, such
as the quantity and the place of a reading. Everything else may be left out of an old card.

What to do: add the line that the finding shows. Write `unknown` for a date that nobody knows, where that is allowed.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "missing-key"


def check(book: Book) -> Iterator[Finding]:
    """Tell everything that must be there and is not."""
    return form_findings(book, ID, Verdict.UNREADABLE)
