"""A file or folder stands where it is not read, or bears a name that is no id.

What is judged: names. A record's name is its id, in lower-case letters, digits and hyphens, at most 60, with the ending
`.yaml`; two names never differ in capitals alone, for on many disks they would be one file. Records stand in the
folder of their kind.

What to do: rename or move the file as the finding says. Photos and certificates belong in `attachments/`.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "misplaced-file"


def check(book: Book) -> Iterator[Finding]:
    """Tell every file that stands or is named out of order."""
    return form_findings(book, ID, Verdict.SUSPECT)
