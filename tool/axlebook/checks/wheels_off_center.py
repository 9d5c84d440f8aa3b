"""A pair stands off the middle of its axle by more than a limit on file.

What is judged: half the difference between the two distances from flange back to journal shoulder, each the mean of
its positions. One side alone gives nothing: it is not assessed. No published limit was found; the railway adopts its
own.

What to do: measure both sides again from the same kind of shoulder. If it stands, look whether a wheel has moved on
its axle (witness mark, bright ring at the hub) before the pair is called badly pressed.

Source: the limit named in the finding, as adopted by the railway.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged

ID = "wheels-off-center"
QUANTITIES = ("centrality", "flange_back_to_shoulder")
NEXT = "Re-measure both sides from the journal shoulders."


def check(book: Book) -> Iterator[Finding]:
    """Judge how central every pair stands."""
    return judged(book, ID, QUANTITIES, NEXT)
