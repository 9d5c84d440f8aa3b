"""A defect was repaired without a named standard, without approval, or in an order that cannot be.

What is judged: every defect closed as repaired. What the repair must tell is asked by the sets in force for the engine
(`paperwork` of a limit set): as a rule the standard it was made to, the day, and who approved it when. Whatever a set
asks, an approval must be by a person on record who may (`approvers` in `ledger.yaml`), not before the repair was done,
and before the engine ran again, by its service days.

What to do: write the standard, and have the repair approved by somebody who may. A repair that was used before it was
approved stays on record as that.

Source: the set that asks, with its clause; the record of the defect and the engine's service.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.defect import REPAIRED, Defect, defects

from ._paperwork import asked, in_words, missing

ID = "repair-not-approved"


def check(book: Book) -> Iterator[Finding]:
    """Judge every repair."""
    for defect in defects(book):
        if defect.disposition != REPAIRED or defect.is_open(book.as_of):
            continue
        papers = list(asked(book, defect, "repair"))
        for paper in papers:
            lacking = missing(defect, paper)
            words = f"{defect.subject}: closed as repaired without {in_words(lacking)}." if lacking else ""
            yield _finding(defect, paper.severity, words, paper.cited, paper.id)
        own = _wrong(book, defect, asked_for=bool(papers))
        yield _finding(defect, Severity.SHOP, own, f"defect {defect.id} and the records it names", "approval")


def _wrong(book: Book, defect: Defect, *, asked_for: bool) -> str:
    """What is wrong with the approval itself, or ''."""
    approved, done = defect.approved, defect.done_on
    if approved is None:
        return "" if asked_for else f"{defect.subject}: closed as repaired, and nobody approved the repair."
    if approved.by and approved.fault:
        return f"{defect.subject}: {approved.fault}."
    day = approved.day.first
    if day is None or done.first is None:
        return ""
    if day < done.first:
        return f"{defect.subject}: approved on {approved.day.text}, before the repair was done on {done.text}."
    ran = book.service_days(defect.engine, done.first, day - timedelta(days=1)) if defect.engine else 0
    if ran:
        return f"{defect.subject}: repaired on {done.text}, in service {ran} days before it was approved on {day}."
    return ""


def _finding(defect: Defect, severity: Severity, words: str, source: str, where: str) -> Finding:
    at = defect.place.below("approved" if where == "approval" else "repair")
    verdict = Verdict.SUSPECT if words else Verdict.WITHIN
    step = "Write what is known, and have the repair approved by somebody who may."
    return Finding(ID, verdict, severity, defect.subject, at, words, (), source, step, where=f"{defect.id} {where}")
