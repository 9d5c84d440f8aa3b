"""A value lies outside what the instrument can show.

What is judged: every value, against the range in its instrument's record; an interval only where all of it lies
outside. Exactly on the end of the range is inside.

What to do: look at the sheet. Most likely it is the wrong instrument, or a digit too many. If the instrument reaches
further, put its record right.

Source: the range in the instrument's own record.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.reading import Measure

from ._instrument_values import Shows, bounds_of, told_apart, values_that
from ._records import title
from ._words import shown

ID = "instrument-out-of-range"


def check(book: Book) -> Iterator[Finding]:
    """Tell every value that its instrument cannot show."""
    for reading, position, measure, can in values_that(book, _is_outside, _has_range):
        id = can.instrument.id
        yield Finding(
            ID,
            Verdict.SUSPECT,
            Severity.DATA,
            reading.named,
            reading.value_at(position),
            f"{reading.named}, {title(book, reading.quantity)}, {position}: {shown(measure.text)}. "
            f"{id} ({can.instrument.type}) shows {_span(can)}.",
            (
                Figure(f"{reading.quantity} {position}", measure.text, measure.unit, reading.source.record),
                *(Figure(f"range {word}", end.text, end.unit, id) for word, end in _ends(can)),
            ),
            f"range in the record of {id}",
            "Look at the sheet: another instrument, or a digit too many? Measure again.",
            quantity=reading.quantity,
            where=told_apart(reading, position),
        )


def _span(can: Shows) -> str:
    words = {"at_least": "not less than", "at_most": "not more than"}
    return " and ".join(f"{words[word]} {shown(end.text)}" for word, end in _ends(can))


def _has_range(can: Shows) -> bool:
    return can.least is not None or can.most is not None


def _ends(can: Shows) -> list[tuple[str, Measure]]:
    return [(word, end) for word, end in (("at_least", can.least), ("at_most", can.most)) if end is not None]


def _is_outside(can: Shows, measure: Measure) -> bool:
    low, high = bounds_of(measure)
    least, most = can.least, can.most
    if any(end.dimension != measure.dimension for _, end in _ends(can)):
        return False
    return (least is not None and high is not None and high < least.exact) or (
        most is not None and low is not None and low > most.exact
    )
