"""A plain number above zero, or a share, is written as something else.

What is judged: coverage factors, Poisson's ratios, shares, and the factors of practices and of plausibility. A share is
not more than the whole, and Poisson's ratio lies under one half: nothing can be worked out with more.

What to do: write the number alone, such as 2 or 0.9; a share may also be written in percent, such as 90 percent.

Source: the schema of the record's kind, shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "not-a-number"


def check(book: Book) -> Iterator[Finding]:
    """Tell every plain number that is none."""
    return form_findings(book, ID, Verdict.UNREADABLE)
