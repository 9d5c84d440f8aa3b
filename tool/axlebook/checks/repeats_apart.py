"""Repeats of one reading differ by more than the instrument allows.

What is judged: the values that one reading gives for one place, one after the other, against the uncertainty in the
record of the instrument. Their mean is what every limit and trend is held against; a mean of 1 1/4 in and 1 1/2 in is
a size that nobody read. Where the instrument is not told, or its record has no figure, nothing is held against it.

What to do: read the place once more. If one of them was misread, say by a correction what it is; if they stand, say in
`reason_kept` what differs there.

Source: the record of the instrument; no published figure. How far off counts: `plausibility` in ledger.yaml.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.quantities import Quantity
from axlebook.records.book import Book
from axlebook.records.instruments import resolution, standard_variance
from axlebook.records.plausibility import practice_of
from axlebook.records.reading import DOUBTFUL, Measure, Reading

from ._records import title
from ._words import figured

ID = "repeats-apart"
SOURCE = "the record of the instrument; how far off counts: `plausibility` in ledger.yaml"
NEXT = "Read {named} once more at that place; correct the one that was misread."


def check(book: Book) -> Iterator[Finding]:
    """Tell every place at which the repeats of a reading are too far apart."""
    for reading in book.readings:
        for position, measures in reading.values:
            if len(measures) == 1:
                continue  # most are read once
            apart = _spread(measures)
            allowed = _allowed(book, reading) if apart and "reason_kept" not in reading.tree else None
            if allowed is not None and apart > allowed:
                yield _finding(book, reading, position, measures, apart, allowed)


def _spread(measures: tuple[Measure, ...]) -> Fraction:
    known = [m.exact for m in measures if isinstance(m, Quantity)]
    return max(known) - min(known) if len(known) > 1 else Fraction(0)


def _allowed(book: Book, reading: Reading) -> Fraction | None:
    """What two readings of one place may differ by: as of two people, and a division; None where nothing says."""
    variance, division = standard_variance(book, reading), resolution(book, reading) or Fraction(0)
    if not variance:
        return None
    return Fraction(practice_of(book).second * math.sqrt(2 * variance)) + division


def _finding(
    book: Book, reading: Reading, position: str, measures: tuple[Measure, ...], apart: Fraction, allowed: Fraction
) -> Finding:
    dimension = book.vocabulary.quantities[reading.quantity].dimension
    mm = book.in_mm(book.engines.get(reading.source.engine))
    figures = tuple(Figure(f"{reading.quantity} {position}", m.text, m.unit, reading.source.record) for m in measures)
    return Finding(
        ID,
        Verdict.SUSPECT,
        Severity.NOTE if reading.sure in DOUBTFUL else Severity.DATA,
        reading.named,
        reading.value_at(position),
        f"{reading.named}, {title(book, reading.quantity)}, {position}: {' and '.join(m.text for m in measures)}, "
        f"{figured(apart, dimension, mm)} apart. Two readings with {reading.instrument or 'the instrument'} may differ "
        f"by {figured(Fraction(round(allowed * 10**6), 10**6), dimension, mm)}. What is judged is their mean.",
        figures,
        SOURCE,
        NEXT.format(named=reading.named),
        reading.quantity,
        position,
    )
