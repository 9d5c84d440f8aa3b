"""A measured quantity passes a limit on file.

What is judged: every quantity of the vocabulary that no other check judges by name, wherever it was read: on a wheel,
a wheelset, or at a place of the engine (crosshead, rods, side bearings, piston travel, drawbar, pilot). A railway
that measures something new needs a line of vocabulary and a limit record, no new check. What was read and has no
limit on file is not assessed, with the reason.

What to do: measure again at the same place, then act by the clause that the finding names.

Source: the limit named in the finding.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._claims import left_quantities
from ._findings import judged

ID = "limit-passed"


def check(book: Book) -> Iterator[Finding]:
    """Judge every quantity that no other check judges."""
    return judged(book, ID, left_quantities(book), "Re-measure at the same place.")
