"""A file could not be read at all.

What is judged: every file in the folders of the ledger. A file is not read when it is no plain UTF-8 text, when its
YAML is broken or uses what is refused here (two values under one name, anchors, aliases, tags, a second document),
when it is too large or nested too deep, and when it is a link or a device instead of a file. The other files are read
all the same.

What to do: open the file at the line and column named and mend it there. Compare it with a record of the same kind.
Until then nothing of it counts: what it would have told is missing from every answer.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "unreadable-record"


def check(book: Book) -> Iterator[Finding]:
    """Tell every file that could not be read."""
    return form_findings(book, ID, Verdict.UNREADABLE)
