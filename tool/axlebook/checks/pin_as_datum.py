"""Angles are counted from a crank pin.

What is judged: the datum of every wheelset, and what each reading says that 0 deg was counted from. A crank pin is
renewed and trued, and stands at another angle on each side; angles counted from it do not meet those of any other
year. A datum is a mark that stays: a punch mark in the end of the axle.

What to do: punch a mark into the end of the axle, name it as `datum`, and read once from both, so that the old angles
can be turned to the new ones.

Source: common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from axlebook.findings import Figure, Finding, Place, Severity, Verdict
from axlebook.records import fields
from axlebook.records.book import Book

ID = "pin-as-datum"
PIN = re.compile(r"\b(?:crank|main|rod|coupling)[ -]?(?:rod )?pins?\b", re.IGNORECASE)
COUNTED = re.compile(r"\b(?:angles?|counted|datum|deg|from)\b", re.IGNORECASE)
NEXT = "Punch a mark into the end of the axle, name it as datum, and read once from both."
SOURCE = "common practice: a pin is renewed and trued"


def check(book: Book) -> Iterator[Finding]:
    """Look at every datum, and at what readings were counted from."""
    for wheelset in book.wheelsets.values():
        told = fields.text(wheelset.tree, "datum")
        if PIN.search(told):
            yield _finding(wheelset.id, Place(book.paths[wheelset.id], "/datum"), f"the datum of {wheelset.id}", told)
    for reading in book.readings:
        tree = reading.tree
        told = tree.get("from_datum", "")
        key = "from_datum" if told else "note"
        told = told or tree.get("note", "")
        if told and PIN.search(told) and (key == "from_datum" or COUNTED.search(told)):
            what = f"the angles of {reading.named} in {reading.source.record}"
            yield _finding(reading.named, reading.at.below(key), what, told, reading.quantity)


def _finding(subject: str, at: Place, what: str, told: str, quantity: str = "") -> Finding:
    return Finding(
        ID, Verdict.SUSPECT, Severity.DATA, subject, at,
        f"{subject}: {what} are counted from “{told}”. A pin is no fixed mark: these angles meet no others."
        if quantity else f"{subject}: {what} is “{told}”. A pin is no fixed mark: its angles meet no others.",
        (Figure("datum", told, "", at.path),), SOURCE, NEXT, quantity, "datum",
    )  # fmt: skip
