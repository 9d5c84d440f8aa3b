"""A place on an engine cannot be read.

What is judged: every place. A wheel is named by role, number and side: `driver-2 right`, `engine-truck-1 left`; a
whole wheelset without the side: `tender-3`; other places by plain words: `crosshead left`, `engine`. Left and right
are seen from the cab, facing forward. Where a wheelset stands, by a dated line of an engine, must be an axle: a role
that limits ask for, and its number. At any other place it has no role, and no limit of its role would judge it.

What to do: write the place as shown. R2 on a sheet is `driver-2 right`.

Source: the schema of the record's kind and the vocabulary, both shipped with the ledger.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.engine import Line
from axlebook.records.forms import parse_place

from ._form import form_findings
from ._records import nearest

ID = "not-a-place"


def check(book: Book) -> Iterator[Finding]:
    """Tell every place that cannot be read, and every dated line whose place is no axle."""
    yield from form_findings(book, ID, Verdict.UNREADABLE)
    for engine in book.engines.values():
        for line in engine.lines:
            if not _is_axle(book, line.at):
                yield _no_axle(book, line)


def _is_axle(book: Book, place: str) -> bool:
    spot = parse_place(place)
    return spot is not None and spot.number is not None and not spot.side and spot.stem in book.vocabulary.roles


def _no_axle(book: Book, line: Line) -> Finding:
    spot = parse_place(line.at)
    roles = book.vocabulary.roles
    near = nearest(spot.stem, roles) if spot else ""
    number = spot.number or 1 if spot else 1
    return Finding(
        ID, Verdict.SUSPECT, Severity.DATA, f"{line.engine} {line.at}", line.place.below("at"),
        f"{line.wheelset} stands at {line.at} of {line.engine}, which names no axle: no limit of its role judges it.",
        source="the schema of the record's kind and the vocabulary",
        next=f"Write {near}-{number} if that is meant."
        if near
        else f"Write the role and the number from the front: {', '.join(roles[:-1])} or {roles[-1]}.",
    )  # fmt: skip
