"""Wear: hand-worked lines, scipy, and whether the stated interval holds the truth."""

from __future__ import annotations

import itertools
import math
import random
from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import theilslopes

from axlebook.engineering import wear
from axlebook.engineering.wear import Segment, Trend


def test_three_readings_give_a_trend_but_no_interval() -> None:
    trend = wear.wear_trend([([0, 1, 2], [10.0, 9.0, 8.0])])
    assert trend == Trend(-1.0, 10.0, None, None, None, None, 3)


def test_two_readings_give_no_trend() -> None:
    assert wear.wear_trend([([0, 1], [10.0, 9.0])]) is None
    assert wear.theil_sen_slope([0, 0, 0], [1.0, 2.0, 3.0]) is None


def test_four_readings_give_no_interval_and_five_do() -> None:
    four: Segment = ([0, 1, 2, 3], [9.0, 8.1, 6.9, 6.0])
    assert wear.slope_interval([four]) is None
    assert wear.slope_interval([([*four[0], 4], [*four[1], 5.1])]) is not None


def test_five_readings_in_scattered_pairs_do_not_claim_what_they_cannot() -> None:
    # A three and a two: 12 orders, so even the widest interval holds 1 - 2/12 only.
    assert wear.slope_interval([([0, 1, 2], [9.0, 8.0, 7.5]), ([3, 4], [9.0, 8.2])]) is None


def test_a_slope_pooled_over_a_turning_is_not_the_wear() -> None:
    before: Segment = ([0, 1, 2, 3], [3.00, 2.99, 2.98, 2.97])
    after: Segment = ([4, 5, 6, 7], [2.72, 2.71, 2.70, 2.69])
    assert wear.common_slope([before, after]) == pytest.approx(-0.01)
    pooled = wear.theil_sen_slope([*before[0], *after[0]], [*before[1], *after[1]])
    assert pooled is not None
    assert pooled < -0.03


def test_the_level_is_that_of_the_last_segment() -> None:
    trend = wear.wear_trend([([0, 1, 2], [3.0, 2.9, 2.8]), ([3], [2.0])])
    assert trend is not None
    assert trend.intercept + 3 * trend.slope == pytest.approx(2.0)


def test_the_slope_agrees_with_scipy() -> None:
    dice = random.Random(4)
    for size in (3, 4, 9, 30):
        times = [dice.uniform(0, 10) for _ in range(size)]
        readings = [5 - 0.3 * t + dice.gauss(0, 0.2) for t in times]
        ours = wear.wear_trend([(times, readings)])
        theirs = theilslopes(readings, times, method="joint")  # type: ignore[call-overload]
        assert ours is not None
        assert ours.slope == pytest.approx(theirs.slope)
        assert ours.intercept == pytest.approx(theirs.intercept)


def test_many_readings_give_scipy_s_interval_to_within_a_rank() -> None:
    dice = random.Random(5)
    times = [float(i) for i in range(80)]
    readings = [50 - 0.3 * t + dice.gauss(0, 1.0) for t in times]
    ours = wear.slope_interval([(times, readings)])
    theirs = theilslopes(readings, times, 0.95)
    assert ours is not None
    assert ours == pytest.approx((theirs.low_slope, theirs.high_slope), rel=0.005)


