"""The report of an inspection was filed late, or the record does not tell that it was filed.

What is judged: every inspection that an interval with `report_within` names by its purpose or in `also_satisfies`:
the days from the inspection to `reported_on`; the last of those days is still within. Filed late is a note: it cannot
be undone. Of the last inspection of each interval, one whose time has passed without a `reported_on` is not assessed.

What to do: file it, and write `reported_on:` in the record; a copy belongs to its attachments.

Source: the interval named in the finding, with its set and clause.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book
from axlebook.records.due import Kind

from ._due import judged_due, judged_late

ID = "report-late"


def check(book: Book) -> Iterator[Finding]:
    """Judge the report of every inspection that asks for one."""
    yield from judged_late(book, ID, (Kind.REPORT,))
    yield from judged_due(book, ID, Kind.REPORT)
