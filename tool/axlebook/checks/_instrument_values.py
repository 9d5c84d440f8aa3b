"""Values against what their instrument can show: its range and its division, each text compared once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import NamedTuple

from axlebook.quantities import Quantity
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.instrument import Instrument
from axlebook.records.reading import Measure, Reading

from ._records import every_reading


class Shows(NamedTuple):
    """What an instrument can show: bounds and division, as measures with their dimension."""

    instrument: Instrument
    least: Quantity | None
    most: Quantity | None
    division: Quantity | None

    @property
    def texts(self) -> tuple[str, ...]:
        """Bounds and division as written."""
        return tuple(one.text if one else "" for one in (self.least, self.most, self.division))


def shows(instrument: Instrument) -> Shows:
    """What the record of an instrument says that it can show."""
    bounds = fields.inner(instrument.tree, "range")
    least, most = fields.quantity(bounds, "at_least"), fields.quantity(bounds, "at_most")
    return Shows(instrument, least, most, fields.quantity(instrument.tree, "resolution"))


def values_that(
    book: Book, fails: Callable[[Shows, Measure], bool], asked: Callable[[Shows], bool]
) -> Iterator[tuple[Reading, str, Measure, Shows]]:
    """Every value that its instrument cannot have shown; a text with instruments that show alike is compared once."""
    alike: dict[tuple[str, ...], dict[str, bool]] = {}
    wrong: dict[str, tuple[Shows, set[str]]] = {}
    for id, texts in _written(book).items():
        if id in book.instruments and asked(shown := shows(book.instruments[id])):
            judged = alike.setdefault(shown.texts, {})
            for text, measure in texts.items():
                if text not in judged:
                    judged[text] = fails(shown, measure)
            if found := {text for text in texts if judged[text]}:
                wrong[id] = (shown, found)
    for reading in every_reading(book) if wrong else ():
        if reading.instrument not in wrong:
            continue
        shown, failed = wrong[reading.instrument]
        for position, measures in reading.values:
            for measure in measures:
                if measure.text in failed:
                    yield reading, position, measure, shown
                    break  # of repeats side by side the first stands for all


def _written(book: Book) -> dict[str, dict[str, Measure]]:
    """Every text that was read with each instrument, gathered once a run."""
    found: dict[str, dict[str, Measure]] | None = book.__dict__.get("_written_with")
    if found is None:
        found = book.__dict__["_written_with"] = defaultdict(dict)
        for reading in every_reading(book):
            texts = found[reading.instrument]
            for _, measures in reading.values:
                for measure in measures:
                    texts[measure.text] = measure
    return found


def told_apart(reading: Reading, position: str) -> str:
    """The position, with what tells two readings of one thing in one record apart."""
    reader = " ".join(reading.by) if "by" in reading.tree else ""
    return " ".join(filter(None, (position, reading.where, reading.when, reading.tree.get("hold"), reader)))


def bounds_of(measure: Measure) -> tuple[Fraction | None, Fraction | None]:
    """Lowest and highest that a measure can be."""
    if isinstance(measure, Quantity):
        return measure.exact, measure.exact
    return measure.low_exact, measure.high_exact
