"""Waivers over findings: which finding each waiver names, and the findings marked with the waiver that holds.

A finding that condemns is never waived, nor is what is said of waivers themselves.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.waiver import Waiver, waivers

OF_WAIVERS = frozenset({"waiver-expired", "waiver-unused", "waiver-of-condemning", "waiver-not-approved",
                        "waiver-check-unknown"})  # fmt: skip


def waive(book: Book, findings: Iterable[Finding]) -> Iterator[Finding]:
    """The findings, each marked with the first waiver in force that names it and may."""
    holding: dict[str, list[Waiver]] = {}
    for waiver in waivers(book):
        if waiver.in_force(book.as_of):
            holding.setdefault(waiver.check, []).append(waiver)
    for finding in findings:
        known = holding.get(finding.check, ()) if may_be_waived(finding) else ()
        first = next((waiver.id for waiver in known if waiver.names(finding)), "")
        yield finding.waived_by(first) if first else finding


def may_be_waived(finding: Finding) -> bool:
    """Whether a waiver can hold for a finding at all."""
    return (
        finding.severity is not Severity.CONDEMNING
        and finding.verdict is not Verdict.WITHIN
        and finding.check not in OF_WAIVERS
    )


def named_by(book: Book, waiver: Waiver) -> list[Finding]:
    """The findings a waiver names, what is within left out; none where its check is unknown or of waivers."""
    from . import find_check, findings_of  # the list of checks names the checks that ask

    if waiver.check in OF_WAIVERS or find_check(waiver.check) is None:
        return []
    return [f for f in findings_of(book, waiver.check) if f.verdict is not Verdict.WITHIN and waiver.names(f)]
