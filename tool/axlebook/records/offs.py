"""How far a reading's values lie from what the values around them in time let expect."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Hashable
from typing import NamedTuple

from axlebook.trends.expected import Expected, Side
from axlebook.trends.series import Dated

from .book import Book
from .fit import TIRE_STEEL, expansion_of
from .lines import History, history_of
from .reading import Reading

UNEVEN = 1.3  # kelvin by which part and instrument are not as warm as each other: it shows on what is long
SIDES_AGREE = 3.5  # times their spread that what is before and what is after may differ
MIRRORED = {"left": "right", "right": "left", "A": "B", "B": "A"}


class Off(NamedTuple):
    """One value of a reading, and what it should have been [SI]."""

    number: int  # of its line
    at: int  # its place on it
    point: Dated
    position: str
    value: float
    expected: float
    spread: float
    grid: float  # what rounding alone may do
    apart: float  # what the certificates leave open, where the neighbors were read with another instrument
    scatter: float
    reach: float  # combined standard uncertainty of two such readings, by their instrument's record
    around: Expected

    @property
    def residual(self) -> float:
        """How far it is off."""
        return self.value - self.expected


class Around:
    """The book's readings, each with what lies around it."""

    def __init__(self, book: Book) -> None:
        """Index the readings by what they share."""
        self.book: Book = book
        self.history: History = history_of(book)
        self.warmth = UNEVEN * (expansion_of(book, TIRE_STEEL) or 0.0)
        self.beside: dict[tuple[str, str], list[Reading]] = defaultdict(list)
        self.newest: dict[tuple[Hashable, str], int] = {}  # works by the time of the last reading
        for line in self.history.lines:
            key = line.thing, line.quantity
            self.newest[key] = max(self.newest.get(key, 0), line.points[-1].epoch)
        for reading in book.readings:
            self.beside[reading.source.record, reading.quantity].append(reading)
        self._offs: dict[int, list[Off]] = {}  # by id of a reading

    def offs(self, reading: Reading) -> list[Off]:
        """Every value of a reading that something around it speaks for; kept until some of that is left out."""
        found = self._offs.get(id(reading))
        if found is None:
            found = self._offs[id(reading)] = self._found(reading)
        return found

    def leave_out(self, number: int, index: int) -> None:
        """Let a value speak for none of those around it."""
        line = self.history.lines[number]
        line.sound[index] = False
        for point in line.points:
            self._offs.pop(id(point.origin), None)

    def _found(self, reading: Reading) -> list[Off]:
        found = []
        for number, index in self.history.at.get(id(reading), ()):
            around = self.history.expected(number, index)
            if around is None:
                continue
            line = self.history.lines[number]
            noise, value = self.history.noise(line, index), line.values[index]
            expected, spread = nearer(around, value, noise.scatter)
            spread = math.hypot(spread, self.warmth * value)
            found.append(
                Off(number, index, line.points[index], line.position, value, expected, spread, noise.grid,
                    around.apart, noise.scatter, math.sqrt(2 * noise.variance), around)
            )  # fmt: skip
        return found

    def others(self, reading: Reading) -> list[Reading]:
        """The readings of the same quantity on other wheels, in the same record, at the same stage of its work."""
        return [
            other
            for other in self.beside[reading.source.record, reading.quantity]
            if other.named != reading.named and other.when == reading.when
        ]

    def fellows(self, reading: Reading) -> list[Reading]:
        """The readings of the same thing and quantity by other people, in the same record."""
        return [
            other
            for other in self.beside[reading.source.record, reading.quantity]
            if other is not reading and other.named == reading.named and other.when == reading.when
            and set(other.by).isdisjoint(reading.by) and other.day == reading.day
        ]  # fmt: skip

    def is_last(self, off: Off) -> bool:
        """Whether nothing has been read since on this line, and no work has been done since."""
        line = self.history.lines[off.number]
        return off.at == len(line.points) - 1 and off.point.epoch == self.newest[line.thing, line.quantity]


def are_opposite(one: Reading, other: Reading) -> bool:
    """Whether two readings are of the two sides of one axle."""
    stem, _, side = (one.place or one.part).rpartition(" ")
    return side in MIRRORED and (other.place or other.part) == f"{stem} {MIRRORED[side]}"


def nearer(around: Expected, value: float, scatter: float) -> tuple[float, float]:
    """What a value is held against: both sides where they agree, else the one it lies nearer to."""
    before, after = around.before, around.after
    if before is None or after is None or agree(before, after, scatter):
        return around.value, around.spread
    side = min((before, after), key=lambda one: abs(value - one.value))
    return side.value, math.sqrt(scatter**2 + side.variance)


def agree(before: Side, after: Side, scatter: float) -> bool:
    """Whether both sides expect the same."""
    spread = math.sqrt(before.variance + after.variance + scatter**2 / 2)
    return abs(before.value - after.value) <= SIDES_AGREE * spread + before.apart + after.apart


def step_of(off: Off, times: float) -> float | None:
    """The step from what was before to what is since, where this value is the first of what is since."""
    before, after = off.around.before, off.around.after
    if before is None or after is None or before.many < 2 or after.many < 2:
        return None
    spread = math.sqrt(before.variance + after.variance + off.scatter**2 / 2)
    size = after.value - before.value
    if abs(size) - off.grid - 2 * (before.apart + after.apart) < times * spread:
        return None
    return size if abs(off.value - after.value) < abs(off.value - before.value) else None


def off_of(around: Around, reading: Reading, position: str, expected: float, spread: float) -> Off | None:
    """A value of a reading beside what a relation expects of it."""
    for number, index in around.history.at.get(id(reading), ()):
        line = around.history.lines[number]
        if line.position == position:
            noise = around.history.noise(line, index)
            alone = Expected(expected, spread, noise.grid, None, None)
            return Off(number, index, line.points[index], position, line.values[index], expected, spread, noise.grid,
                       0.0, noise.scatter, math.sqrt(2 * noise.variance), alone)  # fmt: skip
    return None
