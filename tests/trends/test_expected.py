"""What a value should have been: by hand, from few values, from many, from both sides, past a wild one."""

from __future__ import annotations

import math
from datetime import date
from fractions import Fraction

import pytest

from axlebook.trends.expected import Line, Noise, expect, noise_of, resistant_slope, trimmed_scatter
from axlebook.trends.series import Dated

START = date(2020, 1, 1).toordinal()
NOISE = Noise(1.0, 0.0, 1.0)


def line(times: list[float], values: list[float], gauges: str = "") -> Line:
    gauges = gauges or "a" * len(times)
    points = [
        Dated(date.fromordinal(START + int(t)), Fraction(v), None, (g, ""), 0, None, str(v))
        for t, v, g in zip(times, values, gauges, strict=True)
    ]
    return Line("thing", "quantity", "0 deg", points, times, values, [True] * len(times))


def test_a_slope_is_not_carried_away_by_one_wild_value_of_five() -> None:
    assert resistant_slope([0, 1, 2, 3, 4], [10, 9, 80, 7, 6]) == pytest.approx(-1)


def test_a_slope_of_many_values_is_not_carried_away_by_some() -> None:
    times = [float(t) for t in range(12)]
    values = [100 - 2 * t for t in times]
    values[0] = values[11] = 500.0
    assert resistant_slope(times, values) == pytest.approx(-2, abs=0.3)  # without them -2, by ends alone 0


def test_three_values_make_no_slope() -> None:
    assert resistant_slope([0, 1, 2], [3, 2, 1]) is None


def test_the_scatter_of_few_steps_is_taken_from_the_smaller_half_and_one() -> None:
    # three of four: 1, 1, 1; the share of 3/4 of a normal distribution ends at 1.1503, root mean square 0.6019
    bound = 1.1503493803760079
    expected = math.sqrt(1 - 2 * bound * math.exp(-(bound**2) / 2) / math.sqrt(2 * math.pi) / 0.75)
    assert trimmed_scatter([1, -1, 1, 40]) == pytest.approx(1 / expected)


def test_slips_among_many_steps_do_not_widen_the_scatter_much() -> None:
    steps = [(-1) ** n * (n % 7) for n in range(100)]
    assert trimmed_scatter([*steps, 900, 900]) < 1.2 * trimmed_scatter(steps)


def test_without_history_the_noise_is_what_the_record_says_less_the_division() -> None:
    # variance 1/4 less 1/12 of a division of 1
    assert noise_of([], 1.0, 0.25).scatter == pytest.approx(math.sqrt(0.25 - 1 / 12))


def test_noise_never_falls_below_a_share_of_the_division() -> None:
    assert noise_of([0.0] * 500, 1.0, 0.09).scatter == pytest.approx(0.18)


def test_between_two_values_the_middle_is_expected() -> None:
    found = expect(line([0, 10, 20], [5, 99, 7]), 1, 0.1, 0.0, {"a": NOISE})
    # 5 + 1 from before, 7 - 1 from after
    assert found is not None
    assert found.value == pytest.approx(6)
    # half of each variance, (1 + 1) / 4, its own 1, and half a rate of .1 over half of 10 days
    assert found.spread == pytest.approx(math.sqrt(1 + 0.5 + (0.5 * 0.1 * 10 / 2) ** 2))


def test_past_the_last_value_the_rate_is_carried_on() -> None:
    found = expect(line([0, 10], [5, 99]), 1, -0.1, 0.0, {"a": NOISE})
    assert found is not None
    assert found.value == pytest.approx(4)
    assert found.after is None
    assert found.spread > math.sqrt(2)


def test_a_value_alone_is_expected_by_nothing() -> None:
    assert expect(line([0], [5]), 0, 0.0, 0.0, {"a": NOISE}) is None


def test_a_value_that_is_not_sound_is_not_asked() -> None:
    held = line([0, 10, 20], [5, 50, 9])
    held.sound[1] = False
    found = expect(held, 2, 0.0, 0.0, {"a": NOISE})
    assert found is not None
    assert found.value == 5


def test_a_value_of_the_same_day_is_not_asked() -> None:
    found = expect(line([0, 0, 10], [5, 50, 7]), 0, 0.0, 0.0, {"a": NOISE})
    assert found is not None
    assert found.value == 7


def test_two_certificates_leave_their_uncertainties_open() -> None:
    found = expect(line([0, 10], [5, 5], "ab"), 1, 0.0, 0.0, {"a": Noise(1, 0, 9.0), "b": Noise(1, 0, 16.0)})
    assert found is not None
    assert found.apart == pytest.approx(5)


def test_the_same_instrument_leaves_nothing_open() -> None:
    found = expect(line([0, 10, 20], [5, 5, 5], "aab"), 0, 0.0, 0.0, {"a": Noise(1, 0, 9.0), "b": NOISE})
    assert found is not None
    assert found.apart == 0
