"""A record does not say with which instrument something was measured.

What is judged: every reading of every record but those that are counted, such as broken leaves. The instrument decides
how far a reading can be trusted, in which plane it was taken and whether it was in calibration; a list of instruments
used that day does not say which of them gave this figure.

What to do: add `with:` and the instrument's id. An instrument that has no record yet needs one: `axlebook new
instrument ID`. For an old card this is only a note.

Source: the rules of the ledger: who, when, with what, at what temperature.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding
from axlebook.records.book import Book

from ._records import every_reading, not_told

ID = "instrument-not-told"
CAUSE = "the instrument is not named"


def check(book: Book) -> Iterator[Finding]:
    """Tell every record with readings that name no instrument."""
    counts = {name for name, word in book.vocabulary.quantities.items() if word.dimension == "count"}
    lacking = (r for r in every_reading(book) if not r.instrument and r.quantity not in counts)
    return not_told(book, ID, lacking, CAUSE, "Add `with:` and the instrument's id to each of these readings.")
