"""A record has so many faults that the rest of them is not listed.

What is judged: the number of faults in one record. Most likely the file is of another kind than it says, or was
pasted from somewhere else.

What to do: put the first faults right and check again. Until then nothing of the record is used.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "too-many-problems"


def check(book: Book) -> Iterator[Finding]:
    """Tell every record whose faults are too many to list."""
    return form_findings(book, ID, Verdict.UNREADABLE)
