"""A waiver has run out.

What is judged: every waiver that was in force and whose last day, `expires_on`, is past. The finding it named is no
longer waived: it counts again, as it did before. Where that finding is still there, the expiry is outside; where it is
gone, it is a note, until somebody closes the waiver. A waiver of a check that is not known never named anything, so
nothing can be said of its finding: `waiver-check-unknown` tells it.

What to do: put right what was waived. Or have it looked at anew, and write a new waiver with its own reason and
approval; an old one is never made longer. Where the finding is gone, write `closed_on:` into the waiver.

Source: the waiver, `expires_on`.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.waiver import waivers

from ._waiving import nameable, named_by

ID = "waiver-expired"


def check(book: Book) -> Iterator[Finding]:
    """Tell every waiver that has run out."""
    for waiver in waivers(book):
        if not waiver.expired(book.as_of) or not nameable(waiver):
            continue
        named = named_by(book, waiver)
        still = f"It named {waiver.check} of {waiver.subject}, which "
        still += "is still there and counts again." if named else "is not found any more."
        yield Finding(
            ID,
            Verdict.OUTSIDE,
            Severity.SHOP if named else Severity.NOTE,
            waiver.id,
            waiver.place.below("expires_on"),
            f"The waiver {waiver.id} ran out on {waiver.expires_on}. {still}",
            (Figure("expires_on", str(waiver.expires_on), "", waiver.id),),
            f"waiver {waiver.id}",
            "Put it right, or have it approved anew in a waiver of its own."
            if named
            else "Write `closed_on:` into the waiver.",
        )
