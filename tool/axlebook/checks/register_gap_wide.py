"""A tire is not home at its register.

What is judged: the latest feeler readings at the register of every tire now on a wheel, by the limits on
`register_gap`. A feeler that does not enter is an interval from nothing to its thickness. Without a limit on file the
reading is kept and not assessed.

What to do: clean the corner and feel again, cold, on both sides of the place. A gap that stands means that the tire
stopped before it was home or drew off while cooling: hold back-to-back there against the other places.

Source: the limit named in the finding, as adopted by the railway; no published figure was found.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged

ID = "register-gap-wide"
QUANTITIES = ("register_gap",)
NEXT = "Clean the corner and feel again, cold; hold back-to-back there against the other places."


def check(book: Book) -> Iterator[Finding]:
    """Judge every gap felt at a register."""
    return judged(book, ID, QUANTITIES, NEXT)
