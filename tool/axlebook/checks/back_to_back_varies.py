"""Back-to-back of a pair varies round the axle by more than a limit on file.

What is judged: the largest less the smallest reading of one pair, taken by one reader with one instrument in one
hold and clock position, at two or more marked points. Readings of different holds are never mixed: the load alone
moves the wheels. With one point only, the variation is not assessed.

What to do: mark three equally spaced points on the flange backs, roll the pair so that each comes to the same clock
position, and measure again. If it stands, the axle is bent, or a tire does not sit against its register all round:
feel the register with feelers, then run the axle between centers.

Source: the limit named in the finding. For the United States 49 CFR 230.112(c).
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged

ID = "back-to-back-varies"
QUANTITIES = ("back_to_back_variation",)
NEXT = "Re-measure at three marked points in one hold; then feel the register all round."


def check(book: Book) -> Iterator[Finding]:
    """Judge the variation of back-to-back of every pair."""
    return judged(book, ID, QUANTITIES, NEXT)
