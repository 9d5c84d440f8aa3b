"""A correction could not take effect.

What is judged: every correction made by the day the book is read at. It takes effect where the text at its place is,
letter for letter, what it says `was`; the record itself is never touched. Where something else stands there, or
nothing, or the record is signed and nobody approved the correction, the record counts as it stands. A correction is
for what was measured, seen or done: inspections, work on tires and wheels, service, defects. Of a limit set, a plan,
the ledger's own record, a waiver, another correction, or any other record it changes nothing. A record that is not on
file is told by unknown-reference.

What to do: copy `was` from the record as it is written, and `at` as the way to it: `/readings/0/values/120 deg` is the
value at 120 deg of the first reading, for counting begins at 0. Where a correction came before, `was` is what that
left. What is no reading and no work is changed where it stands, by who may; a correction that was wrong is put right by
another one of the same record.

Source: the correction and the record it names.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.corrections import CORRECTABLE, NO_RECORD, NOT_APPROVED, Correction

from ._corrections import place_of

ID = "correction-not-applied"


def check(book: Book) -> Iterator[Finding]:
    """Tell every correction that changed nothing."""
    for number, one in enumerate(book.corrections):
        if not one.failed or one.failed == NO_RECORD.format(one.record):
            continue
        unapproved = one.failed == NOT_APPROVED.format(one.record)
        other = one.kind not in CORRECTABLE
        before = _before(book.corrections[:number], one)
        after = f" {before} came before it." if before and not unapproved else ""
        yield Finding(
            ID,
            Verdict.SUSPECT,
            Severity.DATA,
            one.id,
            place_of(one, "record" if unapproved or other else "at"),
            f"{one.id} changes nothing in {one.record}: {one.failed}.{after} The record counts as it stands.",
            source=f"record {one.record}",
            next="Have it approved, and write `approved_by:`." if unapproved else
            _instead(one, book) if other else
            "Copy `was` from the record as it is written, and `at` as the way to it.",
            where=one.pointer,
        )  # fmt: skip


def _instead(one: Correction, book: Book) -> str:
    """What to do where the record is of a kind that no correction changes."""
    if one.kind == "correction":
        first = book.plain.get(one.record)
        of = fields.text(first.tree, "record") if first else "the record it names"
        return f"Write another correction of {of}: `was` is what {one.record} left there, `is` what is right."
    if one.kind == "limit-set":
        return "Write what the railway wants otherwise into a limit set of its own, and adopt it."
    if one.kind == "waiver":
        return f"Close {one.record} (`closed_on:`), and write another waiver that is right."
    return f"Change {one.record} itself where it is wrong, and take this correction away."


def _before(earlier: tuple[Correction, ...], one: Correction) -> str:
    """The last earlier correction of the same place that took effect."""
    same = [c.id for c in earlier if not c.failed and (c.record, c.pointer) == (one.record, one.pointer)]
    return same[-1] if same else ""
