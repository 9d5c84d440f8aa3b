"""Which readings deserve a closer look: one cheap pass over the steps between neighbors in time."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from statistics import median

from axlebook.trends.expected import trimmed_scatter
from axlebook.trends.series import Dated

from .lines import History
from .reading import Reading

SCREEN = 2.3  # steps smaller than so many times the noise are not looked at again
AT_AN_END = 0.7  # weight of a step at the end of a line: either of its two may be the wild one
TOGETHER = 0.5  # weight of several positions that moved together

Pool = tuple[str, str]  # quantity, instrument


def grouped_steps(history: History) -> dict[int, list[float]]:
    """The steps of a reading's positions, by the reading."""
    grouped: dict[int, list[float]] = defaultdict(list)
    for line, steps in zip(history.lines, history.steps, strict=True):
        for point, step in zip(line.points[1:], steps[1:], strict=True):
            grouped[id(point.origin)].append(step)
    return {key: steps for key, steps in grouped.items() if len(steps) > 1}


def together(history: History) -> dict[Pool, float]:
    """Scatter of the middle of several positions that are read together."""
    pools: dict[Pool, list[float]] = defaultdict(list)
    for key, steps in grouped_steps(history).items():
        pools[_pool(history, key)].append(median(steps))
    return {
        pool: max(trimmed_scatter(found), history.noises[pool].scatter * 0.7, history.noises[pool].grid / 2)
        for pool, found in pools.items()
    }


def wild_readings(history: History, scatter: dict[Pool, float]) -> list[Reading]:
    """Readings that stand off from a neighbor, the wildest first."""
    wild: dict[int, float] = {}
    readings: dict[int, Reading] = {}
    for line, steps in zip(history.lines, history.steps, strict=True):
        if len(steps) > 1:
            _look(line.points, steps, _sizes(history, line.quantity, line.points), wild, readings)
    for key, steps in grouped_steps(history).items():
        size = scatter[_pool(history, key)]
        step = abs(median(steps))
        if step > SCREEN * size:
            number, index = history.at[key][0]
            for origin, weight in zip(
                (history.lines[number].points[i].origin for i in (index, index - 1)), (1.0, 0.8), strict=True
            ):
                readings[id(origin)] = origin
                wild[id(origin)] = max(wild.get(id(origin), 0.0), TOGETHER * weight * step / size)
    return [readings[key] for key in sorted(wild, key=lambda key: -wild[key])]


def _look(
    points: Sequence[Dated],
    steps: Sequence[float],
    sizes: dict[str, float],
    wild: dict[int, float],
    readings: dict[int, Reading],
) -> None:
    last = len(steps) - 1
    for index, point in enumerate(points):
        before = abs(steps[index])
        after = abs(steps[index + 1]) if index < last else 0.0
        size = sizes[point.way[0]]
        worst = before if before > after else after
        if worst > SCREEN * size:
            both = min(before, after) if 0 < index < last else AT_AN_END * worst
            key = id(point.origin)
            readings[key] = point.origin
            wild[key] = max(wild.get(key, 0.0), both / size)


def _sizes(history: History, quantity: str, points: Sequence[Dated]) -> dict[str, float]:
    found = {}
    for point in points:
        instrument = point.way[0]
        if instrument not in found:
            noise = history.noises[quantity, instrument]
            found[instrument] = math.sqrt(noise.scatter**2 + noise.grid**2 / 3)
    return found


def _pool(history: History, key: int) -> Pool:
    number, index = history.at[key][0]
    line = history.lines[number]
    return line.quantity, line.points[index].way[0]
