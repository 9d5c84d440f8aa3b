"""Something is outside a condemning limit, and no defect is on record for it.

What is judged: every finding outside a condemning limit, against the open defects of the same place, wheelset or part.
A defect that names a limit is of that limit alone. The finding itself counts as it is: this is a note that from here on
somebody should write what is done about it, for what is not written is forgotten. What was closed and is outside still
is told as that, not here.

What to do: once it has been measured again and stands, `axlebook new defect DAY-ENGINE-WORDS`, and write what was
found, who must not do what meanwhile, and later the repair.

Source: the finding named, and its limit.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.defect import Defect, defects

from ._defects import concerns, outside_now, read_on
from .defect_closed_but_outside import told_as_closed

ID = "defect-not-recorded"


def check(book: Book) -> Iterator[Finding]:
    """Tell every condemning finding without a defect."""
    known = defects(book)
    for finding in outside_now(book):
        if finding.severity is not Severity.CONDEMNING or any(_covers(book, one, finding) for one in known):
            continue
        day = read_on(book, finding) or book.as_of
        name = f"{day}-{finding.subject.split()[0]}-{finding.check}"[:60].rstrip("-")
        yield Finding(
            ID,
            Verdict.SUSPECT,
            Severity.NOTE,
            finding.subject,
            finding.place,
            f"{finding.subject}: it is past a condemning limit ({finding.check}), "
            "and no open defect is on record for it.",
            source=finding.source,
            next=f"Measure again. If it stands: axlebook new defect {name}",
            quantity=finding.quantity,
            where=finding.where,
        )


def _covers(book: Book, defect: Defect, finding: Finding) -> bool:
    if defect.is_open(book.as_of):
        return concerns(book, defect, finding)
    return told_as_closed(book, defect, finding)
