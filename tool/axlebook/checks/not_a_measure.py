"""A measured value cannot be read.

What is judged: every measured value, as text with its unit. A number without a unit is refused, and so is a date that
a spreadsheet made of a fraction (`1-Aug` for 1/8), a fraction with nothing below its line, a comma for a point.
Nothing is guessed: a value that cannot be read counts as not measured, and is said so.

What to do: look at the card or the sheet again and write the value with its unit, such as `2 7/16 in` or `61.91 mm`.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "not-a-measure"


def check(book: Book) -> Iterator[Finding]:
    """Tell every value that cannot be read as a measure."""
    return form_findings(book, ID, Verdict.UNREADABLE)