@pytest.mark.parametrize("groups", [((1, 1, 1, 1),), ((1, 1, 2),), ((1, 1, 1), (1, 2)), ((2, 2),)])
def test_the_orders_counted_are_those_of_trying_all(groups: tuple[tuple[int, ...], ...]) -> None:
    def inversions(group: tuple[int, ...]) -> Counter[int]:
        labels = [place for place, size in enumerate(group) for _ in range(size)]
        orders = set(itertools.permutations(labels))
        return Counter(sum(a > b for a, b in itertools.combinations(order, 2)) for order in orders)

    total: Counter[int] = Counter({0: 1})
    for group in groups:
        joined: Counter[int] = Counter()
        for (a, m), (b, n) in itertools.product(total.items(), inversions(group).items()):
            joined[a + b] += m * n
        total = joined
    pairs = max(total)
    expected = tuple(total[i] for i in range(pairs // 2 + 1))
    assert wear._lower_half_of_orders(groups, pairs) == expected
    assert wear._all_orders(groups) == sum(total.values())


def test_exact_and_normal_ranks_meet_at_sixty_readings() -> None:
    for groups in (((1,) * 60,), ((1,) * 30, (1,) * 30)):
        pairs = sum(len(group) * (len(group) - 1) // 2 for group in groups)
        exact, normal = wear._exact_rank(groups, pairs, 0.95), wear._normal_rank(groups, pairs, 0.95)
        assert exact == pytest.approx(normal, rel=0.002)


def simulated(dice: random.Random, sizes: list[int], slope: float, step: float) -> list[Segment]:
    """Readings with noise of one, rounded to a step, with a turning between segments."""
    times = sorted(dice.uniform(0.0, 1.0) for _ in range(sum(sizes)))
    segments: list[Segment] = []
    level = 100.0
    for size in sizes:
        when, times = times[:size], times[size:]
        level -= dice.uniform(3.0, 15.0)
        raw = [level + slope * t + dice.gauss(0.0, 1.0) for t in when]
        segments.append((when, [round(value / step) * step for value in raw] if step else raw))
    return segments


SINGLE = [[5], [6], [8], [10], [14], [20], [28], [40]]
TURNED = [[4, 4], [7, 3], [5, 5, 5], [10, 6], [1, 8, 9], [3, 3, 3, 3], [20, 20], [12, 2, 11]]


@pytest.mark.parametrize(("kinds", "seed"), [(SINGLE, 11), (TURNED, 12)])
@pytest.mark.parametrize("step", [0.0, 0.5, 1.0, 1.5])
def test_the_95_percent_interval_holds_the_truth_95_times_in_a_hundred(
    kinds: list[list[int]], seed: int, step: float
) -> None:
    dice, runs, held = random.Random(seed), 3000, 0
    for count in range(runs):
        slope = -math.exp(dice.uniform(math.log(5.0), math.log(100.0)))
        interval = wear.slope_interval(
            simulated(dice, kinds[count % len(kinds)], slope, step), resolution=step
        )
        assert interval is not None
        held += interval[0] <= slope <= interval[1]
    assert 0.93 <= held / runs <= 0.97


def test_readings_all_alike_say_nothing_unless_their_step_is_known() -> None:
    alike: Segment = ([0, 1, 2, 3, 4, 5], [2.5] * 6)
    assert wear.slope_interval([alike]) is None
    interval = wear.slope_interval([alike], resolution=0.0625)
    assert interval is not None
    assert interval[0] < 0.0 < interval[1]


def test_wear_with_the_wrong_sign_never_meets_the_limit() -> None:
    assert wear.time_to_limit(0.001, 3.0, 2.0, falling=True) is None
    assert wear.time_to_limit(0.0, 3.0, 2.0, falling=True) is None
    assert wear.time_to_limit(-0.001, 1.0, 1.5, falling=False) is None
    assert wear.time_to_limit(0.25, 1.0, 1.5, falling=False) == 2.0


def test_the_latest_time_is_never_when_the_interval_spans_no_wear() -> None:
    trend = Trend(-0.1, 3.0, -0.3, 0.1, 3.2, 2.8, 6)
    early, late = wear.time_to_limit_interval(trend, 2.0, falling=True) or (None, None)
    assert early == pytest.approx(4.0)
    assert late is None


def test_a_trend_without_an_interval_has_none_to_a_limit() -> None:
    assert wear.time_to_limit_interval(Trend(-1.0, 3.0, None, None, None, None, 4), 2.0, True) is None


def test_metal_lost_is_positive_whichever_way_the_reading_goes() -> None:
    assert wear.wear_rate(-0.5, falling=True) == 0.5
    assert wear.wear_rate(0.5, falling=False) == 0.5


def test_tread_wear_of_an_eighth_reads_as_45_thousandths_more_flange() -> None:
    assert wear.flange_thickness_rise(0.125, math.radians(70)) == pytest.approx(0.0455, abs=0.00005)


def test_a_flat_s_depth_agrees_with_the_chord() -> None:
    exact = 0.8 - math.sqrt(0.8**2 - 0.03175**2)
    assert wear.flat_depth(0.0635, 1.6) == pytest.approx(exact, rel=0.001)


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.tuples(st.floats(0, 100), st.floats(-50, 50)), min_size=3, max_size=12),
    st.floats(-5, 5),
)
def test_adding_a_slope_to_the_readings_adds_it_to_the_trend(
    rows: list[tuple[float, float]], added: float
) -> None:
    times = [round(t, 1) for t, _ in rows]
    readings = [y for _, y in rows]
    slope = wear.theil_sen_slope(times, readings)
    tilted = wear.theil_sen_slope(times, [y + added * t for t, y in zip(times, readings, strict=True)])
    if slope is None:
        assert tilted is None
    else:
        assert tilted == pytest.approx(slope + added, abs=1e-6)


def test_order_of_the_readings_does_not_matter() -> None:
    times, readings = [4.0, 0.0, 2.0, 1.0, 3.0], [1.0, 9.0, 5.5, 7.0, 3.0]
    order = sorted(range(5), key=times.__getitem__)
    assert wear.wear_trend([(times, readings)]) == wear.wear_trend(
        [([times[i] for i in order], [readings[i] for i in order])]
    )


@pytest.mark.parametrize("bad", [math.nan, math.inf])
def test_a_reading_that_is_no_number_names_its_segment(bad: float) -> None:
    with pytest.raises(ValueError, match="readings of segment 0"):
        wear.common_slope([([0, 1, 2], [1.0, bad, 2.0])])
    with pytest.raises(ValueError, match="same length"):
        wear.common_slope([([0, 1, 2], [1.0, 2.0])])


def test_of_five_readings_the_interval_lies_between_the_outermost_slopes_and_the_next() -> None:
    # 120 orders: 1 is all falling, 4 are one exchange from it. Both tails: 2/120, then 10/120; 5 percent lies half way.
    assert wear._exact_rank(((1, 1, 1, 1, 1),), 10, 0.95) == pytest.approx(1.5)
    assert wear._exact_rank(((1, 1, 1, 1),), 6, 0.95) is None  # 24 orders: 2/24 is more than 5 percent
    assert wear._exact_rank(((1, 1, 1, 1),), 6, 1.0 - 2.0 / 24.0) == pytest.approx(1.0)


def test_a_rank_between_two_is_straight_between_them_and_none_lies_beyond_the_ends() -> None:
    ordered = [1.0, 2.0, 4.0]
    assert [wear._at_rank(ordered, rank) for rank in (1.0, 1.5, 2.5, 3.0)] == [1.0, 1.5, 3.0, 4.0]


def test_an_empty_segment_says_nothing_and_a_last_one_has_no_level() -> None:
    read: Segment = ([0, 1, 2], [10.0, 9.0, 8.0])
    assert wear.wear_trend([([], []), read]) == wear.wear_trend([read])
    assert wear.wear_trend([read, ([], [])]) is None


@pytest.mark.parametrize("confidence", [1.0, 1.5, -0.5])
def test_certainty_is_no_confidence(confidence: float) -> None:
    with pytest.raises(ValueError, match="confidence"):
        wear.slope_interval([([0, 1, 2, 3, 4], [9.0, 8.1, 6.9, 6.0, 5.1])], confidence)


def test_with_no_confidence_the_interval_is_the_middle_slope() -> None:
    # Six readings have fifteen slopes: the middle one is the eighth, whose rank is (15 + 1) / 2.
    segment: Segment = ([0, 1, 2, 3, 4, 5], [9.0, 8.1, 6.9, 6.0, 5.3, 3.9])
    assert wear._exact_rank(((1, 1, 1, 1, 1, 1),), 15, 0.0) == 8.0
    middle = wear.common_slope([segment])
    assert wear.slope_interval([segment], 0.0) == pytest.approx((middle, middle), abs=0.02)
