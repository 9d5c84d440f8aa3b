"""Which readings deserve a closer look: one cheap pass over the steps between neighbors in time."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from statistics import median

from axlebook.trends.expected import Line, believed, trimmed_scatter

from .lines import History
from .reading import Reading

SCREEN = 2.3  # steps smaller than so many times the noise are not looked at again
BOTH = 0.9  # nor are single steps whose fellow is smaller than so many, unless
LONE = 3.2  # they are larger than so many: a change that stays
AT_AN_END = 0.7  # weight of a step at the end of a line: either of its two may be the wild one
EARLIER = 0.8  # weight of the earlier of two: which of them is wild nothing tells, and the newer is at hand
TOGETHER = 0.5  # weight of several positions that moved together

Pool = tuple[str, str]  # quantity, instrument


class Screen:
    """The steps between neighbors in time, each position's and all positions' of a reading together."""

    def __init__(self, history: History) -> None:
        """Take the middle of the steps of each reading's positions, and how that scatters."""
        self.history = history
        grouped: dict[int, list[float]] = defaultdict(list)
        for line, steps in zip(history.lines, history.steps, strict=True):
            if line.quantity in history.several:
                for point, step in zip(line.points[1:], steps[1:], strict=True):
                    grouped[id(point.origin)].append(step)
        self.middles = {key: (median(steps), self._pool(key)) for key, steps in grouped.items() if len(steps) > 1}
        pools: dict[Pool, list[float]] = defaultdict(list)
        for step, pool in self.middles.values():
            pools[pool].append(step)
        self.together: dict[Pool, float] = {}
        for (quantity, instrument), found in pools.items():
            noise = history.noises[quantity][instrument]
            if quantity in history.of_metal:
                found = believed(found, math.sqrt(noise.variance))
            size = max(trimmed_scatter(found), noise.scatter * 0.7, noise.grid / 2)
            self.together[quantity, instrument] = size

    def wild(self) -> list[Reading]:
        """Readings that stand off from a neighbor, the wildest first."""
        found: dict[int, tuple[float, Reading]] = {}
        sizes = {
            quantity: {name: math.sqrt(noise.scatter**2 + noise.grid**2 / 3) for name, noise in noises.items()}
            for quantity, noises in self.history.noises.items()
        }
        for line, steps in zip(self.history.lines, self.history.steps, strict=True):
            if len(steps) > 1:
                newer = line.quantity in self.history.of_metal and len(steps) == 2
                _look(line, steps, sizes[line.quantity], found, EARLIER if newer else 1.0)
        for key, (middle, pool) in self.middles.items():
            step, size = abs(middle), self.together[pool]
            if step > SCREEN * size:
                number, index = next((n, i) for n, i in self.history.at[key] if i)
                points = self.history.lines[number].points
                for origin, weight in ((points[index].origin, 1.0), (points[index - 1].origin, EARLIER)):
                    _note(found, origin, TOGETHER * weight * step / size)
        return [reading for _, reading in sorted(found.values(), key=lambda one: -one[0])]

    def _pool(self, key: int) -> Pool:
        number, index = self.history.at[key][0]
        line = self.history.lines[number]
        return line.quantity, line.tools[index]


def _note(found: dict[int, tuple[float, Reading]], reading: Reading, weight: float) -> None:
    known = found.get(id(reading))
    if known is None or known[0] < weight:
        found[id(reading)] = (weight, reading)


def _look(
    line: Line,
    steps: Sequence[float],
    sizes: dict[str, float],
    found: dict[int, tuple[float, Reading]],
    first: float,
) -> None:
    """Note values at large steps; `first` weighs the first value of all."""
    last, least = len(steps) - 1, SCREEN * min([sizes[name] for name in (line.tools[:1] if line.alike else line.tools)])
    for index, after in enumerate(steps):
        if not -least < after < least:  # the step to this value is large: look at both its ends
            for at in (index - 1, index):
                size = sizes[line.tools[at]]
                one, two = abs(steps[at]), abs(steps[at + 1]) if at < last else 0.0
                worst, fellow = (one, two) if one > two else (two, one)
                if worst <= SCREEN * size:
                    continue
                if not 0 < at < last:
                    _note(found, line.points[at].origin, (1.0 if at else first) * AT_AN_END * worst / size)
                elif fellow > BOTH * size or worst > LONE * size:
                    _note(found, line.points[at].origin, fellow / size)
