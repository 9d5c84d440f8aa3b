"""Something was seen that a limit on file does not allow, or that no limit on file speaks of.

What is judged: everything that can be looked for and that no other check judges by name: welds on wheels, loose
centers, broken fastenings, bent axles, cut journals, seams, loose crank pins, broken springs and the like. Seen is
outside where a limit says so; where the limit names a size (how far a discoloration reaches), the size decides. Seen
where no limit on file speaks of it is told as a thing to watch. `not seen` is within; `unknown` is not assessed. A
weld stays: a wheel on which one was seen is a welded wheel, though a later look does not see it.

What to do: have a qualified person look, and write what was found as a defect with its disposition.

Source: the limit named in the finding.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._claims import left_observations
from ._findings import judged_seen

ID = "seen-condemned"


def check(book: Book) -> Iterator[Finding]:
    """Judge everything looked for that no other check judges."""
    return judged_seen(book, ID, left_observations(book), "Have a qualified person look before the engine runs.")
