"""A record stands in the folder of another kind.

What is judged: the folder against the record's `kind`. Either the file was put in the wrong folder, or the kind was
copied from another record and never changed.

What to do: find out which of the two is wrong, then move the file or put its kind right.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "wrong-folder"


def check(book: Book) -> Iterator[Finding]:
    """Tell every record that stands in the folder of another kind."""
    return form_findings(book, ID, Verdict.SUSPECT)
