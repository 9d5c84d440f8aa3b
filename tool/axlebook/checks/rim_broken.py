"""A rim is broken round its circumference, and too little tread is left beside the break.

What is judged: the width of tread left from the flange to the break, by the limits in force, whether written with the
break that was seen or as a reading of its own.

What to do: take the wheel out of service until a qualified person has looked; a break of this kind grows.

Source: the limit named in the finding. For the United States 49 CFR 230.113(d).
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged, judged_seen

ID = "rim-broken"
QUANTITIES = ("tread_width",)
OBSERVATIONS = ("broken_rim",)
NEXT = "Stop the engine; a qualified person looks at the break."


def check(book: Book) -> Iterator[Finding]:
    """Judge rims broken round their circumference."""
    yield from judged_seen(book, ID, OBSERVATIONS, NEXT)
    yield from judged(book, ID, QUANTITIES, NEXT)
