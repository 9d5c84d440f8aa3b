"""A period is written as something else than a whole number of days, months, years or service days.

What is judged: how often an inspection is due, how soon it must begin, be reported or be looked at again. A year and a
half has no whole number of years: the calendar cannot count it, and of two periods the other would be counted alone.

What to do: write it in a smaller unit: 18 months. What runs on service days says so: 31 service days.

Source: the schema of the record's kind, shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._form import form_findings

ID = "not-a-period"


def check(book: Book) -> Iterator[Finding]:
    """Tell every period that is none."""
    return form_findings(book, ID, Verdict.UNREADABLE)
