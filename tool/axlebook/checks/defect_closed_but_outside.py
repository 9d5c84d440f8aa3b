"""A defect was closed, and what it was found by is outside still.

What is judged: every defect that names its limit and is closed as repaired, or as accepted within the limits on file,
against what is outside that limit now at the same place or part. Either the first reading since the repair is outside,
or nobody has read it since. Where it has been read within in between, it is a new defect and told as that. A defect
closed because the part was removed says nothing of the part that came in its place.

What to do: measure it again. If it stands, open a new defect: the old one stays as it was closed.

Source: the defect, and the limit it names.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book
from axlebook.records.defect import Defect, defects

from ._defects import concerns, days_read, outside_now, read_on

ID = "defect-closed-but-outside"
SAID_TO_BE_WITHIN = ("repaired", "accepted within the limits on file")


def check(book: Book) -> Iterator[Finding]:
    """Tell every closed defect that is outside still."""
    for defect in defects(book):
        for finding in outside_now(book):
            if told_as_closed(book, defect, finding):
                yield _finding(book, defect, finding)
                break


def told_as_closed(book: Book, defect: Defect, finding: Finding) -> bool:
    """Whether a finding is what a closed defect was found by, with nothing within read in between."""
    closed = defect.disposition in SAID_TO_BE_WITHIN and not defect.is_open(book.as_of)
    if not closed or not defect.limit or not concerns(book, defect, finding):
        return False
    read, done = read_on(book, finding), defect.done_on.first
    return read is None or done is None or not any(done <= day < read for day in days_read(book, finding))


def _finding(book: Book, defect: Defect, finding: Finding) -> Finding:
    read, done = read_on(book, finding), defect.done_on
    since = read is not None and done.first is not None and read >= done.first
    words = f"read again on {read}, and outside" if since else "not read again since, and the last reading is outside"
    return Finding(
        ID,
        Verdict.SUSPECT,
        finding.severity,
        defect.subject,
        defect.place.below("disposition"),
        f"{defect.subject}: closed as {defect.disposition} on {done.text}; {words} ({finding.check}).",
        finding.figures,
        f"defect {defect.id}; {finding.source}",
        "Measure it again; if it stands, open a new defect.",
        finding.quantity,
        defect.id,
    )
