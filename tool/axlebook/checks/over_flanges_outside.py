"""The distance over the two active flange faces lies outside a limit on file, or leaves wrong play in the track.

What is judged: back-to-back and both flange thicknesses together, the smallest and the largest sum that the last
readings allow, each flange read in the one plane that the limit names; or the same distance measured whole. Each part
can be within its own limit while the sum is not: two thick flanges on a wide pair climb, two thin ones on a narrow
pair wander. The flange thicknesses of both wheels must be read in one plane, else the sum is not assessed.

What to do: re-measure the part that is nearest to its own limit. If it stands, the cure is in the lathe (flanges) or
on the register (back-to-back), never in both at once.

Source: the limit named in the finding. For Germany EBO Anlage 6, for Austria EisbBBV Anlage 2.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged

ID = "over-flanges-outside"
QUANTITIES = ("over_flanges", "over_flanges_measured", "track_gauge_less_over_flanges")
NEXT = "Re-measure back-to-back and both flanges in the plane named."


def check(book: Book) -> Iterator[Finding]:
    """Judge the distance over flanges of every pair."""
    return judged(book, ID, QUANTITIES, NEXT)
