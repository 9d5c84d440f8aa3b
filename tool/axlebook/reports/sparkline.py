"""A row of readings as a few signs, higher for more; a bar where work was done, across which nothing compares."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from statistics import median

from axlebook.trends.series import Dated

from .page import Look

BLOCKS, PLAIN = "▁▂▃▄▅▆▇█", "12345678"
WORK = "|"


def sparkline(points: Sequence[Dated], look: Look, *, most: int = 8) -> str:
    """Signs for points in order of date, the works between them as bars."""
    runs: dict[int, list[float]] = {}
    for point in points:
        runs.setdefault(point.epoch, []).append(float(point.value))
    room = max(most - (len(runs) - 1), len(runs))
    shares = {epoch: max(1, room * len(run) // len(points)) for epoch, run in runs.items()}
    medians = [_medians(runs[epoch], shares[epoch]) for epoch in sorted(runs)]
    low, high = min(min(run) for run in medians), max(max(run) for run in medians)
    signs = BLOCKS if _has(BLOCKS, look) else PLAIN
    return WORK.join("".join(_sign(value, low, high, signs) for value in run) for run in medians)


def _has(signs: str, look: Look) -> bool:
    try:
        signs.encode(look.encoding)
    except UnicodeEncodeError:
        return False
    return True


def _medians(values: Sequence[float], most: int) -> list[float]:
    """Values in order, cut down to so many by the median of neighbors."""
    count = min(most, len(values))
    edges = [len(values) * index // count for index in range(count + 1)]
    return [median(values[start:end]) for start, end in pairwise(edges)]


def _sign(value: float, low: float, high: float, signs: str) -> str:
    share = 0.5 if high == low else (value - low) / (high - low)
    return signs[min(int(share * len(signs)), len(signs) - 1)]
