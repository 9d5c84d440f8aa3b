"""A seam runs lengthwise in the tread too near the flange.

What is judged: each seam seen on the last day that the tread was looked at, by its distance from the flange. A seam
seen and not measured is not assessed.

What to do: measure from the flange to the nearest point of the seam; look with dye how far it runs.

Source: the limit named in the finding. For the United States 49 CFR 230.113(f).
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged_seen

ID = "seam-near-flange"
OBSERVATIONS = ("seam",)
NEXT = "Measure from the flange to the nearest point of the seam."


def check(book: Book) -> Iterator[Finding]:
    """Judge the seams seen in every tread."""
    return judged_seen(book, ID, OBSERVATIONS, NEXT)
