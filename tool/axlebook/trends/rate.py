"""How fast a quantity changes, from the segments of one or several series: per day, per service day, per mile."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import date
from statistics import median

from axlebook.engineering.wear import Trend, common_slope, wear_trend

from .series import Dated, Series

Clock = Callable[[date], float]


def by_day(day: date) -> float:
    """Days as the clock of a trend."""
    return float(day.toordinal())


def timed(series: Iterable[Series], clock: Clock = by_day) -> list[tuple[list[float], list[float]]]:
    """Segments as pairs of times and values, as the formulas take them; those of one value are kept for their count."""
    return [
        ([clock(p.day) for p in segment.points], [float(p.value) for p in segment.points])
        for one in series
        for segment in one.segments
    ]


def median_slope(series: Sequence[Series], clock: Clock = by_day) -> float | None:
    """The common slope of all segments, from pairs within a segment only; None below three values in one."""
    segments = [segment for segment in timed(series, clock) if len(segment[0]) >= 3]
    return common_slope(segments) if segments else None


def trend(series: Sequence[Series], resolution: float | None, clock: Clock = by_day) -> Trend | None:
    """Slope with its confidence interval; None below three values, no interval below five."""
    segments = [segment for segment in timed(series, clock) if len(segment[0]) >= 2]
    return wear_trend(segments, resolution=resolution) if segments else None


def scatter(points: Sequence[Dated], slope: float) -> float:
    """How far values lie off a line of this slope: the median distance from the middle line, in SI."""
    levels = [float(point.value) - slope * by_day(point.day) for point in points]
    middle = median(levels)
    return median(abs(level - middle) for level in levels)
