"""A defect is open.

What is judged: every defect on record that nobody has closed by the day the book is read at. It weighs what the limit
weighs that it names; one that names no limit is to be watched, for nothing tells how heavy it is. Where the reading
that it was found by is outside still, that finding says so already, and the open defect is a note beside it: unless
neither a tag nor a restriction that holds is on record, for then nothing keeps the engine from being used. A defect is
of the metal that stood at its place on the day it was found, or of its part: it is told where that stands now, under
another engine too; under none it is told of the part.

What to do: repair it to a named standard, have the repair approved, and write `disposition:` and `closed_on:`. Until
then, write the tag or the restriction.

Source: the record of the defect, and the limit it names.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.defect import Defect, defects, limit_of
from axlebook.records.where_stands import Whereabouts

from ._defects import concerns, outside_now

ID = "defect-open"


def check(book: Book) -> Iterator[Finding]:
    """Tell every open defect, where what it is of stands now."""
    for defect in defects(book):
        if defect.is_open(book.as_of):
            yield from (_finding(book, defect, here) for here in defect.now)


def _finding(book: Book, defect: Defect, here: Whereabouts) -> Finding:
    limit, subject = limit_of(book, defect), here.name or defect.id
    bare = bool(here.engine) and not defect.tag and not defect.restricted(book.as_of)
    told = [finding for finding in outside_now(book) if concerns(book, defect, finding)]
    severity = limit.severity if limit else Severity.WATCH
    beside = bool(told) and not bare
    what = defect.what.strip(" .") and defect.what.rstrip(".")
    found = f"{defect.found_on.text} at {defect.moved_from}" if defect.moved_from else defect.found_on.text
    words = f"{subject}, found {found} and open: {what or 'what it is was not written'}."
    if len(defect.now) > 1:
        words += " Whether it is of the tire or of the center is not told, and they stand apart now."
    if bare:
        words += " Neither a tag nor a restriction that holds is on record."
    elif beside:
        words += f" Told by {told[0].check} too."
    return Finding(
        ID,
        Verdict.OUTSIDE if limit and not beside else Verdict.SUSPECT,
        Severity.NOTE if beside else severity,
        subject,
        defect.place.below("disposition"),
        words,
        source=f"defect {defect.id}" + (f"; {limit.cited}" if limit else ""),
        next="Write what must not be done meanwhile, as `tag:` or `restriction:`."
        if bare
        else "Repair it to a named standard, have that approved, and close it.",
        where=defect.id,
    )
