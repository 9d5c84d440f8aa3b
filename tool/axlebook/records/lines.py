"""The book's values as lines in time, with the noise and the rate that its own history gives them."""

from __future__ import annotations

import math
from array import array  # a figure takes a third of the room it has in a list
from collections import defaultdict
from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from statistics import median

from axlebook.trends.expected import Expected, Line, Noise, expect, noise_of, resistant_slope, trimmed_scatter
from axlebook.trends.series import Dated

from . import instruments
from .book import Book
from .timeline import all_series, marked_series

STEP = 2**0.5  # a step between two readings has the noise of both
FEW = 4  # below so many, a rate is that of its like
MOST_UNLIKE = 4.0  # times the spread of its like that a rate may differ from their middle
LEAST_SPAN = 90.0  # days: what lies closer together tells of noise, not of wear
OFF_THE_WHEEL = frozenset({"cold before", "at receiving"})
UNKNOWN = (0.0254 / 16) ** 2  # variance of a reading of which nothing is known: as from a coarse rule


@dataclass
class History:
    """Every line of the book, and what its readings are worth."""

    lines: list[Line]
    rates: dict[tuple[Hashable, str], tuple[float, float]]  # thing, quantity -> change a day, and its doubt
    steps: list[Sequence[float]]  # of each line: change to the value before beyond the rate, for one reading
    noises: dict[str, dict[str, Noise]]  # quantity -> instrument
    at: dict[int, list[tuple[int, int]]]  # id of a reading -> line and index of its values
    several: set[str]  # quantities of which some reading has several values
    of_metal: Mapping[str, str]  # quantities that only wear changes -> lowers, raises

    def noise(self, line: Line, index: int) -> Noise:
        """Noise of one value."""
        return self.noises[line.quantity][line.tools[index]]

    def expected(self, number: int, index: int) -> Expected | None:
        """What a value should have been."""
        line = self.lines[number]
        slope, doubt = self.rates[line.thing, line.quantity]
        return expect(line, index, slope, doubt, self.noises[line.quantity])


def history_of(book: Book) -> History:
    """The history of the book, worked out once."""
    known: History | None = book.__dict__.get("_history")
    if known is None:
        lines, at = _lines(book)
        metal = _of_metal(book)
        rates = _rates(lines, metal)
        steps = [_steps(line, rates[line.thing, line.quantity][0]) for line in lines]
        several = {r.quantity for r in book.readings if len(r.values) > 1}
        noises = _noises(book, lines, steps, metal)
        known = book.__dict__["_history"] = History(lines, rates, steps, noises, at, several, metal)
    return known


def _of_metal(book: Book) -> dict[str, str]:
    """Quantities of the wheel itself that wear takes one way, and which: what is set or shimmed anew goes both."""
    words = book.vocabulary.quantities.items()
    return {name: word.wear for name, word in words if word.wear != "none" and word.of in ("wheel", "tire", "end")}


def _lines(book: Book) -> tuple[list[Line], dict[int, list[tuple[int, int]]]]:
    """Every line, and where the values of each reading stand on them."""
    found: list[Line] = []
    at: dict[int, list[tuple[int, int]]] = defaultdict(list)
    marked = marked_series(book)
    for one in all_series(book):
        for points in _held_alike(one.points, (one.thing, one.quantity) in marked):
            number = len(found)
            for index, point in enumerate(points):
                at[id(point.origin)].append((number, index))
            times = array("d", [point.day.toordinal() for point in points])
            exact = [point.value for point in points]
            values = array("d", [v.numerator / v.denominator for v in exact])  # the nearest double, as float() gives it
            found.append(Line(one.thing, one.quantity, one.position, points, times, values, [True] * len(points)))
    return found, at


def _held_alike(points: Iterable[Dated], marked: bool) -> Iterable[list[Dated]]:
    """The points of a series that one line goes through, each line's in order of date; `marked`: some tell when."""
    groups: dict[Hashable, list[Dated]] = {}
    group: list[Dated] = []
    way: tuple[str, ...] = ()
    epoch, stage = -1, ""  # of the point before: the next is mostly like it
    off = ""
    for point in points:
        if marked:
            when = point.origin.when
            if when == "warm after":
                continue
            # a tire grows when it grips: what was taped before stands by itself
            off = when if when in OFF_THE_WHEEL else ""
        if point.way is not way or point.epoch != epoch or off != stage:
            epoch, way, stage = point.epoch, point.way, off
            group = groups.setdefault((epoch, off, *way[1:]), [])
        group.append(point)
    return groups.values()


