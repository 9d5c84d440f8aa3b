"""Heating a tire: hand-worked figures, properties, and independent integrals."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp

from axlebook.engineering import heating

INCH = 0.0254
STEEL = 11.7e-6


@pytest.mark.parametrize(("per_diameter", "fahrenheit"), [(0.0005, 309.8), (0.001, 386.7)])
def test_a_sixty_thousandths_fit_on_56_inches_asks_for_310_to_387_degf(
    per_diameter: float, fahrenheit: float
) -> None:
    rise = heating.temperature_rise(0.060 * INCH, per_diameter * 56 * INCH, 56 * INCH, STEEL)
    assert 68 + rise * 9 / 5 == pytest.approx(fahrenheit, abs=0.05)


def test_a_radial_interference_taken_for_a_diametral_one_would_halve_the_rise() -> None:
    assert heating.temperature_rise(0.06, 0.0, 56.0, STEEL) == pytest.approx(91.575, abs=0.001)


def test_the_center_s_own_temperature_moves_the_grip_temperature() -> None:
    cold = heating.grip_temperature(0.0015, 1.4, STEEL, 293.15)
    warm = heating.grip_temperature(0.0015, 1.4, STEEL, 303.15)
    assert warm - cold == pytest.approx(10.0, abs=0.02)


def test_a_cast_iron_center_grows_less_with_its_own_warmth() -> None:
    unlike = heating.grip_temperature(0.0, 1.4, 12.0e-6, 343.15, 10.5e-6)
    assert unlike == pytest.approx(293.15 + 50.0 * 10.5 / 12.0, abs=1e-6)


def test_at_the_grip_temperature_the_clearance_is_gone() -> None:
    grip = heating.grip_temperature(0.0015, 1.4, STEEL, 293.15)
    assert heating.clearance_when_hot(0.0015, 1.4, STEEL, grip - 293.15) == pytest.approx(0.0, abs=1e-12)


def test_a_quarter_inch_is_said_of_the_circumference_and_not_of_the_diameter() -> None:
    across = heating.diameter_growth(56.0, STEEL, 125.0)
    assert across == pytest.approx(0.0819, abs=0.0001)
    assert heating.circumference_growth(56.0, STEEL, 125.0) == pytest.approx(0.2573, abs=0.0001)


def test_the_area_mean_of_a_straight_profile_agrees_with_quadrature() -> None:
    inner, outer = 0.70, 0.80
    weighted = quad(lambda r: (400.0 + 1000.0 * (r - inner)) * r, inner, outer)[0]
    ours = heating.area_mean_temperature([inner, 0.74, outer], [400.0, 440.0, 500.0])
    assert ours == pytest.approx(2.0 * weighted / (outer**2 - inner**2), rel=1e-12)


def test_the_plain_mean_is_not_the_area_mean() -> None:
    assert heating.area_mean_temperature([0.0, 1.0], [300.0, 600.0]) == pytest.approx(500.0)


def test_a_bore_s_growth_agrees_with_the_elastic_solution_of_a_free_ring() -> None:
    b, c, nu = 0.70, 0.80, 0.3

    def profile(r: float) -> float:
        return 100.0 * (r - b) / (c - b)

    # Plane stress, u'' + u'/r - u/r^2 = (1 + nu) a T', free faces: shoot from the bore.
    def ode(r: float, y: np.ndarray) -> list[float]:
        return [y[1], -y[1] / r + y[0] / r**2 + (1 + nu) * STEEL * 100.0 / (c - b)]

    def free_face(u: float) -> float:
        slope = (1 + nu) * STEEL * profile(b) - nu * u / b
        end = solve_ivp(ode, (b, c), [u, slope], rtol=1e-10, atol=1e-16).y[:, -1]
        return float(end[1] + nu * end[0] / c - (1 + nu) * STEEL * profile(c))

    low, high = free_face(0.0), free_face(1e-3)
    radial = -low * 1e-3 / (high - low)
    ours = heating.bore_growth([b, c], [293.15, 393.15], STEEL)
    assert ours == pytest.approx(2.0 * radial, rel=1e-6)


def test_tread_and_bore_against_the_mean_follow_the_steady_parabola() -> None:
    # T - mean = (q t / k) (x^2/(2 t^2) - 1/6), x from the insulated bore: 1/3 at the tread, -1/6 at the bore.
    mean = quad(lambda x: x**2 / 2.0, 0.0, 1.0)[0]
    assert heating.tread_above_mean(1000.0, 0.1, 50.0) == pytest.approx(2.0 * (0.5 - mean))
    assert heating.bore_below_mean(1000.0, 0.1, 50.0) == pytest.approx(2.0 * mean)


def test_heating_with_losses_agrees_with_the_differential_equation() -> None:
    power, capacity, loss = 20e3, 464.0 * 480.0, 60.0
    seconds = heating.heating_time(power, 464.0, 480.0, 150.0, loss)
    assert seconds is not None
    end = solve_ivp(lambda _, t: (power - loss * t) / capacity, (0.0, seconds), [0.0], rtol=1e-10).y[0, -1]
    assert end == pytest.approx(150.0, rel=1e-6)


def test_a_power_that_the_losses_eat_never_gets_there() -> None:
    assert heating.heating_time(6000.0, 464.0, 480.0, 100.0, 60.0) is None
    assert heating.heating_time(6001.0, 464.0, 480.0, 100.0, 60.0) is not None


def test_without_losses_the_time_is_energy_over_power() -> None:
    assert heating.heating_time(1000.0, 10.0, 500.0, 20.0) == pytest.approx(100.0)
    assert heating.heating_energy(10.0, 500.0, 20.0) == pytest.approx(1e5)


def test_the_time_window_closes_at_the_grip_temperature() -> None:
    assert heating.cooling_time(100.0, 500.0, 50.0, 400.0, 400.0, 293.0) == 0.0
    assert heating.cooling_time(100.0, 500.0, 50.0, 400.0, 293.0, 293.0) is None
    half = heating.cooling_time(100.0, 500.0, 50.0, 493.0, 393.0, 293.0)
    assert half == pytest.approx(1000.0 * math.log(2.0))


def test_a_crayon_is_evidence_of_an_interval() -> None:
    assert heating.crayon_interval([366.0, 422.0], [450.0, 477.0]) == (422.0, 450.0)
    assert heating.crayon_interval([], []) == (None, None)
    with pytest.raises(ValueError, match="rated no higher"):
        heating.crayon_interval([450.0], [366.0])


def test_the_pull_off_the_register_is_that_of_the_width() -> None:
    assert heating.axial_shortening(5.5, 6.5e-6, 165.0) == pytest.approx(0.0059, abs=0.00005)


def test_unevenness_is_hottest_less_coldest() -> None:
    assert heating.unevenness([440.0, 447.0, 433.0]) == 14.0


@settings(max_examples=30, deadline=None)
@given(st.floats(0.2, 3.0), st.floats(0.0, 0.003), st.floats(0.0, 0.003))
def test_the_rise_and_the_clearance_are_there_and_back(bore: float, tight: float, clear: float) -> None:
    rise = heating.temperature_rise(tight, clear, bore, STEEL)
    assert heating.clearance_when_hot(tight, bore, STEEL, rise) == pytest.approx(clear, abs=1e-12)


@settings(max_examples=30, deadline=None)
@given(st.lists(st.floats(280.0, 900.0), min_size=2, max_size=8))
def test_the_area_mean_lies_among_the_temperatures(temperatures: list[float]) -> None:
    radii = [0.7 + 0.01 * i for i in range(len(temperatures))]
    mean = heating.area_mean_temperature(radii, temperatures)
    assert min(temperatures) - 1e-9 <= mean <= max(temperatures) + 1e-9


@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0, 0.0])
def test_an_impossible_bore_names_itself(bad: float) -> None:
    with pytest.raises(ValueError, match="bore"):
        heating.temperature_rise(0.001, 0.0, bad, STEEL)
    with pytest.raises(ValueError, match="surroundings"):
        heating.cooling_time(1.0, 1.0, 1.0, 400.0, 300.0, bad)


@pytest.mark.parametrize("share", [1.0001, 1.5, -0.1, 0.0])
def test_a_share_left_is_between_none_and_all(share: float) -> None:
    with pytest.raises(ValueError, match="remaining"):
        heating.soak_time(0.0889, 12.0e-6, share)


def test_all_left_takes_no_time_and_a_tenth_as_long_as_it_takes_the_slowest_wave() -> None:
    assert heating.soak_time(0.1, 1e-5, 1.0) == 0.0
    assert heating.soak_time(0.1, 1e-5, 0.1) == pytest.approx(0.01 * math.log(10.0) / (math.pi**2 * 1e-5))


def test_radii_that_do_not_rise_are_named_by_their_places() -> None:
    with pytest.raises(ValueError, match=r"radii\[1\].*radii\[2\]"):
        heating.area_mean_temperature([0.7, 0.8, 0.75], [400.0, 400.0, 400.0])
