"""A word is not one of those that may stand there.

What is judged: values that must be one of a few words: the quantity of a reading, a hold, why something was not
measured, how a tire is fastened. One word for one thing keeps a book searchable for thirty years.

What to do: use the word proposed. A quantity that is truly missing needs a line in the vocabulary first.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "unknown-word"


def check(book: Book) -> Iterator[Finding]:
    """Tell every word that is not known where it stands."""
    return form_findings(book, ID, Verdict.UNREADABLE)
