"""What a value should have been, from the values around it in time, and how far that can be trusted.

A line is what one thing gave at one position between two works, held the same way, whatever it was read with. The
noise of a reading is taken from the book's own history of that quantity and instrument (a type A evaluation, JCGM
100:2008, 4.2), with the instrument's record standing in for a few readings where the history is short.
"""

from __future__ import annotations

import math
from collections.abc import Hashable, Mapping, MutableSequence, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import combinations
from statistics import NormalDist, median
from typing import NamedTuple

from .series import Dated

FEW_ENOUGH_FOR_ALL_PAIRS = 8
ONE_SIDED = 1.15  # a rate carried on past the last value is worth less than one between two
REACH = 4  # so many sound values each way are asked
KEPT, LEFT_OUT = 0.95, 4  # share of steps, or all but so many, that noise is taken from: slips are among the others
RECORD_COUNTS_FOR = 10  # so many readings is an instrument's own record worth beside history
BELIEVED = 3.0  # times its own uncertainty: what one step in ten or fewer adds to the noise at most; in more, more
MEDIAN_LOSS = 1.3  # variance of a median of a few, against that of their mean
RATE_VARIES = 0.5  # share by which wear over a gap may differ from the known rate: winters, busy summers
LEAST_SPREAD = 0.18  # of a division: values that all fell on one division hide so much


@dataclass
class Line:
    """Values in order of time; what is not sound is left out of what others are held against."""

    thing: Hashable
    quantity: str
    position: str
    points: list[Dated]
    times: MutableSequence[float]
    values: MutableSequence[float]
    sound: list[bool] = field(default_factory=list)
    tools: list[str] = field(init=False)  # what each was read with
    alike: bool = field(init=False)  # all with one

    def __post_init__(self) -> None:
        """Look up once what is asked of every value, again and again."""
        self.tools = [point.way[0] for point in self.points]
        self.alike = len(set(self.tools)) < 2


class Noise(NamedTuple):
    """Scatter of one reading beside its division, half a division, and the instrument's own variance."""

    scatter: float
    grid: float
    variance: float

    @property
    def alike(self) -> float:
        """The chance that two readings of one size, wherever it lies between two marks, show the same division.

        >>> round(Noise(0.18, 0.5, 0.0).alike, 2), round(Noise(1.5, 0.5, 0.0).alike, 2)
        (0.8, 0.18)
        """
        if not self.grid:
            return 1.0
        apart = math.sqrt(2) * self.scatter / (2 * self.grid)  # of the two, in divisions; derived here
        beyond = apart * math.sqrt(2 / math.pi) * (1 - math.exp(-1 / (2 * apart**2)))
        return math.erf(1 / (apart * math.sqrt(2))) - beyond


class Side(NamedTuple):
    """What the values on one side of a point say: expected value, its variance, how many, the nearest one."""

    value: float
    variance: float
    many: int
    nearest: int
    apart: float  # what two certificates leave open, where most were read with another instrument
    noise: float  # the part of the variance that is noise of the readings
    middle: float  # how far in time their middle lies
    gap: float  # how far the nearest


class Expected(NamedTuple):
    """What a point should have been; `grid` is what rounding alone may do."""

    value: float
    spread: float
    grid: float
    before: Side | None
    after: Side | None

    @property
    def apart(self) -> float:
        """What the certificates leave open; zero where some neighbor was read with the same instrument."""
        if self.before is None or self.after is None:
            side = self.before or self.after
            assert side is not None  # else nothing was expected
            return side.apart
        return min(self.before.apart, self.after.apart)


def resistant_slope(times: Sequence[float], values: Sequence[float]) -> float | None:
    """A slope that one wild value does not carry away; None below four values.

    Of few values the median of all slopes between two (Theil, Sen); of many, for speed, from the medians of the first
    and last third (Tukey's resistant line).

    >>> resistant_slope([0, 1, 2, 3, 4], [9.0, 8.0, 90.0, 6.0, 5.0])
    -1.0
    """
    count = len(times)
    if count < 4:
        return None
    if count <= FEW_ENOUGH_FOR_ALL_PAIRS:
        pairs = combinations(zip(times, values, strict=True), 2)
        slopes = [(later - earlier) / (then - before) for (before, earlier), (then, later) in pairs if then > before]
        return median(slopes) if slopes else None
    third = count // 3
    span = median(times[-third:]) - median(times[:third])
    return (median(values[-third:]) - median(values[:third])) / span if span > 0 else None


