"""A defect was closed because the part was removed, and by record the part has stood there ever since.

What is judged: every defect that is closed as `part removed`. Where it names its part, that has to be off by record
since it was found: the tire off its center, the center off its axle, or the wheelset out from under the engine. Where
it names a place only, and wheelset, center and tire are all there as they were, it is a note, for it may have been a
part that this ledger keeps no record of.

What to do: write the work that took it off, or the day on which the wheelset went; else open the defect again.

Source: the defect, the dated lines and the work on record.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.defect import Defect, defects

ID = "part-removed-but-there"
NEXT = "Write the work that took it off, or until when the wheelset stood there; else open the defect again."


def check(book: Book) -> Iterator[Finding]:
    """Tell every part that was removed by a defect alone."""
    for defect in defects(book):
        day = defect.found_on.last
        if defect.disposition != "part removed" or defect.is_open(book.as_of) or day is None or day > book.as_of:
            continue
        if defect.part:
            there = [defect.part.split()[0]]
        else:
            stood = book.stood_at(defect.engine, defect.at, day)
            there = [id for id in (stood.tire, stood.center, stood.wheelset) if id] if stood else []
        if there and all(_there_since(book, id, day) for id in there):
            yield _finding(defect, there)


def _there_since(book: Book, id: str, day: date) -> bool:
    """Whether a part has stood under an engine from a day on, without a work that took it off."""
    standing, until = book.standing, book.as_of
    if id in book.wheelsets:
        return any(
            (line.start.first or date.min) <= day and (line.until is None or (line.until.first or date.min) > until)
            for line in standing.lines_of.get(id, ())
        )
    on = [*standing.centers_of.get(id, ()), *((under, spell) for under, _, spell in standing.sides_of.get(id, ()))]
    return any(
        spell.until is None and (spell.start or date.min) <= day and _there_since(book, under, day)
        for under, spell in on
    )


def _finding(defect: Defect, there: list[str]) -> Finding:
    return Finding(
        ID, Verdict.SUSPECT, Severity.DATA if defect.part else Severity.NOTE, defect.subject,
        defect.place.below("disposition"),
        f"{defect.subject}: the defect of {defect.found_on.text} is closed as `part removed`, and by record "
        f"{', '.join(there)} {'stands' if len(there) == 1 else 'stand'} there ever since.",
        source=f"defect {defect.id}, the dated lines and the work on record", next=NEXT, where=defect.id,
    )  # fmt: skip
