"""The worst of a place that is better than what was read there at angles: wear that gives metal back.

A reading of the worst place, or of all round, stands on another line than readings at angles, so that neither is held
against the other in time. But the worst place is no better than any angle: without work between, a worst of now that
is better than an angle's value of then has gained metal. The other way nothing is certain, for angles miss the worst.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator

from axlebook.trends.expected import Line
from axlebook.trends.series import Dated

from .last_values import WHOLE
from .lines import OFF_THE_WHEEL
from .offs import Around, Off, off_of
from .plausibility import Practice
from .reading import Reading
from .relations import flange_gained

EXPANDED = 1.2  # coverage of what two certificates leave open, as beside neighbors in time


def better_than_angles(around: Around, practice: Practice) -> Iterator[tuple[Reading, Off, Dated]]:
    """Readings of the worst place that are better than an angle was: each with the value and the angle's."""
    metal, beside = around.history.of_metal, defaultdict(list)
    for number, line in enumerate(around.history.lines):
        if line.quantity in metal and line.points[0].origin.when not in OFF_THE_WHEEL:
            beside[line.thing, line.quantity, line.points[0].epoch, line.points[0].way[1:]].append(number)
    for numbers in beside.values():
        whole = [n for n in numbers if around.history.lines[n].position in WHOLE]
        angles = [n for n in numbers if n not in whole]
        for number in whole if angles else ():
            yield from _better(around, number, angles, practice)


def _better(around: Around, number: int, angles: list[int], practice: Practice) -> Iterator[tuple[Reading, Off, Dated]]:
    history = around.history
    line = history.lines[number]
    sign = 1.0 if history.of_metal[line.quantity] == "lowers" else -1.0
    for index, point in enumerate(line.points):
        then = _worst_before(around, line.times[index], angles, sign)
        if then is None or not line.sound[index]:
            continue
        off = _off(around, line, index, then)
        if off is None:
            continue
        days = line.times[index] - float(then.day.toordinal())
        reach = max(practice.plain * off.spread + off.grid + EXPANDED * off.apart, practice.least * off.reach)
        if sign * off.residual - flange_gained(around, line.thing, line.quantity, days, practice) > reach:
            yield point.origin, off, then


def _worst_before(around: Around, day: float, angles: list[int], sign: float) -> Dated | None:
    """The worst of the sound angles on the last day before on which any was read."""
    before: list[tuple[float, float, Dated]] = []
    for number in angles:
        line = around.history.lines[number]
        known = zip(line.times, line.values, line.points, line.sound, strict=True)
        before += [(-time, sign * value, point) for time, value, point, ok in known if ok and time < day]
    found = min(before, key=lambda one: one[:2], default=None)
    return found[2] if found else None


def _off(around: Around, line: Line, index: int, then: Dated) -> Off | None:
    """The value beside the angle's, with the noise of both."""
    noises = around.history.noises[line.quantity]
    own, theirs = noises[line.points[index].way[0]], noises[then.way[0]]
    expected = float(then.value)
    spread = math.hypot(own.scatter, theirs.scatter, around.warmth * expected)
    off = off_of(around, line.points[index].origin, line.position, expected, spread)
    if off is None:
        return None
    same = then.way[0] == line.points[index].way[0]
    apart = 0.0 if same else math.sqrt(own.variance + theirs.variance)
    return off._replace(grid=own.grid + theirs.grid, apart=apart)
