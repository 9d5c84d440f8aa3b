"""A position round a wheel cannot be read.

What is judged: what stands before each value of a reading: an angle from 0 deg to under 360 deg, counted clockwise seen
from the right side from the datum mark, with `inner`, `middle` or `outer` where it matters; or `worst`, `all round`,
`front`, `rear`, `top`, `bottom`.

What to do: write the position as shown. 12 o'clock is a clock position: it belongs in `clock`.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "not-a-position"


def check(book: Book) -> Iterator[Finding]:
    """Tell every position that cannot be read."""
    return form_findings(book, ID, Verdict.UNREADABLE)
