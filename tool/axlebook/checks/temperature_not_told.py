"""A reading that decides a fit does not say at what temperature the part was.

What is judged: every reading of a quantity that must be taken to 68 degF: bore, center, register distance, hub. At
44 in, 30 degF change a steel ring by .009 in: more than the tolerance of a shrink fit. A missing temperature is never
taken to be 68 degF.

What to do: add `part_temperature` (and `instrument_temperature`) to the reading or to `setup`. If nobody wrote it down,
measure again, with the part and the instrument in one room since the day before.

Source: ISO 1 (reference temperature); the vocabulary says which quantities need it.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import SEVERITY_ORDER, Finding, Severity
from axlebook.limits import STAGE_SEVERITY
from axlebook.records.book import Book

from ._records import every_reading, not_told, setup_of

ID = "temperature-not-told"
CAUSE = "the temperature of the part is not written"


def check(book: Book) -> Iterator[Finding]:
    """Tell every record with readings that cannot be taken to the reference temperature."""
    needing = {name for name, word in book.vocabulary.quantities.items() if word.needs_temperature}
    lacking = (r for r in every_reading(book) if not r.part_temperature and r.quantity in needing)
    next = "Add `part_temperature`; if nobody wrote it down, measure again."
    return not_told(book, ID, lacking, CAUSE, next, _severity_of_fits(book), once=setup_of)


def _severity_of_fits(book: Book) -> Severity:
    """How heavy the fit is that cannot be judged, by the practices and limits in force; shop where none is."""
    found = [
        STAGE_SEVERITY[practice.stage]
        for limit_set in book.limits_for(None)
        for practice in limit_set.practices
        if practice.quantity.endswith("interference")
    ]
    return min([*found, Severity.SHOP], key=SEVERITY_ORDER.__getitem__)
