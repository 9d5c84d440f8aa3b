"""A defect's tag lacks what a tag must tell.

What is judged: the tag of every defect on record, against what the sets in force for the engine ask of one, as in
`paperwork` of a limit set. Whether a tag had to be there at all is not judged here: an open defect with neither tag nor
restriction is told by defect-open. Where no set asks anything of a tag, it is not assessed.

What to do: write what is missing, as it stood on the tag. Of an old one that nobody remembers, say so in a note.

Source: the set that asks, with its clause.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.defect import defects

from ._paperwork import asked, in_words, missing

ID = "tag-incomplete"
NOBODY_ASKS = "no set on file says what a tag must tell"


def check(book: Book) -> Iterator[Finding]:
    """Tell every tag that lacks something."""
    for defect in defects(book):
        if not defect.tag:
            continue
        at, papers = defect.place.below("tag"), list(asked(book, defect, "tag"))
        if not papers:
            words = f"{defect.subject}: the tag of {defect.id} has NOT been judged: {NOBODY_ASKS}."
            step = "Adopt a set that says it, or write `paperwork:` in a set of your own."
            yield Finding(ID, Verdict.NOT_ASSESSED, Severity.NOTE, defect.subject, at, words, next=step,
                          where=defect.id, cause=NOBODY_ASKS)  # fmt: skip
        for paper in papers:
            lacking = missing(defect, paper)
            yield Finding(
                ID,
                Verdict.SUSPECT if lacking else Verdict.WITHIN,
                paper.severity,
                defect.subject,
                at,
                f"{defect.subject}: the tag of {defect.id} lacks {in_words(lacking)}." if lacking else "",
                source=paper.cited,
                next="Write it as it stood on the tag.",
                where=f"{defect.id} {paper.id}",
            )
