"""What a book that is only begun needs first: one step, the next one a person can do."""

from __future__ import annotations

from collections.abc import Iterable

from axlebook.checks.nothing_to_judge import ID
from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

LEDGER = "ledger.yaml"
UNNAMED = "Name of your railway"  # as the template of ledger.yaml has it
NAME_IT = "Write your railway's name, and the limit sets you work to, into ledger.yaml."


def first_step(book: Book, findings: Iterable[Finding]) -> str:
    """The one thing to write next in a book that cannot judge a wheel yet; '' in one that can."""
    told = list(findings)
    found = next((finding for finding in told if finding.check == ID), None)
    if found is None:
        return ""
    unread = next((one for one in told if one.verdict is Verdict.UNREADABLE and one.place.path == LEDGER), None)
    if unread is not None:  # what it should say stands there already, as far as its writer can see
        return f"Put line {unread.line} of {LEDGER} right; until then nothing in it holds."
    if book.ledger.railway != UNNAMED:
        return found.next
    return NAME_IT if LEDGER in found.next else f"{NAME_IT} Then: {found.next}"


def without_first_step(findings: Iterable[Finding]) -> list[Finding]:
    """The findings without the one that is told as the first step."""
    return [finding for finding in findings if finding.check != ID]
