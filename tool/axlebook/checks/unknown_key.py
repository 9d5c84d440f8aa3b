"""A record uses a name that has no meaning where it stands.

What is judged: every name in every record. Names that are not known are never passed over: a misspelled one would
hide what was written under it.

What to do: spell the name as proposed, or put what it says into `note`. In an entry of a list (a reading, a line of
an engine) the whole entry is left unused until then, because what it meant to say is not known.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "unknown-key"


def check(book: Book) -> Iterator[Finding]:
    """Tell every name that has no meaning where it stands."""
    return form_findings(book, ID, Verdict.SUSPECT)
