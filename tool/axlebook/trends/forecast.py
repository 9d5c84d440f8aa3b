"""When a wearing quantity meets a limit: the line through its readings, carried on, and how far that can be trusted.

The rate is common to all segments of a series and taken from pairs within a segment only; the level is that of the
present segment alone. Two doubts widen the line with time: that of the rate (its 95 percent interval) and that of the
level (the scatter of the readings); they are independent at the middle of the present segment, so their squares add.
Time is any steady clock: days, service days, metres run.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from statistics import fmean, median
from typing import NamedTuple

from axlebook.engineering.wear import LEAST_READINGS_FOR_A_TREND, common_slope, slope_interval

Times = Sequence[float]
Segment = tuple[Times, Sequence[float]]

NORMAL = 1.959963984540054  # two-sided 95 percent of a normal distribution
TO_DEVIATION = 1.4826022185056018  # median distance from the middle to a standard deviation, normal distribution
OF_A_MEDIAN = math.sqrt(math.pi / 2)  # deviation of a median against that of a mean, normal distribution
STEPS = 40  # halvings of a span of time: of fifty years, less than a second is left


class Line(NamedTuple):
    """A straight line through readings, with the wear rate counted positive towards the limit."""

    readings: int  # how many had a part in the rate
    rate: float  # lost a unit of time, SI
    low: float | None  # its 95 percent interval; None below five readings
    high: float | None
    center: float  # middle of the present segment in time
    level: float  # value of the line there
    scatter: float  # standard deviation of a reading about the line, as far as the readings show
    doubt: float  # half the 95 percent interval of the level there
    falling: bool

    def at(self, time: float) -> float:
        """The value of the line at a time."""
        return self.level + self._sign * self.rate * (time - self.center)

    def band(self, time: float) -> tuple[float, float] | None:
        """Lowest and highest that the line can be at a time; None where the rate has no interval."""
        if self.low is None or self.high is None:
            return None
        most, least = (self.edge(time, bound, way) for bound, way in ((self.high, 1), (self.low, -1)))
        ends = (self.level + self._sign * most, self.level + self._sign * least)
        return min(ends), max(ends)

    @property
    def wears(self) -> bool:
        """Whether the middle rate goes towards the limit at all."""
        return self.rate > 0

    @property
    def certain(self) -> bool:
        """Whether the slowest rate of the interval is wear too."""
        return self.low is not None and self.low > 0

    @property
    def _sign(self) -> int:
        return -1 if self.falling else 1

    def edge(self, time: float, bound: float, way: int) -> float:
        """How much is lost since the center at most (way 1) or at least (way -1)."""
        since = time - self.center
        return self.rate * since + way * math.hypot((bound - self.rate) * since, self.doubt)


class Meeting(NamedTuple):
    """When a limit is met. None is never, infinity is beyond the horizon."""

    early: float | None
    middle: float | None
    late: float | None
    has_interval: bool


def student(freedom: int) -> float:
    """Two-sided 95 percent of Student's distribution, by the first terms of Cornish and Fisher's expansion.

    >>> round(student(4), 2), round(student(30), 3)
    (2.73, 2.042)
    """
    z = NORMAL
    return z + (z**3 + z) / (4 * freedom) + (5 * z**5 + 16 * z**3 + 3 * z) / (96 * freedom**2)


def fit_line(
    segments: Sequence[Segment], present: int, resolution: float | None, *, falling: bool, interval: bool = True
) -> Line | None:
    """The line through segments, at the level of the present one; None below three readings in segments with a pair.

    >>> line = fit_line([([0, 1, 2], [10.0, 9.5, 9.0]), ([2, 3], [8.0, 7.5])], 1, None, falling=True)
    >>> line.rate, line.at(3), line.readings
    (0.5, 7.5, 5)
    """
    slope = common_slope(segments)
    if slope is None:
        return None
    usable = [segment for segment in segments if len(set(segment[0])) > 1]
    count = sum(len(times) for times, _ in usable)
    bounds = slope_interval(segments, resolution=resolution) if interval else None
    times, values = segments[present]
    center = fmean(times)
    level = median(value - slope * (time - center) for time, value in zip(times, values, strict=True))
    scatter = _scatter(usable, slope, resolution)
    share = OF_A_MEDIAN / math.sqrt(len(times)) if len(times) > 2 else 1 / math.sqrt(len(times))
    doubt = student(max(count - len(usable) - 1, 1)) * scatter * share
    rates = sorted(-slope_ if falling else slope_ for slope_ in bounds) if bounds else (None, None)
    return Line(count, -slope if falling else slope, rates[0], rates[1], center, level, scatter, doubt, falling)


def _scatter(segments: Sequence[Segment], slope: float, resolution: float | None) -> float:
    """Standard deviation about lines of one slope, each at its own level; never less than a division hides."""
    off = []
    for times, values in segments:
        levels = [value - slope * time for time, value in zip(times, values, strict=True)]
        middle = median(levels)
        off += [abs(level - middle) for level in levels]
    freedom = max(len(off) - len(segments) - 1, 1)
    seen = TO_DEVIATION * median(off) * math.sqrt(len(off) / freedom)
    return max(seen, (resolution or 0.0) / math.sqrt(12))


def meet(line: Line, limit: float, now: float, horizon: float) -> Meeting:
    """When a line meets a limit, looked for from now to a horizon; `middle` may lie in the past.

    >>> line = Line(9, 0.5, 0.4, 0.6, 0.0, 10.0, 0.0, 0.0, True)
    >>> found = meet(line, 7.0, 1.0, 100.0)
    >>> [round(time, 6) for time in (found.early, found.middle, found.late)]
    [5.0, 6.0, 7.5]
    """
    left = line.level - limit if line.falling else limit - line.level
    middle = None if not line.wears else line.center + left / line.rate
    if middle is not None and middle > horizon:
        middle = math.inf
    if line.low is None or line.high is None:
        return Meeting(None, middle, None, has_interval=False)
    low, high = line.low, line.high
    early = _first(line, high, 1, left, now, horizon) if high > 0 else None
    late = _first(line, low, -1, left, now, horizon) if low > 0 else None
    return Meeting(early, middle, late, has_interval=True)


def _first(line: Line, bound: float, way: int, left: float, now: float, horizon: float) -> float:
    """The first time from now at which so much is lost, by one edge; infinity where not before the horizon."""

    def is_lost(time: float) -> bool:
        return line.edge(time, bound, way) - left >= 0

    if is_lost(now):
        return now
    if not is_lost(horizon):
        return math.inf
    before, after = now, horizon
    for _ in range(STEPS):
        middle = (before + after) / 2
        if is_lost(middle):
            after = middle
        else:
            before = middle
    return after


def present_segment(lengths: Sequence[int], last: Sequence[float], epochs: Sequence[int]) -> int:
    """Which segment tells the level now: of those since the last work the latest with three readings, else the latest.

    >>> present_segment([9, 4, 1], [8.0, 9.0, 10.0], [0, 1, 1]), present_segment([9, 1], [8.0, 9.0], [0, 1])
    (1, 1)
    """
    newest = max(epochs)
    here = [index for index, epoch in enumerate(epochs) if epoch == newest]
    return max(here, key=lambda index: (lengths[index] >= LEAST_READINGS_FOR_A_TREND, last[index], index))
