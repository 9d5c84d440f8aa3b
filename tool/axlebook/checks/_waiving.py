"""Waivers over findings: which finding each waiver names, and the findings marked with the waiver that holds.

A finding that condemns is never waived, nor is what is said of waivers themselves. Whether a waiver waives anything is
decided here alone; what holds an engine back and what falls due are told by it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.due import Due, Kind, falls_due
from axlebook.records.restrictions import Restriction, restrictions
from axlebook.records.waiver import Waiver, other_metal, waivers

OF_WAIVERS = frozenset({"waiver-expired", "waiver-unused", "waiver-of-condemning", "waiver-not-approved",
                        "waiver-check-unknown", "waiver-outgrown"})  # fmt: skip


def waive(book: Book, findings: Iterable[Finding]) -> Iterator[Finding]:
    """The findings, each marked with the first waiver in force that names it and may."""
    holding: dict[str, list[Waiver]] = {}
    for waiver in waivers(book):
        if waiver.in_force(book.as_of) and not other_metal(book, waiver):
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


def nameable(waiver: Waiver) -> bool:
    """Whether the check that a waiver names is one whose findings can be waived at all."""
    from . import find_check  # the list of checks names the checks that ask

    return waiver.check not in OF_WAIVERS and find_check(waiver.check) is not None


def named_by(book: Book, waiver: Waiver) -> list[Finding]:
    """The findings a waiver names, what is within left out; none where its check is unknown or of waivers."""
    from . import findings_of  # the list of checks names the checks that ask

    if not nameable(waiver):
        return []
    return [f for f in findings_of(book, waiver.check) if f.verdict is not Verdict.WITHIN and waiver.names(f)]


def waives_nothing(book: Book, waiver: Waiver) -> str:
    """Why a waiver waives nothing on the day the book is read at; '' where it waives a finding."""
    if waiver.approved.fault:
        return waiver.approved.fault
    if waiver.closed_by(book.as_of):
        return f"it was closed on {waiver.closed_on.text}"
    if not waiver.begun(book.as_of):
        return f"it is approved from {waiver.approved.day.text} on only"
    if not waiver.in_force(book.as_of):
        return f"it ran out on {waiver.expires_on}" if waiver.expires_on else "it has no last day"
    return other_metal(book, waiver) or _names_nothing(book, waiver)


def _names_nothing(book: Book, waiver: Waiver) -> str:
    from . import find_check  # the list of checks names the checks that ask

    if waiver.check in OF_WAIVERS:
        return f"{waiver.check} judges waivers themselves"
    if find_check(waiver.check) is None:
        return f"no check is named {waiver.check}"
    named = named_by(book, waiver)
    if not named:
        return f"{waiver.check} finds nothing of {waiver.subject}"
    return "" if any(map(may_be_waived, named)) else "what it names condemns, and that is never waived"


def held_back(book: Book) -> list[Restriction]:
    """What holds an engine back, without the waivers that waive nothing."""
    idle = {one.id for one in waivers(book) if waives_nothing(book, one)}
    return [one for one in restrictions(book) if one.kind != "waiver" or one.record not in idle]


def everything_due(book: Book) -> list[Due]:
    """What falls due; a waiver that waives nothing says so, and one that ran out weighs as its check says."""
    known = {one.id: one for one in waivers(book)}
    return [_told(book, known[due.record], due) if due.kind is Kind.WAIVER else due for due in falls_due(book)]


def _told(book: Book, waiver: Waiver, due: Due) -> Due:
    if waiver.expired(book.as_of):
        return due if named_by(book, waiver) else due._replace(severity=Severity.NOTE)
    why = waives_nothing(book, waiver)
    return due._replace(title=f"{due.title}, which waives nothing", told=f"{why}; {due.told}") if why else due
