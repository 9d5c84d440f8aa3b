"""A waiver is not approved by somebody who may.

What is judged: who approved each waiver and when, against the people on record and their days, and against `approvers`
in `ledger.yaml` where the ledger names who may approve. A waiver approved by nobody who may waives nothing: the finding
counts. One without the day of approval holds, and that is a note: nobody can tell what was waived when.

What to do: have it approved, and write `approved_by:` and `approved_on:`.

Source: the people on record; `approvers` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.waiver import Waiver, waivers

from ._records import nearest

ID = "waiver-not-approved"


def check(book: Book) -> Iterator[Finding]:
    """Tell every waiver whose approval does not hold."""
    people = [person.id for person in book.of_kind("person")]
    for waiver in waivers(book):
        approved = waiver.approved
        if approved.no_day:
            words = f"The waiver {waiver.id} does not say on which day {approved.by} approved it."
            yield _finding(waiver, Severity.NOTE, words, "Write `approved_on:`.")
        if approved.fault:
            near = "" if approved.by in people else nearest(approved.by, people)
            meant = f"Write {near} if that is meant; else have it approved" if near else "Have it approved"
            words = f"The waiver {waiver.id} waives nothing: {approved.fault}."
            yield _finding(waiver, Severity.DATA, words, f"{meant}, and write by whom and on which day.")


def _finding(waiver: Waiver, severity: Severity, words: str, next_step: str) -> Finding:
    at = waiver.place.below("approved_by")
    source = "the people on record and `approvers` in ledger.yaml"
    return Finding(ID, Verdict.SUSPECT, severity, waiver.id, at, words, source=source, next=next_step)
