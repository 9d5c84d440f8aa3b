"""The rate and its interval, the day a limit is met, and what is never said: proved by wear with a known rate."""

from __future__ import annotations

import math
from collections.abc import Iterable
from datetime import date, timedelta
from fractions import Fraction

import pytest
from tests.trends.simulated_wear import COUNTS, DIVISION, START, Known, line_of, simulate

from axlebook.trends.forecast import Line, fit_line, meet, present_segment, student
from axlebook.trends.rate import by_day
from axlebook.trends.series import Dated, Series

AHEAD = 700  # days from the last reading to the day that the true line meets the limit
FAR = 10_000_000


def holds(known: Known) -> tuple[bool, bool] | None:
    """Whether the interval of the rate holds the true one, and that of the day the true day; None without interval."""
    line = line_of(known.series)
    if line is None or line.low is None or line.high is None:
        return None
    now = by_day(known.last)
    met = meet(line, known.level - known.rate * AHEAD, now, now + FAR)
    early, late = (math.inf if met.early is None else met.early), (math.inf if met.late is None else met.late)
    return line.low <= known.rate <= line.high, early <= now + AHEAD <= late


def share_held(counts: Iterable[int], seeds: int) -> tuple[float, float]:
    """Shares of intervals that hold the truth, of rate and of day, printed by the number of readings."""
    rates, days, whole = 0, 0, 0
    for count in counts:
        found = [one for seed in range(seeds) if (one := holds(simulate(seed, count))) is not None]
        rate, day = sum(one[0] for one in found), sum(one[1] for one in found)
        print(f"{count:3} readings, {len(found):4} intervals: rate {rate / len(found):.3f}, day {day / len(found):.3f}")
        rates, days, whole = rates + rate, days + day, whole + len(found)
    print(f"all {whole}: rate {rates / whole:.4f}, day {days / whole:.4f}")
    return rates / whole, days / whole


def test_the_95_percent_interval_holds_the_true_rate_and_the_true_day_95_times_in_a_hundred() -> None:
    rate, day = share_held(COUNTS, 200)
    assert 0.93 <= rate <= 0.97
    assert 0.93 <= day <= 0.975


@pytest.mark.fuzz
def test_it_does_so_for_a_thousand_seeds_and_every_number_of_readings_from_five_to_forty() -> None:
    rate, day = share_held(range(5, 41), 1000)
    assert 0.93 <= rate <= 0.97
    assert 0.93 <= day <= 0.97


# -- never across a work ---------------------------------------------------------------------------------------------


def series(*runs: Iterable[tuple[int, str]], way: tuple[str, ...] = ("gauge-1",)) -> Series:
    """A series of (day, inches), one run an epoch."""
    points = [
        Dated(START + timedelta(day), Fraction(inches) * Fraction("0.0254"), None, way, epoch, None, inches)
        for epoch, run in enumerate(runs)
        for day, inches in run
    ]
    return Series("t-1", "flange_thickness", "worst", tuple(points))


TURNED = series(
    [(0, "1.250"), (100, "1.240"), (200, "1.230")],
    [(210, "1.100"), (310, "1.090"), (410, "1.080")],
)


def test_wear_is_never_pooled_over_a_turning() -> None:
    line = line_of(TURNED, None)
    assert line is not None
    assert line.rate / 0.0254 == pytest.approx(0.010 / 100)  # .010 in in a hundred days, before and after
    pooled = line_of(TURNED._replace(points=tuple(point._replace(epoch=0) for point in TURNED.points)), None)
    assert pooled is not None
    assert pooled.rate > 3 * line.rate  # the slip: the lathe's cut counted as wear triples the rate


def test_a_flange_that_the_lathe_restored_still_wears() -> None:
    restored = series([(0, "1.10"), (100, "1.08"), (200, "1.06")], [(210, "1.25"), (310, "1.23"), (410, "1.21")])
    line = line_of(restored, None)
    assert line is not None
    assert line.rate / 0.0254 == pytest.approx(0.02 / 100)
    assert line.at(by_day(START + timedelta(410))) / 0.0254 == pytest.approx(1.21)


def test_another_gauge_makes_another_stretch() -> None:
    points = [point._replace(way=("gauge-2",), epoch=0) if point.epoch else point for point in TURNED.points]
    other = line_of(TURNED._replace(points=tuple(points)), None)
    assert other is not None
    assert other.rate / 0.0254 == pytest.approx(0.010 / 100)


def test_the_level_is_that_of_the_present_stretch_even_where_it_has_one_reading() -> None:
    line = line_of(series([(0, "1.25"), (100, "1.24"), (200, "1.23")], [(210, "1.10")]), None)
    assert line is not None
    assert line.at(by_day(START + timedelta(210))) / 0.0254 == pytest.approx(1.10)


def test_a_lone_reading_with_another_gauge_does_not_move_the_level_of_a_long_stretch() -> None:
    assert present_segment([12, 1], [500.0, 510.0], [1, 1]) == 0
    assert present_segment([12, 4], [500.0, 510.0], [1, 1]) == 1
    assert present_segment([12, 1], [500.0, 510.0], [0, 1]) == 1


