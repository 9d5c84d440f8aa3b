"""A correction could not take effect.

What is judged: every correction made by the day the book is read at. It takes effect where the text at its place is,
letter for letter, what it says `was`; the record itself is never touched. Where something else stands there, or
nothing, or the record is signed and nobody approved the correction, the record counts as it stands. A record that is
not on file is told by unknown-reference.

What to do: copy `was` from the record as it is written, and `at` as the way to it: `/readings/0/values/120 deg` is the
value at 120 deg of the first reading, for counting begins at 0. Where a correction came before, `was` is what that
left.

Source: the correction and the record it names.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.corrections import NO_RECORD, NOT_APPROVED, Correction

from ._corrections import place_of

ID = "correction-not-applied"


def check(book: Book) -> Iterator[Finding]:
    """Tell every correction that changed nothing."""
    for number, one in enumerate(book.corrections):
        if not one.failed or one.failed == NO_RECORD.format(one.record):
            continue
        unapproved = one.failed == NOT_APPROVED.format(one.record)
        before = _before(book.corrections[:number], one)
        after = f" {before} came before it." if before and not unapproved else ""
        yield Finding(
            ID,
            Verdict.SUSPECT,
            Severity.DATA,
            one.id,
            place_of(one, "record" if unapproved else "at"),
            f"{one.id} changes nothing in {one.record}: {one.failed}.{after} The record counts as it stands.",
            source=f"record {one.record}",
            next="Have it approved, and write `approved_by:`." if unapproved else
            "Copy `was` from the record as it is written, and `at` as the way to it.",
            where=one.pointer,
        )  # fmt: skip


def _before(earlier: tuple[Correction, ...], one: Correction) -> str:
    """The last earlier correction of the same place that took effect."""
    same = [c.id for c in earlier if not c.failed and (c.record, c.pointer) == (one.record, one.pointer)]
    return same[-1] if same else ""
