"""Of the annual summary: its first page, in plain words."""

from __future__ import annotations

from collections.abc import Iterable

from axlebook.findings import SEVERITY_ORDER, VERDICT_ORDER, Finding, Severity, Verdict

from .annual_parts import Group, group
from .condition_view import EngineCondition, Row
from .item import Item
from .text import sentence
from .unread import unread_item
from .view import Cause

MOST = 5  # of each sort on the first page
LONGEST = 210  # letters of a finding there
FEW = 30  # letters of a cause that says too little alone


def first_page(
    condition: EngineCondition, findings: list[Finding], causes: list[Cause], within: int, costs: list[Item],
    restrictions: list[Item],
) -> tuple[Group, ...]:  # fmt: skip
    """What is not within, what may not be, what is, what nobody measured, what will cost money, what is restricted."""
    told = [f for f in findings if f.severity is not Severity.NOTE]
    out = sorted((f for f in told if f.verdict is Verdict.OUTSIDE and not f.waived), key=_weight)
    rows = {(r.finding.subject, r.finding.quantity, r.finding.where): r for a in condition.axles for r in a.rows}
    unsure = [f for f in told if f.verdict in (Verdict.SUSPECT, Verdict.UNDECIDED) and not f.waived]
    waived = [f for f in told if f.waived]
    unread = unread_item(findings)
    notes = any(f.severity is Severity.NOTE and f.verdict in (Verdict.SUSPECT, Verdict.UNDECIDED) for f in findings)
    return (
        *([Group("Could not be read", tuple(unread), where="findings")] if unread else []),
        group("Not within", [_told(f, rows) for f in out], MOST + 3,
              "Nothing that was judged is outside.", "findings"),
        group("For a person to look at", _unsure(unsure, rows), MOST - 1,
              "Nothing but notes, further on." if notes else "Nothing is suspect or undecided.", "findings"),
        Group("Within the limits on file", (_within(condition, within, out, unsure, waived),)),
        group("Not measured, not judged", list(_not_known(condition, causes)), MOST,
              "Nothing was left out on record.", "not-judged"),
        group("What will cost money, and when", costs, MOST,
              "No forecast can be made: too few readings, no wear seen, or no limit that could be applied.", "wear"),
        group("Restrictions in force", restrictions, MOST - 1, "None is on record.", "defects"),
    )  # fmt: skip


def _unsure(unsure: list[Finding], rows: dict[tuple[str, str, str], Row]) -> list[Item]:
    """What may be in the metal one by one; what is only in the writing is counted."""
    metal = sorted((f for f in unsure if f.severity is not Severity.DATA), key=_weight)
    written = [f for f in unsure if f.severity is Severity.DATA]
    records = len({f.place.path for f in written})
    words = f"Records that need a person, for how they were written or read: {len(written)} in {records} of them."
    return [*(_told(f, rows) for f in metal), *([Item(words, Verdict.SUSPECT)] if written else [])]


def _weight(finding: Finding) -> tuple[int, int, str]:
    return SEVERITY_ORDER[finding.severity], VERDICT_ORDER[finding.verdict], finding.subject


def _within(
    condition: EngineCondition, within: int, out: list[Finding], unsure: list[Finding], waived: list[Finding]
) -> Item:
    rows = [row for axle in condition.axles for row in axle.rows]
    if not rows and not within:
        return Item("Nothing was judged: silence is no pass.")
    judged = within + len(out) + len(unsure) + len(waived)
    also = f"; waived: {len(waived)}" if waived else ""
    return Item(
        f"{within} of {judged} things judged are within the limits on file. Outside: {len(out)}; "
        f"suspect or undecided: {len(unsure)}{also}.",
        Verdict.WITHIN if within else None,
    )


def _told(finding: Finding, rows: dict[tuple[str, str, str], Row]) -> Item:
    """A finding in one sentence: a row as read and compared, else the check's own words, cut."""
    severity = "" if finding.severity is Severity.DATA else f" ({finding.severity})"
    row = rows.get((finding.subject, finding.quantity, finding.where))
    if row is not None and row.limit:
        part = f", {row.part}" if row.part else ""
        words = f"{row.place}{part}: {row.title} {row.reading}; outside {row.out} ({row.clause})"
        return Item(f"{words}{severity}.", finding.verdict)
    return Item(f"{cut(sentence(finding.message))}{severity}", finding.verdict)


def cut(text: str) -> str:
    """A text of a few lines, cut at a word.

    >>> cut("a word " * 60)[-12:]
    'word a word…'
    """
    return text if len(text) <= LONGEST else f"{text[:LONGEST].rpartition(' ')[0]}…"


def _not_known(condition: EngineCondition, causes: list[Cause]) -> Iterable[Item]:
    bare = [axle.name for axle in condition.axles if axle.at and not axle.rows and not axle.unplaced]
    if bare:
        yield Item(f"Nothing was ever read on {', '.join(bare)}.", Verdict.NOT_ASSESSED)
    for left in condition.not_measured:
        yield Item(f"Not measured: {left.what}, {left.where or 'everywhere'}: {left.because}.", Verdict.NOT_ASSESSED)
    for cause in causes:
        weighty = cause.first.severity is not Severity.NOTE
        if weighty:
            yield Item(f"Not judged, {len(cause.findings)}: {_example(cause)}", Verdict.NOT_ASSESSED)
    notes = sum(len(cause.findings) for cause in causes if cause.first.severity is Severity.NOTE)
    if notes:
        yield Item(f"{notes} more things were read or looked for, and no limit on file judges them.",
                   Verdict.NOT_ASSESSED)  # fmt: skip


def _example(cause: Cause) -> str:
    """A cause; where it is only a few words, with the first thing it is said of."""
    if len(cause.cause) >= FEW:
        return cut(sentence(cause.cause))
    return cut(f"{cause.cause}; the first: {sentence(cause.first.message)}")
