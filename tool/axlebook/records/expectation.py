"""What a reading to be taken now should come to, and the last one there: what a sheet or a prompt shows beforehand.

The range is that beyond which the book would ask about the reading: the same lines, noise and figures that doubt one
once it is there. Nothing is expected where the part was worked on since, or was never read that way.
"""

from __future__ import annotations

import math
from collections.abc import Hashable
from dataclasses import replace
from datetime import date
from fractions import Fraction
from typing import NamedTuple

from axlebook.quantities import UNITS, Quantity, render_fraction
from axlebook.trends.expected import Line, expect
from axlebook.trends.series import Dated

from .book import Book, Thing
from .condition import BEFORE_WORK, done_before
from .doubts import EXPANDED, doubts
from .fit import TIRE_STEEL, expansion_of
from .instruments import resolution
from .lines import OFF_THE_WHEEL, History, history_of
from .offs import UNEVEN
from .plausibility import practice_of
from .reading import Reading
from .session import Session
from .timeline import HELD, works_on

INCH = Fraction("0.0254")
FINEST_FRACTION = 64


class Last(NamedTuple):
    """The last reading of one thing at one position."""

    text: str
    reading: Reading
    since: Session | None  # the work done after it: it tells nothing of what is there now
    in_doubt: bool = False  # the book asks about it

    @property
    def day(self) -> str:
        """When, as written."""
        return self.reading.day.text


class Expectation(NamedTuple):
    """Between which values a reading taken now will not be asked about."""

    low: Fraction  # SI, a division of the instrument
    high: Fraction
    text: str  # in the unit of the last reading: `1 1/64 to 1 5/64 in`


def last_read(book: Book, thing: Thing | None, quantity: str, position: str, hold: str = "") -> Last | None:
    """The last reading at a position: held as asked where there is one, else held otherwise."""
    every = [
        reading
        for reading in book.series.get((thing, quantity), ())
        if reading.when not in BEFORE_WORK and any(at == position for at, _ in reading.values)
    ] if thing else []  # fmt: skip
    if not every or thing is None:
        return None
    alike = [r for r in every if r.hold == hold] if hold and quantity in HELD else every
    reading = max(alike or every, key=lambda r: r.day.first or date.min)
    text = " and ".join(m.text for at, many in reading.values if at == position for m in many)
    works = works_on(book, thing, quantity)
    since = works[-1] if works and done_before(reading.day, works[-1]) else None
    return Last(text, reading, since, _in_doubt(book, reading, position))


def _in_doubt(book: Book, reading: Reading, position: str) -> bool:
    return any(
        doubt.reading is reading and not doubt.note and position in {off.position for off in doubt.offs}
        for doubt in doubts(book)
    )


def expectation(book: Book, thing: Thing | None, quantity: str, position: str, hold: str = "") -> Expectation | None:
    """What a reading taken now, with the instrument used last, should lie between; None where nothing says."""
    doubts(book)  # what is in doubt already is no ground to expect anything
    history = history_of(book)
    line = _line(book, history, thing, quantity, position, hold) if thing else None
    if line is None:
        return None
    line = _with_one_more(line, book.as_of)
    slope, doubt = history.rates[line.thing, line.quantity]
    index = len(line.points) - 1
    noise = history.noise(line, index)
    found = expect(line, index, slope, doubt, history.noises[line.quantity])
    if found is None:
        return None
    practice, warmth = practice_of(book), UNEVEN * (expansion_of(book, TIRE_STEEL) or 0.0)
    spread = math.hypot(found.spread, warmth * found.value)
    half = max(
        found.grid + EXPANDED * found.apart + practice.plain * spread,
        practice.least * math.sqrt(2 * noise.variance),
    )  # fmt: skip
    word = book.vocabulary.quantities[quantity]
    return _rounded(book, line.points[-1].origin, word.dimension, found.value, half)


def _line(book: Book, history: History, thing: Hashable, quantity: str, position: str, hold: str) -> Line | None:
    """The line that the next reading would continue: since the last work, and held as asked."""
    epoch = len(works_on(book, thing, quantity)) if isinstance(thing, Thing) else 0
    found = [
        line
        for line in history.lines
        if line.thing == thing and line.quantity == quantity and line.position == position
        and line.points[-1].epoch == epoch and line.points[-1].origin.when not in OFF_THE_WHEEL
        and (not hold or quantity not in HELD or line.points[-1].origin.hold == hold)
    ]  # fmt: skip
    return max(found, key=lambda line: (line.times[-1], len(line.times)), default=None)


def _with_one_more(line: Line, as_of: date) -> Line:
    """The line with a reading of today, or of the day after its last."""
    last = line.points[-1]
    day = max(as_of.toordinal(), last.day.toordinal() + 1)
    more = Dated(date.fromordinal(day), Fraction(0), last.variance, last.way, last.epoch, last.origin, "")
    return replace(
        line, points=[*line.points, more], times=[*line.times, float(day)], values=[*line.values, 0.0],
        sound=[*line.sound, True],
    )  # fmt: skip


def _rounded(book: Book, reading: Reading, dimension: str, value: float, half: float) -> Expectation | None:
    """The readings that the instrument can show and that will not be asked about, in the unit of the last one."""
    measure = next(m for _, many in reading.values for m in many)
    unit = measure.unit
    if dimension != "length" or unit not in UNITS:
        return None
    step = resolution(book, reading) or _step(measure)
    low = math.ceil(Fraction(value - half) / step) * step
    high = math.floor(Fraction(value + half) / step) * step
    if low > high:  # finer than the instrument shows
        low = high = round(Fraction(value) / step) * step
    low = max(low, Fraction(0)) if value >= 0 else low
    return Expectation(low, high, _range(low, high, unit, step))


def _step(measure: object) -> Fraction:
    exact = measure.resolution if isinstance(measure, Quantity) else None
    return exact or INCH / FINEST_FRACTION


def _range(low: Fraction, high: Fraction, unit: str, step: Fraction) -> str:
    in_parts = unit == "in" and (step / INCH * FINEST_FRACTION).denominator == 1
    one, other = ((render_fraction(end) if in_parts else None) or _decimal(end, unit, step) for end in (low, high))
    return f"{one.removesuffix(f' {unit}')} to {other}"


def _decimal(exact: Fraction, unit: str, step: Fraction) -> str:
    """With as many decimals as the step has."""
    each, number = UNITS[unit].from_base(step), UNITS[unit].from_base(exact)
    places = next((places for places in range(6) if (each * 10**places).denominator == 1), 4)
    return f"{float(number):.{places}f} {unit}"
