"""Uncertainty and decisions, against the `uncertainties` package and a Monte Carlo with a fixed seed."""

from __future__ import annotations

import math

import numpy as np
import pytest
import uncertainties
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from axlebook.engineering.uncertainty import (
    combined_standard_uncertainty,
    conformance_probability,
    effective_degrees_of_freedom,
    guard_banded_decision,
    instrument_uncertainty,
    interference_temperature_uncertainty,
    rectangular_uncertainty,
    repeat_uncertainty,
    resolution_uncertainty,
)

FIT = {
    "center_offset": 15.0,
    "bore_offset": -8.0,
    "expansion": 11.7e-6,
    "expansion_uncertainty": 0.6e-6,
    "center_temperature_uncertainty": 1.0,
    "bore_temperature_uncertainty": 0.5,
}


def test_the_parts_of_a_budget_worked_by_hand() -> None:
    # .001 in read to .0005; certificate .0004 with k 2; readings 3, 4, 5: s 1, over sqrt 3.
    assert resolution_uncertainty(0.0005) == pytest.approx(0.000144338, rel=1e-5)
    assert instrument_uncertainty(0.0004, 2.0) == 0.0002
    assert repeat_uncertainty([3.0, 4.0, 5.0]) == pytest.approx(1.0 / math.sqrt(3.0))
    assert rectangular_uncertainty(0.0003) == pytest.approx(0.000173205, rel=1e-5)


def test_a_correlated_sum_agrees_with_the_uncertainties_package() -> None:
    sigma, slopes = [0.3, 0.2, 0.5], [1.5, -2.0, 0.7]
    correlation = [[1.0, 0.8, -0.2], [0.8, 1.0, 0.1], [-0.2, 0.1, 1.0]]
    covariance = [[correlation[i][j] * sigma[i] * sigma[j] for j in range(3)] for i in range(3)]
    a, b, c = uncertainties.correlated_values([1.0, 2.0, 3.0], covariance)
    expected = (1.5 * a - 2.0 * b + 0.7 * c).std_dev
    assert combined_standard_uncertainty(sigma, slopes, correlation) == pytest.approx(expected)


def test_the_fits_uncertainty_agrees_with_the_uncertainties_package() -> None:
    alpha = uncertainties.ufloat(11.7e-6, 0.6e-6)
    warm, cold = uncertainties.ufloat(15.0, 1.0), uncertainties.ufloat(-8.0, 0.5)
    delta = 1.4224 * (1 - alpha * warm) - 1.4209 * (1 - alpha * cold)
    assert interference_temperature_uncertainty(1.4224, 1.4209, **FIT) == pytest.approx(delta.std_dev)


def test_the_fits_uncertainty_agrees_with_a_monte_carlo() -> None:
    random, n = np.random.default_rng(20), 200_000
    alpha = random.normal(11.7e-6, 0.6e-6, n)
    warm, cold = random.normal(15.0, 1.0, n), random.normal(-8.0, 0.5, n)
    delta = 1.4224 / (1.0 + alpha * warm) - 1.4209 / (1.0 + alpha * cold)
    expected = float(np.std(delta))
    assert interference_temperature_uncertainty(1.4224, 1.4209, **FIT) == pytest.approx(expected, rel=0.01)


def test_slip_a_shared_coefficient_is_not_two_independent_ones() -> None:
    # Both parts 15 K cold: the shared error cancels but for the 1.5 mm of the fit itself, 1.35e-8 m;
    # two independent errors would give 1.8e-5 m.
    known = {"center_temperature_uncertainty": 0.0, "bore_temperature_uncertainty": 0.0}
    together = FIT | known | {"center_offset": -15.0, "bore_offset": -15.0}
    assert interference_temperature_uncertainty(1.4224, 1.4209, **together) == pytest.approx(
        1.35e-8, rel=1e-6, abs=0.0
    )


@settings(max_examples=40)
@given(parts=st.lists(st.floats(0.0, 10.0), min_size=1, max_size=6))
def test_the_whole_is_no_less_than_its_largest_part_and_no_more_than_the_sum(parts: list[float]) -> None:
    whole = combined_standard_uncertainty(parts)
    assert max(parts) * (1.0 - 1e-12) <= whole <= sum(parts) * (1.0 + 1e-12)


def test_effective_freedom_lies_between_the_least_and_the_sum() -> None:
    assert 4.0 <= effective_degrees_of_freedom([1.0, 2.0], [4.0, 9.0]) <= 13.0
    assert effective_degrees_of_freedom([1.0, 2.0], [math.inf, math.inf]) == math.inf


def test_slip_a_reading_exactly_on_the_limit_is_within_when_nothing_is_uncertain() -> None:
    assert guard_banded_decision(38.0, 0.0, lower=38.0) == "within"
    assert guard_banded_decision(37.999999999, 0.0, lower=38.0) == "outside"


def test_the_guard_band_opens_on_both_sides_of_the_limit() -> None:
    # u 1, so 1.645 each way about 100.
    decisions = [guard_banded_decision(value, 1.0, upper=100.0) for value in (98.3, 98.4, 101.6, 101.7)]
    assert decisions == ["within", "undecided", "undecided", "outside"]


