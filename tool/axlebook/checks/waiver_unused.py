"""A waiver names a finding that is not there, or metal that is not.

What is judged: every waiver in force, against the findings of this run, by check, subject and, where the waiver says
them, quantity, where and record. A waiver that names nothing is no harm today, but it would silence the finding the
day it comes up, and by then nobody may remember why. A waiver of a place is for what stood there on the day it was
approved: it waives nothing of a wheel that came later, and that is told too.

What to do: where it was put right, write `closed_on:` into the waiver. Where the finding is there under another name,
copy check and subject from the finding. Of other metal somebody decides anew.

Source: the waiver and the findings of this run.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.waiver import Waiver, other_metal, waivers

from . import _waiving

ID = "waiver-unused"


def check(book: Book) -> Iterator[Finding]:
    """Tell every waiver in force that names no finding."""
    from . import findings_of  # the list of checks names this one

    for waiver in waivers(book):
        if not waiver.in_force(book.as_of):
            continue
        if other := other_metal(book, waiver):
            step = "Write `closed_on:` into the waiver; what stands there now is decided on anew."
            yield _finding(waiver, f"The waiver {waiver.id} waives nothing: {other}.", step)
            continue
        if not _waiving.nameable(waiver) or _waiving.named_by(book, waiver):
            continue
        others = dict.fromkeys(f.subject for f in findings_of(book, waiver.check) if f.verdict is not Verdict.WITHIN)
        there = f" What {waiver.check} finds is of {', '.join([*others][:3])}." if others else ""
        yield _finding(
            waiver,
            f"The waiver {waiver.id} names {waiver.check} of {waiver.subject}, and nothing is found there.{there}",
            "Write `closed_on:` into the waiver if it was put right; else copy the subject from the finding.",
        )


def _finding(waiver: Waiver, words: str, next_step: str) -> Finding:
    at, source = waiver.place.below("finding"), f"waiver {waiver.id}"
    return Finding(ID, Verdict.SUSPECT, Severity.NOTE, waiver.id, at, words, source=source, next=next_step)
