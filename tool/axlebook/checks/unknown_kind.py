"""A record does not say of what kind it is, or names a kind that is not known.

What is judged: the key `kind` of every record. It decides which names may stand in the record and how they are read.

What to do: write `kind:` as the finding proposes. Until then nothing of the record is used.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "unknown-kind"


def check(book: Book) -> Iterator[Finding]:
    """Tell every record of no known kind."""
    return form_findings(book, ID, Verdict.UNREADABLE)
