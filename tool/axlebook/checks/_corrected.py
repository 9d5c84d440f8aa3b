"""Findings that stand on a corrected value say so: what stood there, and by which correction."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from ._corrections import place_of


def say_corrected(book: Book, findings: Iterable[Finding]) -> Iterator[Finding]:
    """The findings; to the message of one on a corrected value is added what stood there before.

    What cannot be read is the correction's own writing: its place is where that stands, for the record is sound.
    """
    for finding in findings:
        if finding.verdict is Verdict.WITHIN or finding.place.path not in book.corrected or not finding.place.pointer:
            yield finding
            continue
        made = book.corrections_at(finding.place)
        words = "".join(
            f" Corrected on {one.day} by {one.id}: {f'`{one.was}` stood there' if one.was else 'nothing stood there'}."
            for one in made
        )
        if finding.verdict is Verdict.UNREADABLE:
            own = [place_of(one, "is") for one in made if one.pointer == finding.place.pointer]
            finding = replace(finding, place=own[-1]) if own else finding
        yield replace(finding, message=finding.message + words) if words else finding
