"""A flange is chipped by more than a limit on file.

What is judged: each chip seen on the last day that the flange was looked at, by its length and its width together: a
long narrow chip is not outside where a limit asks for both. With one of the two not written, it is not assessed,
unless the other alone keeps it within.

What to do: measure length and width of the chip, and look for a crack at its ends.

Source: the limit named in the finding. For the United States 49 CFR 230.113(c).
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged_seen

ID = "flange-chipped"
OBSERVATIONS = ("flange_chip",)
NEXT = "Measure length and width again; look for a crack at the ends of the chip."


def check(book: Book) -> Iterator[Finding]:
    """Judge the chips seen in every flange."""
    return judged_seen(book, ID, OBSERVATIONS, NEXT)