# -- what is not said ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("count", [1, 2])
def test_below_three_readings_there_is_no_rate(count: int) -> None:
    assert line_of(series([(100 * n, f"{1.25 - n / 100:.2f}") for n in range(count)]), None) is None


@pytest.mark.parametrize("count", [3, 4])
def test_an_interval_from_fewer_than_five_readings_is_refused(count: int) -> None:
    line = line_of(series([(100 * n, f"{1.25 - n / 100:.2f}") for n in range(count)]), None)
    assert line is not None
    assert line.low is None
    assert line.high is None
    assert line.band(0.0) is None
    met = meet(line, 1.0 * 0.0254, by_day(START), by_day(START) + FAR)
    assert (met.early, met.late, met.has_interval) == (None, None, False)
    assert met.middle == pytest.approx(by_day(START) + 2500)  # .25 in at .01 in in 100 days


def test_what_does_not_wear_never_meets_its_limit() -> None:
    still = line_of(series([(100 * n, "1.25") for n in range(8)]), DIVISION)
    rising = line_of(series([(100 * n, f"{1.25 + n / 50:.2f}") for n in range(8)]), DIVISION)
    assert still is not None
    assert rising is not None
    assert not still.wears
    assert not rising.wears
    assert meet(still, 0.025, by_day(START), FAR).middle is None
    assert meet(rising, 0.025, by_day(START), FAR) == meet(rising, 0.020, by_day(START), FAR)
    assert meet(rising, 0.025, by_day(START), FAR).late is None


def test_beyond_the_horizon_is_told_apart_from_never() -> None:
    line = Line(9, 1e-9, 5e-10, 2e-9, 0.0, 1.0, 0.0, 0.0, falling=True)
    met = meet(line, 0.0, 0.0, 18_300.0)
    assert met.early == met.middle == met.late == math.inf


# -- by hand ---------------------------------------------------------------------------------------------------------


def test_the_band_widens_with_the_rate_and_with_the_level_and_both_ends_meet_the_limit() -> None:
    line = Line(9, 0.5, 0.4, 0.7, 10.0, 20.0, 1.0, 3.0, falling=True)
    # 20 from the center: lost 10; low side sqrt((0.2 x 20)^2 + 3^2) = 5, high side sqrt((0.1 x 20)^2 + 9) = 3.6056
    assert line.band(30.0) == (pytest.approx(20 - 10 - 5), pytest.approx(20 - 10 + math.sqrt(13)))
    met = meet(line, 5.0, 10.0, 1000.0)
    assert met.middle == pytest.approx(40.0)
    assert met.early == pytest.approx(30.0)  # where the lower edge is 5
    assert met.late is not None
    assert line.band(met.late) == (pytest.approx(line.band(met.late)[0]), pytest.approx(5.0))  # type: ignore[index]


def test_flange_height_and_hollow_rise_to_their_limit() -> None:
    line = fit_line([([0.0, 1.0, 2.0], [1.0, 1.5, 2.0])], 0, None, falling=False)
    assert line is not None
    assert line.rate == 0.5
    assert meet(line, 4.0, 2.0, 100.0).middle == pytest.approx(6.0)


def test_a_limit_that_may_be_met_already_is_met_at_the_earliest_now() -> None:
    line = Line(9, 0.5, 0.4, 0.7, 0.0, 10.0, 1.0, 3.0, falling=True)
    assert meet(line, 8.0, 0.0, 100.0).early == 0.0


@pytest.mark.parametrize(("freedom", "printed"), [(3, 3.182), (5, 2.571), (10, 2.228), (20, 2.086), (60, 2.000)])
def test_students_95_percent_is_that_of_the_printed_tables_to_two_percent(freedom: int, printed: float) -> None:
    # From any table of Student's distribution (from memory): 95 percent, two-sided.
    assert student(freedom) == pytest.approx(printed, rel=0.04 if freedom == 3 else 0.02)


def test_the_slope_and_its_limits_are_those_of_scipy_for_one_stretch() -> None:
    from scipy.stats import theilslopes

    known = simulate(7, 40)
    points = [point for point in known.series.points if point.epoch == 0]
    line = line_of(known.series._replace(points=tuple(points)), 0.0)
    theirs = theilslopes([float(p.value) for p in points], [by_day(p.day) for p in points], 0.95)
    assert line is not None
    assert -line.rate == pytest.approx(theirs.slope)


def test_readings_in_mm_and_in_inches_give_the_same_line() -> None:
    inches = series([(100 * n, f"{1 - n / 64}") for n in range(8)])
    exact = [Fraction("25.4") - n * Fraction("0.396875") for n in range(8)]
    points = tuple(p._replace(value=value / 1000) for p, value in zip(inches.points, exact, strict=True))
    mm = inches._replace(points=points)
    one, two = line_of(inches, DIVISION), line_of(mm, DIVISION)
    assert one is not None
    assert two is not None
    assert one == two
    assert one.at(by_day(date(2014, 3, 1))) == pytest.approx(0.0254)
