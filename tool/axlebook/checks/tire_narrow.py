"""A tire is narrower, or wider, than a limit on file.

What is judged: the latest width of every tire or rim, by gauge and by whether the tire is flanged or plain, as the
limits in force ask.

What to do: measure again square across the tread, at four places; a rolled-out edge reads wide, a chamfer reads
narrow. If it stands, the tire was made for another gauge or another engine: look at its marks.

Source: the limit named in the finding. For the United States 49 CFR 230.112(e).
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged

ID = "tire-narrow"
QUANTITIES = ("tire_width",)
NEXT = "Re-measure square across the tread at four places."


def check(book: Book) -> Iterator[Finding]:
    """Judge the width of every tire."""
    return judged(book, ID, QUANTITIES, NEXT)
