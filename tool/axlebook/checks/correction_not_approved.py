"""A correction of a signed record is approved by somebody who may not.

What is judged: who approved each correction that took effect, against the people on record and their days, and against
`approvers` in `ledger.yaml` where the ledger names who may. A signed record was vouched for; putting it right needs
somebody who may vouch for that. The correction counts meanwhile: the finding says by whose word. One that nobody
approved at all changes nothing, and is told as that.

What to do: have it approved by somebody who may, and write `approved_by:`.

Source: the people on record; `approvers` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records import fields
from axlebook.records.approval import approval
from axlebook.records.book import Book
from axlebook.records.dates import parse_day

from ._corrections import place_of

ID = "correction-not-approved"


def check(book: Book) -> Iterator[Finding]:
    """Tell every approval of a correction that does not hold."""
    people = {person.id for person in book.of_kind("person")}
    for one in book.corrections:
        record = book.plain.get(one.id)
        by = fields.text(record.tree, "approved_by") if record else ""
        if one.failed or by not in people:  # an id that is nobody's is told by unknown-reference
            continue
        found = approval(book, by, parse_day(one.day))
        if found.fault:
            yield Finding(
                ID,
                Verdict.SUSPECT,
                Severity.DATA,
                one.id,
                place_of(one, "approved_by"),
                f"{one.id} corrects {one.record}: {found.fault}.",
                source="the people on record and `approvers` in ledger.yaml",
                next="Have it approved by somebody who may.",
            )
