"""Which tire a finding is of, and which wheels have none on: a tire that came off tells nothing of its wheel now."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from axlebook.findings import Finding
from axlebook.records.book import Book
from axlebook.records.condition import Stand

ENTRY = re.compile(r"/(?:readings|observations)/\d+")


def named_in(book: Book, finding: Finding) -> set[str]:
    """The words of a subject, ids of parts among them, and the tire that the reading it stands in was taken on."""
    entry = ENTRY.match(finding.place.pointer)
    tire = _tires_read(book).get((finding.place.path, entry[0]), "") if entry else ""
    return {*re.split(r"[\s,]+", finding.subject), tire} - {""}


def _tires_read(book: Book) -> Mapping[tuple[str, str], str]:
    """The tire of each reading and observation that is of one, by where it stands; worked out once."""
    found: dict[tuple[str, str], str] | None = book.__dict__.get("_tires_read")
    if found is None:
        found = book.__dict__["_tires_read"] = {
            (one.source.path, one.pointer): thing.id
            for entries in (book.series, book.seen)
            for (thing, _), many in entries.items()
            if thing.kind == "tire"
            for one in many
        }
    return found


def without_tire(book: Book, stands: Iterable[Stand]) -> dict[str, str]:
    """The sides of a wheelset whose tire came off with none put on since, each with the day as it is written."""
    found = {}
    for stand in stands:
        if stand.side and stand.center is not None and stand.tire is None:
            off = [one for one in book.work_on.get(stand.center.id, ()) if one.kind == "tire-removed"]
            if off and not book.standing.tire_on(stand.center.id, book.as_of):
                found[stand.side] = off[-1].day.text
    return found
