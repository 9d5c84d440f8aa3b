"""A crack or break was seen in a wheel or an axle.

What is judged: what was seen on the last day that it was looked for. `not seen` is within; `unknown` is not assessed.
What an open defect is of stays seen: one look that does not find a crack does not close it. Where no limit on file
speaks of it, a crack seen is still told, for a person to look at.

What to do: stop the engine. Have the place examined with dye or magnets by a qualified person, and enter that as an
examination with its method and standard.

Source: the limit named in the finding. For the United States 49 CFR 230.113(a).
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._findings import judged_seen

ID = "crack-seen"
OBSERVATIONS = ("crack", "axle_crack")
NEXT = "Stop the engine; a qualified person examines the place."


def check(book: Book) -> Iterator[Finding]:
    """Judge the cracks seen in wheels and axles."""
    return judged_seen(book, ID, OBSERVATIONS, NEXT)
