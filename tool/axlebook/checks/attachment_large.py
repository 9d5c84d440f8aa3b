"""An attachment is larger than the railway wants its photos to be.

What is judged: the size of every cited attachment, by `photo_budget` in `ledger.yaml`, in kB of 1000 bytes; as large as
that is not too large. Git keeps every version of every file for ever, and each clone carries them all. A certificate
that is larger is no fault, so this is a note.

What to do: save the photo smaller before it is committed: a crack is seen at a few hundred kB. Once a record cites
it, leave it: a smaller file is another file.

Source: `photo_budget` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.records import fields
from axlebook.records.book import Book

ID = "attachment-large"
_KB = 1000


def check(book: Book) -> Iterator[Finding]:
    """Tell every cited attachment that is over the budget."""
    budget = fields.number(book.ledger.tree, "photo_budget")
    for cited in book.cited if budget is not None else ():
        there = book.attached.get(cited.file) if book.attached is not None else None
        if there is None or budget is None or there.size <= budget * _KB:
            continue
        yield Finding(
            ID,
            Verdict.SUSPECT,
            Severity.NOTE,
            cited.record,
            cited.place.below("file"),
            f"attachments/{cited.file} has {there.size / _KB:.1f} kB; the ledger asks for at most {budget} kB.",
            figures=(Figure("size", str(there.size), "byte", "computed"),
                     Figure("photo_budget", fields.text(book.ledger.tree, "photo_budget"), "kB", "ledger.yaml")),
            source="photo_budget in ledger.yaml",
            next="Save the next photos smaller before they are committed; leave this one if a record cites it.",
            where=cited.file,
        )  # fmt: skip