def _rates(lines: Sequence[Line], metal: Mapping[str, str]) -> dict[tuple[Hashable, str], tuple[float, float]]:
    """Change a day of every thing and quantity: its own where its lines are long enough, else that of its like."""
    slopes: dict[tuple[Hashable, str], list[float]] = defaultdict(list)
    doubts: dict[tuple[Hashable, str], list[float]] = defaultdict(list)
    short: dict[tuple[Hashable, str], list[float]] = defaultdict(list)
    for line in lines:
        far = line.times[-1] - line.times[0] >= LEAST_SPAN
        slope = resistant_slope(line.times, line.values) if far else None
        if slope is not None:
            slopes[line.thing, line.quantity].append(slope)
            doubts[line.thing, line.quantity].append(_own_doubt(line, slope))
            continue
        ends = short[line.thing, line.quantity]
        if far:
            ends.append((line.values[-1] - line.values[0]) / (line.times[-1] - line.times[0]))
    for key, ends in short.items():
        if key not in slopes and len(ends) >= FEW - 1:  # short lines of several positions, together
            slopes[key] = ends
    own = _like_its_like({key: _as_worn(metal.get(key[1], ""), median(found)) for key, found in slopes.items()})
    like: dict[str, list[float]] = defaultdict(list)
    for (_, quantity), slope in own.items():
        like[quantity].append(slope)
    pooled = {quantity: (median(found), _doubt(found)) for quantity, found in like.items()}
    rates = {}
    for key, slope in own.items():
        apart = pooled[key[1]][1]
        few = doubts.get(key)
        rates[key] = (slope, min(apart, median(few) / len(few) ** 0.5) if few else apart)
    return {key: pooled.get(key[1], (0.0, 0.0)) for key in short} | rates


def _as_worn(wear: str, slope: float) -> float:
    """A rate the way that wear goes: metal does not grow, so figures that rise are no rate of its growing."""
    return min(slope, 0.0) if wear == "lowers" else max(slope, 0.0) if wear == "raises" else slope


def _doubt(slopes: Sequence[float]) -> float:
    middle = median(slopes)
    spread = trimmed_scatter([slope - middle for slope in slopes])
    return spread if len(slopes) >= FEW else max(spread, abs(middle) / 2)


def _like_its_like(own: dict[tuple[Hashable, str], float]) -> dict[tuple[Hashable, str], float]:
    """Rates kept within what their like are spread: one wild reading among four makes no rate."""
    like: dict[str, list[float]] = defaultdict(list)
    for (_, quantity), slope in own.items():
        like[quantity].append(slope)
    bounds = {}
    for quantity, found in like.items():
        if len(found) >= FEW:
            middle = median(found)
            reach = MOST_UNLIKE * trimmed_scatter([slope - middle for slope in found])
            bounds[quantity] = (middle - reach, middle + reach)
    endless = (-float("inf"), float("inf"))
    kept = {}
    for key, slope in own.items():
        low, high = bounds.get(key[1], endless)
        kept[key] = min(max(slope, low), high)
    return kept


def _own_doubt(line: Line, slope: float) -> float:
    """Standard uncertainty of the slope of one line, from how its values lie about it (3.5: square root of 12)."""
    levels = [value - slope * time for value, time in zip(line.values, line.times, strict=True)]
    middle = median(levels)
    scatter = 1.5 * median([abs(level - middle) for level in levels])
    return 3.5 * scatter / ((line.times[-1] - line.times[0]) * math.sqrt(len(levels)))


def _steps(line: Line, slope: float) -> Sequence[float]:
    if len(line.points) == 1:
        return array("d", [0.0])
    steps = [0.0]
    before, earlier = line.values[0], line.times[0]
    for value, time in zip(line.values[1:], line.times[1:], strict=True):
        steps.append((value - before - slope * (time - earlier)) / STEP)
        before, earlier = value, time
    return array("d", steps)


def _noises(
    book: Book, lines: Sequence[Line], steps: Sequence[Sequence[float]], metal: Mapping[str, str]
) -> dict[str, dict[str, Noise]]:
    pools: dict[str, dict[str, list[float]]] = {}
    samples: dict[tuple[str, str], Dated] = {}
    for line, found in zip(lines, steps, strict=True):
        of_quantity = pools.setdefault(line.quantity, {})
        names = line.tools
        for index, name in enumerate(names[:1] if line.alike else names):
            if name not in of_quantity:
                of_quantity[name] = []
                samples[line.quantity, name] = line.points[index]
        if line.alike:
            of_quantity[names[0]] += found[1:]
            continue
        for index in range(1, len(names)):
            if names[index] == names[index - 1]:
                of_quantity[names[index]].append(found[index])
    noises: dict[str, dict[str, Noise]] = {}
    for (quantity, name), point in samples.items():
        division = float(instruments.resolution(book, point.origin) or 0)
        variance = point.variance if point.variance is not None else UNKNOWN
        noises.setdefault(quantity, {})[name] = noise_of(
            pools[quantity][name], division, float(variance), of_metal=quantity in metal
        )
    return noises
