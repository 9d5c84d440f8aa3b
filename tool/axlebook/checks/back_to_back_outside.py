"""Back-to-back of a pair lies outside a limit on file.

What is judged: every back-to-back reading of the last day on which a pair was measured, since the last tire or wheel
was changed on it. Under standard gauge the reading itself is compared; where a limit is counted from the track gauge
(narrow gauge), the track gauge less the reading is. For broad gauge the published United States set has no limit:
then the reading is not assessed, once.

What to do: measure again at the same marked points, with the same clock position and the same hold. An engine's
weight opens a pair with inside journals and closes one with outside journals, so a reading on the rail and one on
blocks are not the same reading. If it stands, the pair is outside: a tire has moved on its center or a wheel on its
axle. Look at witness marks and register before anything is pressed.

Source: the limit named in the finding. For the United States 49 CFR 230.112(b), for Germany EBO Anlage 6.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged

ID = "back-to-back-outside"
QUANTITIES = ("back_to_back", "track_gauge_less_back_to_back")
NEXT = "Re-measure at the same points, in the same hold and clock position."


def check(book: Book) -> Iterator[Finding]:
    """Judge back-to-back of every pair."""
    return judged(book, ID, QUANTITIES, NEXT)
