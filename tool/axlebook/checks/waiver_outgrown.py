"""What a waiver waives was read again since it was approved, and is worse.

What is judged: every waiver in force that waives a size past a limit, where that was read after the day of the
approval. It is held against the last reading of the same place and plane up to that day: where it is worse now, the
waiver waives more than somebody looked at, and where there was none, what nobody had looked at. It holds all the same,
for some wear was to be expected; so this is a note, for whoever approved it.

What to do: decide anew. Where it may stay so, write a waiver of its own for what is there now, and close this one.

Source: the waiver and the readings of this ledger.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.condition import mean
from axlebook.records.instruments import plane_of
from axlebook.records.reading import Measure, Reading
from axlebook.records.waiver import Waiver, other_metal, waivers

from ._waiving import may_be_waived, named_by

ID = "waiver-outgrown"
Measures = tuple[Measure, ...]


def check(book: Book) -> Iterator[Finding]:
    """Tell every waiver of a size that has grown worse."""
    for waiver in waivers(book):
        day = waiver.approved.day.exact
        if day is None or not waiver.in_force(book.as_of) or other_metal(book, waiver):
            continue
        for found in named_by(book, waiver):
            if may_be_waived(found) and found.quantity in book.vocabulary.quantities:
                yield from _held_against(book, waiver, found, day)


def _held_against(book: Book, waiver: Waiver, found: Finding, day: date) -> Iterator[Finding]:
    """The reading that is waived, against the last that was known when it was."""
    read = _readings_of(book, found)
    now = next((one for one in read if _stands_in(found, one[0])), None)
    if now is None or now[0].day.first is None or now[0].day.first <= day:
        return
    plane = plane_of(book, now[0])
    known = [one for one in read if one[0].day.last and one[0].day.last <= day and plane_of(book, one[0]) == plane]
    if not known:
        yield _finding(book, waiver, found, now, f"no such reading was on record on {day}, when it was approved")
    elif _worse(book.vocabulary.quantities[found.quantity].wear, known[-1][1], now[1]):
        yield _finding(book, waiver, found, now, f"it was {_text(known[-1][1])} when that was approved on {day}")


def _readings_of(book: Book, found: Finding) -> list[tuple[Reading, Measures]]:
    """All readings of what a finding is of, at its position, in order of date."""
    for (_, name), many in book.series.items():
        if name == found.quantity and any(_stands_in(found, reading) for reading in many):
            return [(reading, measures) for reading in many for at, measures in reading.values if at == found.where]
    return []


def _stands_in(found: Finding, reading: Reading) -> bool:
    return reading.source.path == found.place.path and found.place.pointer.startswith(f"{reading.pointer}/")


def _worse(wear: str, then: Measures, now: Measures) -> bool:
    was, here = mean(then), mean(now)
    if wear == "lowers":
        return was.low is not None and here.high is not None and here.high < was.low
    return wear == "raises" and was.high is not None and here.low is not None and here.low > was.high


def _text(measures: Measures) -> str:
    return " and ".join(measure.text for measure in measures)


def _finding(book: Book, waiver: Waiver, found: Finding, now: tuple[Reading, Measures], then: str) -> Finding:
    what = f"{book.vocabulary.quantities[found.quantity].title}{f', {found.where}' if found.where else ''}"
    return Finding(
        ID, Verdict.SUSPECT, Severity.NOTE, waiver.id, waiver.place.below("finding"),
        f"The waiver {waiver.id} waives {what} of {found.subject}, {_text(now[1])} on {now[0].day.text}; {then}.",
        source=f"waiver {waiver.id} and the readings of this ledger",
        next="Decide anew: a waiver of its own for what is there now, and close this one.",
        quantity=found.quantity, where=found.where,
    )  # fmt: skip
