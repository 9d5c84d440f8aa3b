"""A value is written finer than its instrument can show.

What is judged: every value, against the division in its instrument's record. A value that is one of the instrument's
divisions is right however it is written: 53.375 in is 53 3/8 in. So is a decimal that rounds one: 0.94 in for 15/16 in.
So is what is written coarser than the instrument reads: 1/32 in with feelers of 0.0015 in. Another decimal with more
digits than the division has, or a finer fraction between two divisions, was estimated or comes from elsewhere.
Several such values of one record and one instrument are told together, with the place of the first.

What to do: write what the instrument shows. If a finer instrument was used, name that one. If it is divided finer than
its record says, put that right.

Source: the resolution in the instrument's own record.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.quantities import Quantity
from axlebook.records.book import Book
from axlebook.records.reading import Measure, Reading

from ._instrument_values import Shows, told_apart, values_that
from ._records import title
from ._words import shown

ID = "false-precision"


class Finer(NamedTuple):
    """A value that is finer than its instrument."""

    reading: Reading
    position: str
    measure: Measure
    can: Shows

    def figure(self, name: str) -> Figure:
        """The value as a figure."""
        return Figure(name, self.measure.text, self.measure.unit, self.reading.source.record)


def check(book: Book) -> Iterator[Finding]:
    """Tell every value that is finer than its instrument; several of one record and instrument together."""
    found: dict[tuple[str, str, Severity], list[Finer]] = {}
    for reading, position, measure, can in values_that(book, _is_finer, lambda can: can.division is not None):
        severity = Severity.NOTE if reading.sure != "yes" else Severity.DATA
        key = reading.source.record, reading.instrument, severity
        found.setdefault(key, []).append(Finer(reading, position, measure, can))
    for (_, _, severity), many in found.items():
        yield _finding(book, many, severity)


def _finding(book: Book, many: list[Finer], severity: Severity) -> Finding:
    reading, position, measure, can = many[0]
    division, instrument = can.division, can.instrument
    assert division is not None
    named, reads_to = f"{instrument.id} ({instrument.type})", shown(division.text)
    if len(many) == 1:
        subject, quantity, where = reading.named, reading.quantity, told_apart(reading, position)
        message = f"{subject}, {title(book, quantity)}, {position}: {shown(measure.text)}. {named} reads to {reads_to}."
        names = [f"{quantity} {position}"]
    else:
        subject, quantity, where = f"{reading.source.record} {instrument.id}", "", instrument.id
        message = (
            f"{reading.source.record}: {len(many)} values are finer than {named} reads, to {reads_to}: "
            f"{_which(book, many)}; the first: {shown(measure.text)}."
        )
        names = [f"{one.reading.named} {one.reading.quantity} {one.position}" for one in many]
    figures = (one.figure(name) for one, name in zip(many, names, strict=True))
    return Finding(
        ID,
        Verdict.SUSPECT,
        severity,
        subject,
        reading.value_at(position),
        message,
        (*figures, Figure("resolution", division.text, division.unit, instrument.id)),
        f"resolution in the record of {instrument.id}",
        "Write what the instrument shows, or name the finer one that was used; if its record is wrong, put right its "
        "`resolution`.",
        quantity=quantity,
        where=where,
    )


def _which(book: Book, many: list[Finer]) -> str:
    """Every place by quantity, with how many values there are of it: all positions would be a page."""
    places: dict[str, Counter[str]] = {}
    for reading in (one.reading for one in many):
        places.setdefault(title(book, reading.quantity), Counter())[reading.place or reading.named] += 1
    told = ((what, (f"{at} ({n})" if n > 1 else at for at, n in there.items())) for what, there in places.items())
    return "; ".join(f"{what} of {', '.join(names)}" for what, names in told)


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
