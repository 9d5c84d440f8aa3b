"""A reading names both a place on an engine and a part.

What is judged: every reading, observation and examination. `place` says where on an engine, and the dated lines of the
engine then say which part that was; `part` says which part, by its own id. With both, one could contradict the other.

What to do: keep `place` for what was measured on the engine, `part` for what stood alone or out of the engine.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "place-and-part"


def check(book: Book) -> Iterator[Finding]:
    """Tell every entry that names both a place and a part."""
    return form_findings(book, ID, Verdict.UNREADABLE)
