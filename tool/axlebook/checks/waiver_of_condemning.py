"""A waiver names a finding that condemns.

What is judged: every waiver in force, against the findings it names. What a condemning limit says, or could not judge,
is never waived by the railway: the finding stays as it is and counts, and the waiver is a finding too.

What to do: close the waiver, and treat the finding as a defect. Where the authority itself has allowed more, that is a
limit of your own set with its docket and its last day, which stands in for the published one (`replaces`).

Source: the waiver, and the limit that the finding names.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.waiver import waivers

from ._waiving import named_by

ID = "waiver-of-condemning"


def check(book: Book) -> Iterator[Finding]:
    """Tell every waiver in force that names what condemns."""
    for waiver in waivers(book):
        if not waiver.in_force(book.as_of):
            continue
        heavy = [finding for finding in named_by(book, waiver) if finding.severity is Severity.CONDEMNING]
        if heavy:
            first = heavy[0]
            yield Finding(
                ID,
                Verdict.SUSPECT,
                Severity.SHOP,
                waiver.id,
                waiver.place.below("finding"),
                f"The waiver {waiver.id} names {first.check} of {first.subject}, which condemns: {first.verdict}. "
                "It is not waived.",
                first.figures,
                f"{first.source or first.check}; waiver {waiver.id}",
                "Close the waiver, and write the defect: axlebook new defect.",
                first.quantity,
                first.where,
            )