def trimmed_scatter(steps: Sequence[float]) -> float:
    """Standard deviation of steps of which some are slips, from the smallest 95 in a hundred, or all but four."""
    count = len(steps)
    kept = sorted(map(abs, steps))[: max(count // 2 + 1, min(int(count * KEPT), count - LEFT_OUT))]
    return math.sqrt(math.fsum([step * step for step in kept]) / len(kept)) / _root_mean_square(len(kept) / count)


@lru_cache(maxsize=1024)
def _root_mean_square(share: float) -> float:
    """Root mean square of the smallest share of a normal distribution with unit deviation."""
    if share >= 1.0:
        return 1.0
    bound = NormalDist().inv_cdf((1 + share) / 2)
    return math.sqrt(1 - 2 * bound * NormalDist().pdf(bound) / share)


def believed(steps: Sequence[float], own: float) -> list[float]:
    """Steps, none larger than so many of them make believable: a few do not say that an instrument is wild.

    >>> believed([0.1, -90.0], 1.0)
    [0.1, -3.0]
    """
    bound = BELIEVED * own * max(1.0, len(steps) / RECORD_COUNTS_FOR)
    return [step if -bound <= step <= bound else math.copysign(bound, step) for step in steps]


def noise_of(steps: Sequence[float], division: float, variance: float, *, of_metal: bool = False) -> Noise:
    """Noise of a reading from single-reading steps of its like, and from what the instrument's record says.

    Of metal that wear only takes, a few wild steps are no noise: they do not hide themselves.

    >>> few, many = noise_of([], 1.0, 0.25), noise_of([0.2] * 900, 1.0, 0.25)
    >>> few.scatter > many.scatter
    True
    """
    count = len(steps)
    if of_metal:
        steps = believed(steps, math.sqrt(max(variance, division * division / 12)))
    seen = trimmed_scatter(steps) ** 2 if steps else 0.0
    whole = (count * seen + RECORD_COUNTS_FOR * variance) / (count + RECORD_COUNTS_FOR)
    beside = whole - division * division / 12
    return Noise(max(math.sqrt(max(beside, 0.0)), LEAST_SPREAD * division, 1e-9), division / 2, variance)


def expect(line: Line, index: int, slope: float, doubt: float, noises: Mapping[str, Noise]) -> Expected | None:
    """What a point should have been from its sound neighbors each way; None where it has none."""
    before = _side(line, index, range(index - 1, -1, -1), slope, doubt, noises)
    after = _side(line, index, range(index + 1, len(line.values)), slope, doubt, noises)
    own = noises[line.tools[index]]
    if before is None or after is None:
        side = before or after
        if side is None:
            return None
        spread = ONE_SIDED * math.sqrt(own.scatter**2 + side.variance)
        return Expected(side.value, spread, own.grid, before, after)
    share = after.variance / (before.variance + after.variance)
    value = before.value * share + after.value * (1 - share)
    # between two sides a wrong rate shifts one up and the other down
    leaning = doubt * (before.middle * share - after.middle * (1 - share))
    wear = RATE_VARIES * slope * min(before.gap, after.gap) / 2
    noise = before.noise * share**2 + after.noise * (1 - share) ** 2
    return Expected(value, math.sqrt(own.scatter**2 + noise + leaning**2 + wear**2), own.grid, before, after)


def _side(
    line: Line, index: int, others: range, slope: float, doubt: float, noises: Mapping[str, Noise]
) -> Side | None:
    times, values, sound, tools = line.times, line.values, line.sound, line.tools
    now, here = times[index], tools[index]
    found: list[int] = []
    for other in others:
        if sound[other] and times[other] != now:
            found.append(other)
            if len(found) == REACH:
                break
    if not found:
        return None
    own = noises[here]
    alike = found if line.alike else [j for j in found if tools[j] == here]
    apart = coarser = 0.0
    if 2 * len(alike) >= len(found):
        found = alike
        squares = [own.scatter**2] * len(found)
    else:
        theirs = [noises[tools[j]] for j in found]
        squares = [noise.scatter**2 for noise in theirs]
        apart = math.sqrt(max([noise.variance for noise in theirs]) + own.variance)
        coarser = max(max([noise.grid for noise in theirs]) ** 2 - own.grid**2, 0.0) / 3
    many = len(found)
    when = [times[j] for j in found]
    value = median([values[j] + slope * (now - times[j]) for j in found])
    loss = MEDIAN_LOSS if many > 2 else 1.0
    noise = sum(squares) / many**2 * loss + coarser
    gap, middle = abs(now - when[0]), abs(now - sum(when) / many)
    variance = noise + (RATE_VARIES * slope * gap) ** 2 + (doubt * middle) ** 2
    return Side(value, variance, many, found[0], apart, noise, middle, gap)
