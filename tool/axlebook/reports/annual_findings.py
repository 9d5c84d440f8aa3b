"""Of the annual summary: every finding of the engine in full, and what the tool did not check."""

from __future__ import annotations

from collections import defaultdict

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book

from .annual_parts import Cells, Listed, Part
from .item import Item
from .text import sentence

NEVER = (
    "No record tells what nobody wrote down. A wheel that was not measured is not judged.",
    "Readings are taken as written, unless a check found them unlikely. Whether a gauge was held rightly, nobody can "
    "tell from a record.",
    "Springs, equalizers, frames, boiler, brake rigging, couplings and track are in this book only as far as a limit "
    "set on file speaks of them.",
    "Steel is judged by what is on record of it. Cracks are known only where somebody looked for them, with the "
    "method named.",
    "Wear is carried on from readings of the past. What service will be like, nobody knows.",
    "Whether the law of the place asks for more than the limit sets on file, is for the railway and the authority "
    "having jurisdiction to say.",
)  # fmt: skip


def findings_part(findings: list[Finding]) -> Part:
    """What is outside, suspect, undecided or unreadable, each with its source and next step."""
    groups: dict[tuple[object, ...], list[Finding]] = defaultdict(list)
    for finding in findings:
        if finding.verdict is not Verdict.NOT_ASSESSED:
            groups[_alike(finding)].append(finding)
    head = ("Verdict", "What was found", "What to do", "Record")
    rows = tuple((_cells(many), many[0].verdict) for many in groups.values())
    tables = (Listed("Findings, heaviest first", head, rows),) if rows else ()
    return Part(
        "findings", "What was found", (), tables, nothing="Nothing is outside, suspect, undecided or unreadable."
    )


def _alike(finding: Finding) -> tuple[object, ...]:
    """What is told together: the same slip of the pen in several records; all else stands alone."""
    if finding.severity in (Severity.DATA, Severity.NOTE):
        return finding.check, finding.verdict, finding.severity, finding.next, finding.source, finding.waived
    return finding.fingerprint, finding.place


def _cells(many: list[Finding]) -> Cells:
    finding, more = many[0], len(many) - 1
    severity = "note" if finding.severity is Severity.NOTE else str(finding.severity)
    waived = f"; waived by {finding.waived}" if finding.waived else ""
    also = f" And {more} more of this sort." if more else ""
    source = f" By {sentence(finding.source)}" if finding.source and finding.source not in finding.message else ""
    return (
        f"{finding.verdict}, {severity}{waived}",
        f"{sentence(finding.message)}{also}{source}",
        sentence(finding.next),
        _where(many),
    )


def _where(many: list[Finding]) -> str:
    """The records of what is told together, each once, with its lines."""
    lines: dict[str, set[int]] = {}
    for one in many:
        lines.setdefault(one.record, set()).add(one.line)
    return "; ".join(
        f"{record}, line{'s' if len(found) > 1 else ''} {', '.join(map(str, sorted(found)))}"
        for record, found in lines.items()
    )


def not_checked_part(book: Book) -> Part:
    """What the tool did not and cannot check."""
    items = [Item(text) for text in NEVER]
    if book.twins:
        names = ", ".join(path for _, path in book.twins)
        items.append(Item(f"Not in the book, because another record has the same id: {names}.", Verdict.NOT_ASSESSED))
    return Part("not-checked", "What was not checked", tuple(items))
