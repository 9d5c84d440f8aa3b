"""Braking heat and loosening: hand-worked figures and the slips that are easy to make."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlebook.engineering import braking

STEEL = 11.7e-6


def test_the_loosening_rise_does_not_know_the_thickness() -> None:
    # .060 on 56 in, 6.5e-6 a degF: 164.8 degF, thick or thin.
    rise = braking.loosening_rise(0.060, 56.0, STEEL)
    assert braking.fahrenheit_difference(rise) == pytest.approx(164.8, abs=0.05)


def test_a_thin_tire_gets_there_in_half_the_time() -> None:
    rise = braking.loosening_rise(0.0015, 1.4, STEEL)
    new = braking.time_to_rise(40e3, 464.0, 480.0, rise)
    worn = braking.time_to_rise(40e3, 232.0, 480.0, rise)
    assert new is not None
    assert worn == pytest.approx(new / 2.0)


def test_the_tread_diameter_is_not_the_seat_diameter() -> None:
    seat, tread = braking.loosening_rise(0.06, 56.0, STEEL), braking.loosening_rise(0.06, 63.0, STEEL)
    assert seat / tread == pytest.approx(63.0 / 56.0)


def test_a_difference_of_fahrenheit_takes_no_32() -> None:
    assert braking.kelvin_difference(32.0) == pytest.approx(17.777777777777779)
    assert braking.kelvin_difference(0.0) == 0.0
    assert braking.fahrenheit_difference(braking.kelvin_difference(164.8)) == pytest.approx(164.8)


def test_no_interference_is_loose_already_and_never_negative() -> None:
    assert braking.loosening_rise(-0.001, 1.4, STEEL) == 0.0


def test_a_warm_center_is_neither_ignored_nor_credited_in_full() -> None:
    cold = braking.loosening_rise(0.0015, 1.4, STEEL)
    shared = braking.loosening_rise_with_warm_center(0.0015, 1.4, STEEL, 0.5)
    assert shared == pytest.approx(2.0 * cold)
    assert braking.loosening_rise_with_warm_center(0.0015, 1.4, STEEL, 0.0) == cold
    assert braking.loosening_rise_with_warm_center(0.0015, 1.4, STEEL, 1.0) is None


def test_a_center_of_one_temperature_grows_as_a_solid_one() -> None:
    spoked = braking.spoked_center_growth(0.70, 0.06, 0.18, STEEL, 0.37, 40.0, 40.0, 40.0)
    assert spoked == pytest.approx(braking.solid_center_growth(1.40, STEEL, 40.0))


def test_a_warm_rim_on_cold_spokes_is_held_back() -> None:
    free = braking.spoked_center_growth(0.70, 0.06, 0.18, STEEL, 1.0, 40.0, 0.0, 0.0)
    held = braking.spoked_center_growth(0.70, 0.06, 0.18, STEEL, 0.0, 40.0, 0.0, 0.0)
    assert free == pytest.approx(2 * STEEL * 0.70 * 40.0)
    assert held == pytest.approx(2 * STEEL * 0.06 * 40.0)


def test_growth_of_tire_and_center_alike_leaves_the_interference() -> None:
    growth = braking.solid_center_growth(1.4, STEEL, 60.0)
    assert braking.hot_interference(0.0015, 1.4, STEEL, 60.0, growth) == pytest.approx(0.0015)


def test_the_margin_starts_from_the_measured_interference_less_its_losses() -> None:
    assert braking.effective_interference(0.060, 0.002, 0.001, 0.004, 0.003) == pytest.approx(0.050)
    assert braking.effective_interference(0.002, uncertainty=0.003) == pytest.approx(-0.001)


def test_a_grade_that_the_train_s_own_resistance_holds_needs_no_brake() -> None:
    assert braking.grade_power(100e3, 0.001, 10.0, resistance=2000.0) == 0.0
    # 100 t x 9.80665 x 0.02 - 2 kN = 17.6133 kN, at 10 m/s.
    assert braking.grade_power(100e3, 0.02, 10.0, 2000.0) == pytest.approx(176133.0)


def test_one_stop_does_not_loosen_a_new_tire() -> None:
    # 20 t on a wheel pair from 60 mile/h: 10 t a wheel, 3.6 MJ, 0.9 of it into 464 kg.
    energy = braking.heat_into_wheel(braking.stop_energy(20e3, 26.82), 2, 0.9)
    assert braking.lumped_rise(energy, 464.0, 480.0) == pytest.approx(14.5, abs=0.1)


def test_a_slowing_takes_less_than_a_stop() -> None:
    assert braking.stop_energy(1000.0, 20.0, 10.0) == pytest.approx(150e3)
    with pytest.raises(ValueError, match="final_speed"):
        braking.stop_energy(1000.0, 10.0, 20.0)


@settings(max_examples=30, deadline=None)
@given(st.floats(1e-5, 4e-3), st.floats(0.5, 2.5), st.floats(0.0, 0.95))
def test_at_the_loosening_rise_nothing_is_left(tight: float, diameter: float, share: float) -> None:
    rise = braking.loosening_rise_with_warm_center(tight, diameter, STEEL, share)
    assert rise is not None
    growth = share * STEEL * diameter * rise
    assert braking.hot_interference(tight, diameter, STEEL, rise, growth) == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("bad", [math.nan, -0.1, 1.1])
def test_an_impossible_share_names_itself(bad: float) -> None:
    with pytest.raises(ValueError, match="share"):
        braking.heat_into_wheel(1.0, 2, bad)
    with pytest.raises(ValueError, match="center_share"):
        braking.loosening_rise_with_warm_center(0.001, 1.4, STEEL, bad)


@pytest.mark.parametrize("share", [-0.1, 1.1, 1.9])
def test_a_rim_has_no_more_than_all_of_the_stiffness(share: float) -> None:
    with pytest.raises(ValueError, match="ring_share"):
        braking.spoked_center_growth(0.71, 0.06, 0.18, 11.7e-6, share, 10.0, 5.0, 1.0)


def test_a_center_warmed_alike_all_over_grows_as_its_metal_does() -> None:
    for share in (0.0, 0.4, 1.0):
        grown = braking.spoked_center_growth(0.71, 0.06, 0.18, 11.7e-6, share, 10.0, 10.0, 10.0)
        assert grown == pytest.approx(2.0 * 0.71 * 11.7e-6 * 10.0)
