"""A flat or a shelled-out spot is as long as a limit on file, or two of them adjoin, or they are too many.

What is judged: what was looked for on the last day that a wheel was looked at: each spot by its length, two adjoining
spots by the shorter of them, and spots so numerous as to endanger. Two spots on one wheel are taken as adjoining
unless the record says that one is not (`adjoining: no`). A spot seen and not measured is not assessed, with the
missing length named. Turning the tread closes it.

What to do: measure the spot along the tread again and mark its ends. If it stands, the wheel is outside; a slid wheel
also asks for a look at the brake that held it.

Source: the limit named in the finding. For the United States 49 CFR 230.113(b) and (e).
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged, judged_seen

ID = "flat-or-shelled"
QUANTITIES = ("shorter_of_adjoining_flats", "shorter_of_adjoining_shelled_spots")
OBSERVATIONS = ("flat", "shelled_spot", "numerous_shelled_spots")
NEXT = "Measure the spot along the tread again; look at the brake that held the wheel."
NEXT_PAIR = "Measure both spots again; where they do not adjoin, write `adjoining: no` beside one."


def check(book: Book) -> Iterator[Finding]:
    """Judge flats and shelled-out spots of every wheel."""
    yield from judged_seen(book, ID, OBSERVATIONS, NEXT)
    yield from judged(book, ID, QUANTITIES, NEXT_PAIR)
