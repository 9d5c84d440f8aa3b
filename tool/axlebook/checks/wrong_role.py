"""A wheelset stands at a place that is not for one of its kind.

What is judged: the dated lines of every engine up to the day the book is read at, against the kind of the wheelset's
record. A place of a driver is for a `driver`; one of engine truck, trailing truck and tender for a `wheelset`. One that
is on record as a wheelset among the drivers is no main driver, its diameters are held against no other driver's, and
no pin of its is asked for; and the other way round.

What to do: most often the line names the wrong id. Else write the record anew in the right kind: `axlebook new driver`,
`axlebook new wheelset`.

Source: the lines of the engine and the record of the wheelset.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book

ID = "wrong-role"
DRIVER = "driver"


def check(book: Book) -> Iterator[Finding]:
    """Tell every line that names a wheelset of the other kind, once a place and wheelset."""
    for engine in book.engines.values():
        told: set[tuple[str, str]] = set()
        for line in engine.lines:
            wheelset, one = book.wheelsets.get(line.wheelset), (line.at, line.wheelset)
            if wheelset is None or one in told or not line.role or (line.start.first or date.min) > book.as_of:
                continue
            if (line.role == DRIVER) == wheelset.driver:
                continue
            told.add(one)
            kind, asked = (DRIVER, "wheelset") if wheelset.driver else ("wheelset", DRIVER)
            yield Finding(
                ID, Verdict.SUSPECT, Severity.DATA, f"{engine.id} {line.at}", line.place.below("wheelset"),
                f"{engine.id} {line.at}: {line.wheelset} stands there, which is on record as a {kind}; that place is "
                f"for a {asked}. What a limit asks of a driver cannot be asked of it rightly.",
                source=f"the lines of {engine.id} and the record of {line.wheelset}",
                next=f"Write the id of the {asked} that stands there; or write {line.wheelset} anew, as a {asked}.",
                where=line.wheelset,
            )  # fmt: skip
