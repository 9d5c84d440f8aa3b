"""A back-to-back stands out from those before and after it, in one hold and clock position.

What is judged: every earlier back-to-back against its neighbors in the same hold; the latest one is judged by
back-to-back-moved. A pair that moved and came back is hardly believable, one that moves is dangerous: until disproved
this is a moved tire.

What to do: look at the witness marks of both tires, and read the pair again in the same hold at the same marks.

Source: the other readings in this ledger; no published figure. How far off counts: `plausibility` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._slips import doubted

ID = "back-to-back-out-of-line"
CAUSE = "A pair does not change by itself and come back. Until disproved, a tire may have moved."
NEXT = "Look at the witness marks of both tires; read {named} again in the same hold, by a second person."


def check(book: Book) -> Iterator[Finding]:
    """Tell the readings whose likeliest slip is this one."""
    yield from doubted(book, ID, CAUSE, NEXT)
