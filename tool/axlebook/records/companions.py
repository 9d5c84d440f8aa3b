"""What is read beside a reading: by another person, in another hold or plane, at the other positions."""

from __future__ import annotations

import math
from collections.abc import Iterator
from statistics import median

from axlebook.trends.expected import Line, trimmed_scatter

from .condition import mean
from .offs import Around, Off, off_of
from .plausibility import Practice
from .reading import Reading
from .timeline import HELD

OUT_OF_THE_ENGINE = frozenset({"shop", "after-work", "receiving"})  # there another hold is no surprise
FEW = 2  # readings that make no trend of their own


def second_readers(around: Around, practice: Practice) -> Iterator[tuple[Reading, tuple[Off, ...], str, str]]:
    """Two people at one place on one day."""
    for readings in around.beside.values():
        if len(readings) == len({reading.place for reading in readings}):  # nearly always
            continue
        if len(readings) == len({(reading.place, reading.part) for reading in readings}):
            continue
        by_name: dict[str, list[Reading]] = {}
        for reading in readings:
            by_name.setdefault(reading.named, []).append(reading)
        for same in by_name.values():
            for reading in same[1:]:
                yield from _against(around, same[0], reading, practice)


def _against(
    around: Around, first: Reading, second: Reading, practice: Practice
) -> Iterator[tuple[Reading, tuple[Off, ...], str, str]]:
    if first not in around.fellows(second):
        return
    theirs = dict(first.values)
    found = []
    for position, _ in second.values:
        if position not in theirs:
            continue
        span = mean(theirs[position])
        if span.low is None or span.low != span.high:
            continue
        off = off_of(around, second, position, float(span.low), 0.0)
        if off is not None:
            off = off._replace(spread=math.sqrt(2) * off.scatter)
            if abs(off.residual) > max(practice.second * off.spread + off.grid, practice.least * off.reach):
                found.append(off)
    if found:
        says = said_by(first, found[0].position)
        yield second, tuple(found), "second-reader-disagrees", says


def said_by(reading: Reading, position: str) -> str:
    """What another person read at a place."""
    text = " and ".join(m.text for m in dict(reading.values)[position])
    return f"{' and '.join(reading.by)} read {text} there on the same day."


def other_ways(around: Around, practice: Practice) -> Iterator[tuple[Reading, tuple[Off, ...], str, str]]:
    """Readings taken once in another hold or plane, amid a trend taken one way, where the figures step."""
    history = around.history
    groups: dict[tuple[object, ...], list[int]] = {}
    for number, line in enumerate(history.lines):
        groups.setdefault((line.thing, line.quantity, line.position, line.points[0].epoch), []).append(number)
    found: dict[int, tuple[Reading, list[Off], str]] = {}
    for numbers in groups.values():
        for number in numbers if len(numbers) > 1 else ():
            line = history.lines[number]
            for other in (history.lines[n] for n in numbers if n != number):
                if len(line.points) <= FEW < len(other.points):
                    for off in _stepped(around, number, other, practice):
                        says = _ways(off, other)
                        reading = off.point.origin
                        if says:
                            found.setdefault(id(reading), (reading, [], says))[1].append(off)
    for reading, offs, says in found.values():
        yield reading, tuple(offs), "method-changed", says


def _ways(off: Off, other: Line) -> str:
    """How a reading was taken, beside the others; empty where that is no surprise."""
    mine, theirs = off.point.origin, other.points[0].origin
    if other.quantity in HELD and mine.hold != theirs.hold:
        surprise = mine.hold and theirs.hold and mine.source.purpose not in OUT_OF_THE_ENGINE
        return f"{mine.hold}, among readings {theirs.hold}" if surprise else ""
    if off.point.way[1] != other.points[0].way[1]:
        return f"with {mine.instrument}, {off.point.way[1]}, among readings {other.points[0].way[1]}"
    return ""


def _stepped(around: Around, number: int, other: Line, practice: Practice) -> Iterator[Off]:
    history = around.history
    line = history.lines[number]
    rate = history.rates[line.thing, line.quantity][0]
    for index, point in enumerate(line.points):
        here = line.times[index]
        if not other.times[0] < here < other.times[-1]:
            continue
        near = sorted(range(len(other.times)), key=lambda i: abs(other.times[i] - here))[:4]
        expected = median(other.values[i] + rate * (here - other.times[i]) for i in near)
        off = off_of(around, point.origin, line.position, expected, 0.0)
        if off is None:
            continue
        beside = history.noise(other, near[0])
        apart = 0.0
        if point.way[0] != other.points[near[0]].way[0]:
            apart = math.sqrt(beside.variance + history.noise(line, index).variance)
        off = off._replace(spread=1.2 * max(off.scatter, beside.scatter), apart=apart)
        if abs(off.residual) > max(practice.plain * off.spread + off.grid + apart, practice.least * off.reach):
            yield off


def siblings(around: Around, practice: Practice) -> Iterator[tuple[Reading, Off]]:
    """Values far from the other positions of their reading, where time says little: the furthest of each reading."""
    found: dict[tuple[str, str], list[tuple[Reading, float, float, str]]] = {}
    at, lines = around.history.at, around.history.lines
    for reading in around.book.readings:
        if len(reading.values) < 2:
            continue
        places = at.get(id(reading), ())
        if len(places) < 2 or max([len(lines[number].points) for number, _ in places]) > FEW:
            continue
        values = [(lines[n].values[i], lines[n].position) for n, i in places]
        pool = found.setdefault((reading.quantity, reading.instrument), [])
        if len(values) == 2:  # either may be the one
            (one, here), (two, there) = values
            pool += [(reading, one, two - one, there), (reading, two, one - two, here)]
            continue
        middle = median(value for value, _ in values)
        off, position = max(((value - middle, position) for value, position in values), key=lambda one: abs(one[0]))
        pool.append((reading, middle, off, position))
    for key, many in found.items():
        noise = around.history.noises[key[0]][key[1]]
        usual = trimmed_scatter([off for _, _, off, _ in many]) if len(many) > FEW else 0.0
        spread = math.hypot(usual, noise.scatter)
        for reading, middle, off, position in many:
            if abs(off) - noise.grid > practice.with_mark * spread and abs(off) > practice.least * math.sqrt(
                2 * noise.variance
            ):
                alone = off_of(around, reading, position, middle, spread)
                if alone is not None:
                    around_it = around.history.expected(alone.number, alone.at)
                    yield reading, alone._replace(around=around_it) if around_it is not None else alone
