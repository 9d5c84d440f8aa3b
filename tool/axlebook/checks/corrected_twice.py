"""One place of a record is corrected more than once.

What is judged: corrections that took effect, by record and place. That a second correction fits what the first left is
no fault; but of two, one was wrong, and who reads the record ought to know. The last one counts. A correction that
puts back what stood there first is told as that.

What to do: read both reasons, and the part itself if it can still be read. Nothing need be written.

Source: the corrections.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.corrections import Correction

from ._corrections import place_of

ID = "corrected-twice"


def check(book: Book) -> Iterator[Finding]:
    """Tell every place that was corrected again."""
    first: dict[tuple[str, str], Correction] = {}
    for one in book.corrections:
        if one.failed or one.withdraws:
            continue
        earlier = first.setdefault((one.record, one.pointer), one)
        if earlier is not one:
            back = " That is what stood there first." if one.now == earlier.was else ""
            yield Finding(
                ID,
                Verdict.SUSPECT,
                Severity.NOTE,
                one.record,
                place_of(one, "at"),
                f"{one.record}: {one.pointer} is corrected on {earlier.day} by {earlier.id} and on {one.day} by "
                f"{one.id}. `{one.now}` counts.{back}",
                source=f"corrections {earlier.id} and {one.id}",
                next="Read both reasons, and the part again if it is there to be read.",
                where=one.pointer,
            )
