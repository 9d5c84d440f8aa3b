"""A reading says that there is more metal than before, and nothing on record added any.

What is judged: every thickness, diameter and depth that wear can only lower, or that only grows as metal goes, against
the earlier and later readings of the same place. Wear never adds metal. Only a turning, a new tire or a renewed part
begins anew, and those stand in records of their own. Where nothing was read before, what the part was when new speaks:
the original journal diameter, the thickness and width of the tire, the diameter of a one-piece wheel, as its record has
them. Such a reading lets no limit pass.

What to do: measure the same place again, then the opposite wheel: most likely this is another wheel's figure, or a
fraction misread. Of a size as new, look at the stamp or the drawing too. If it stands and was taken again, say so in
`reason_kept`; if work was done, write its record.

Source: the other readings in this ledger; no published figure. How far off counts: `plausibility` in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._slips import doubted
from ._too_large import larger

ID = "metal-added"
CAUSE = "No turning and no new part is on record since, and wear adds no metal. Most likely a misread figure."
NEXT = "Measure {named} again {at}, then the opposite wheel at the same place."

AS_NEW = "Measure {named} again; then look up that size again where it stands on the part or the drawing."


def check(book: Book) -> Iterator[Finding]:
    """Tell the readings whose likeliest slip is this one."""
    yield from doubted(book, ID, CAUSE, NEXT)
    yield from larger(book, ID, AS_NEW)
