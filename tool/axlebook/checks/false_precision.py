"""A value is written finer than its instrument can show.

What is judged: every value, against the division in its instrument's record. A value that is one of the instrument's
divisions is right however it is written: 53.375 in is 53 3/8 in. So is a decimal that rounds one: 0.94 in for 15/16 in.
So is what is written coarser than the instrument reads: 1/32 in with feelers of 0.0015 in. Another decimal with more
digits than the division has, or a finer fraction between two divisions, was estimated or comes from elsewhere.

What to do: write what the instrument shows. If a finer instrument was used, name that one.

Source: the resolution in the instrument's own record.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.quantities import Quantity
from axlebook.records.book import Book
from axlebook.records.reading import Measure

from ._instrument_values import Shows, told_apart, values_that
from ._records import title
from ._words import shown

ID = "false-precision"


def check(book: Book) -> Iterator[Finding]:
    """Tell every value that is finer than its instrument."""
    for reading, position, measure, can in values_that(book, _is_finer, lambda can: can.division is not None):
        division = can.division
        assert division is not None
        id = can.instrument.id
        yield Finding(
            ID,
            Verdict.SUSPECT,
            Severity.NOTE if reading.sure != "yes" else Severity.DATA,
            reading.named,
            reading.at.below("values", position),
            f"{reading.named}, {title(book, reading.quantity)}, {position}: {shown(measure.text)}. "
            f"{id} ({can.instrument.type}) reads to {shown(division.text)}.",
            (
                Figure(f"{reading.quantity} {position}", measure.text, measure.unit, reading.source.record),
                Figure("resolution", division.text, division.unit, id),
            ),
            f"resolution in the record of {id}",
            "Write what the instrument shows, or name the finer one that was used.",
            quantity=reading.quantity,
            where=told_apart(reading, position),
        )


def _is_finer(can: Shows, measure: Measure) -> bool:
    division = can.division
    if division is None or not isinstance(measure, Quantity) or division.exact <= 0:
        return False
    if measure.dimension != division.dimension:
        return False
    parts = measure.exact / division.exact
    off = abs(parts - round(parts)) * division.exact
    if measure.resolution is None:  # a fraction is as fine as the part of its unit that it is counted in
        return off != 0 and measure.exact / measure.number.numerator < division.exact
    return measure.resolution < division.exact and off > measure.resolution / 2
