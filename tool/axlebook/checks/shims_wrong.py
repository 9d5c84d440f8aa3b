"""The shims under a tire are more, or lie otherwise, than a limit on file allows.

What is judged: the thicknesses of shim under each tire now fitted, whether one of them lies all round, and whether
any lap, as the record of the tire's fitting tells or as it was seen since; and the filling blocks of divided rims.
Where the record says `unknown`, it is not assessed.

What to do: look with a feeler at the edge of the seat, and correct the record if it is wrong. A tire that needs more
shim than is allowed was bored for another center.

Source: the limit named in the finding. For the United States 49 CFR 230.114(a).
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged, judged_seen

ID = "shims-wrong"
QUANTITIES = ("shim_thicknesses",)
OBSERVATIONS = ("no_shim_all_round", "shims_lap", "filling_block_missing")
NEXT = "Look at the edge of the seat; the cure is a tire bored for this center."


def check(book: Book) -> Iterator[Finding]:
    """Judge the shims under every tire."""
    yield from judged_seen(book, ID, OBSERVATIONS, NEXT)
    yield from judged(book, ID, QUANTITIES, NEXT)