def test_between_two_limits_closer_than_the_guard_bands_nothing_is_within() -> None:
    assert guard_banded_decision(0.5, 1.0, lower=0.0, upper=1.0) == "undecided"


def test_slip_a_reading_is_not_rounded_before_it_is_decided() -> None:
    assert guard_banded_decision(100.0000001, 0.0, upper=100.0) == "outside"


@settings(max_examples=40)
@given(value=st.floats(-5, 5), sigma=st.floats(0.01, 3.0))
def test_the_probability_agrees_with_scipys_normal_distribution(value: float, sigma: float) -> None:
    expected = stats.norm.cdf(1.0, value, sigma) - stats.norm.cdf(-1.0, value, sigma)
    assert conformance_probability(value, sigma, lower=-1.0, upper=1.0) == pytest.approx(expected, abs=1e-12)


def test_a_reading_on_its_guard_band_conforms_with_95_percent() -> None:
    assert conformance_probability(98.355, 1.0, upper=100.0) == pytest.approx(0.95, abs=1e-4)


@pytest.mark.parametrize(
    ("correlation", "message"),
    [
        ([[1.0, 0.5], [0.4, 1.0]], "symmetric"),
        ([[1.0, 1.5], [1.5, 1.0]], "must lie"),
        ([[0.9, 0.0], [0.0, 1.0]], "ones on its diagonal"),
        ([[1.0]], "2 rows"),
        ([[1.0, 0.0], [0.0]], "2 rows of 2"),
        ([[1.0, 0.0], [0.0, 1.0], [0.0, 0.0]], "2 rows of 2"),
    ],
)
def test_correlations_that_cannot_be_are_refused(correlation: list[list[float]], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        combined_standard_uncertainty([1.0, 1.0], None, correlation)


def test_correlations_that_contradict_each_other_are_refused() -> None:
    impossible = [[1.0, -0.9, -0.9], [-0.9, 1.0, -0.9], [-0.9, -0.9, 1.0]]
    with pytest.raises(ValueError, match="negative variance"):
        combined_standard_uncertainty([1.0, 1.0, 1.0], None, impossible)


def test_impossible_uncertainty_is_refused_by_name() -> None:
    with pytest.raises(ValueError, match=r"uncertainties\[1\] must not be negative"):
        combined_standard_uncertainty([1.0, -1.0])
    with pytest.raises(ValueError, match="readings must hold 2 or more"):
        repeat_uncertainty([1.0])
    with pytest.raises(ValueError, match="lower or upper must be given"):
        guard_banded_decision(1.0, 0.1)
    with pytest.raises(ValueError, match="lower must not be above upper"):
        guard_banded_decision(1.0, 0.1, lower=2.0, upper=1.0)
    with pytest.raises(ValueError, match="freedoms must each be above zero"):
        effective_degrees_of_freedom([1.0], [0.0])
    with pytest.raises(ValueError, match="value must be a finite number"):
        guard_banded_decision(math.nan, 0.1, upper=1.0)


def test_inputs_that_move_nothing_leave_no_uncertainty_however_they_go_together() -> None:
    together = [[1.0, 1.0], [1.0, 1.0]]
    assert combined_standard_uncertainty([0.0, 0.0], None, together) == 0.0
    assert combined_standard_uncertainty([1.0, 2.0], [0.0, 0.0], together) == 0.0


def test_one_degree_of_freedom_is_enough_and_none_is_not() -> None:
    assert effective_degrees_of_freedom([2.0], [1.0]) == pytest.approx(1.0)
    assert effective_degrees_of_freedom([1.0, 1.0], [0.5, math.inf]) == pytest.approx(2.0)
    with pytest.raises(ValueError, match="freedoms"):
        effective_degrees_of_freedom([1.0, 1.0], [1.0, 0.0])


@pytest.mark.parametrize("known", [1.0, -1.0])
def test_two_inputs_that_go_wholly_together_or_apart_are_borne(known: float) -> None:
    together = [[1.0, known], [known, 1.0]]
    assert combined_standard_uncertainty([1.0, 2.0], None, together) == pytest.approx(abs(2.0 + known))
    beyond = [[1.0, 1.5 * known], [1.5 * known, 1.0]]
    with pytest.raises(ValueError, match="correlation"):
        combined_standard_uncertainty([1.0, 2.0], None, beyond)


@pytest.mark.parametrize(
    ("reading", "told"),
    [
        (10.5, "within"), (11.5, "within"), (10.499, "undecided"), (11.501, "undecided"),
        (9.5, "undecided"), (12.5, "undecided"), (9.499, "outside"), (12.501, "outside"),
    ],
)  # fmt: skip
def test_on_the_edge_of_its_guard_band_a_reading_is_within_and_on_the_far_edge_not_yet_outside(
    reading: float, told: str
) -> None:
    assert guard_banded_decision(reading, 0.25, lower=10.0, upper=12.0, guard=2.0) == told
