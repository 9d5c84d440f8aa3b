"""A waiver names a finding that condemns.

What is judged: every waiver in force, against the findings it names. What a condemning limit says, or could not judge,
is never waived by the railway: the finding stays as it is and counts, and the waiver is a finding too. A waiver that
waives what it was written for is none because something beside that could not be judged.

What to do: close the waiver, and treat the finding as a defect. Where the authority itself has allowed more, that is a
limit of your own set with its docket and its last day, which stands in for the published one (`replaces`).

Source: the waiver, and the limit that the finding names.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.waiver import waivers

from ._waiving import may_be_waived, named_by

ID = "waiver-of-condemning"


def check(book: Book) -> Iterator[Finding]:
    """Tell every waiver in force that names what condemns."""
    for waiver in waivers(book):
        if not waiver.in_force(book.as_of):
            continue
        named = named_by(book, waiver)
        heavy = [finding for finding in named if finding.severity is Severity.CONDEMNING]
        waived = any(map(may_be_waived, named))
        if waived:  # what could not be judged stands beside it, and says itself what to do
            heavy = [finding for finding in heavy if finding.verdict is not Verdict.NOT_ASSESSED]
        if heavy:
            first = heavy[0]
            unknown = first.verdict is Verdict.NOT_ASSESSED
            judged = f"a condemning limit could not judge: {first.verdict}" if unknown else f"condemns: {first.verdict}"
            other = " What it names beside that and does not condemn is waived." if waived else ""
            yield Finding(
                ID,
                Verdict.SUSPECT,
                Severity.SHOP,
                waiver.id,
                waiver.place.below("finding"),
                f"The waiver {waiver.id} names {first.check} of {first.subject}, which {judged}. "
                f"That is not waived.{other}",
                first.figures,
                f"{first.source or first.check}; waiver {waiver.id}",
                f"Close the waiver. {first.next}".strip() if unknown else
                "Close the waiver, and write the defect: axlebook new defect.",
                first.quantity,
                first.where,
            )  # fmt: skip
