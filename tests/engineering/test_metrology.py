"""Readings at temperature, tapes, mean diameters and taper, by hand and by their properties."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlebook.engineering.metrology import (
    REFERENCE_TEMPERATURE,
    length_at_20,
    length_at_temperature,
    mean_diameter,
    missing_temperature_effect,
    out_of_round,
    plain_tape_diameter,
    tape_stretch,
    taper,
    taper_mismatch,
)

INCH = 0.0254
STEEL = 11.7e-6
temperatures = st.floats(250.0, 330.0)


def test_a_true_reading_of_a_warm_part_worked_by_hand() -> None:
    # 1.4224 / (1 + 11.7e-6 x 15) = 1.4221504...
    length = length_at_20(
        1.4224,
        part_temperature=308.15,
        part_expansion=STEEL,
        instrument_temperature=None,
        instrument_expansion=0.0,
    )
    assert length == pytest.approx(1.4221504, abs=5e-8)


def test_a_cold_micrometer_on_a_warm_center_worked_by_hand() -> None:
    # 1.4224 (1 - 11.5e-6 x 10) / (1 + 11.7e-6 x 15) = 1.4219869...
    length = length_at_20(
        1.4224,
        part_temperature=308.15,
        part_expansion=STEEL,
        instrument_temperature=283.15,
        instrument_expansion=11.5e-6,
    )
    assert length == pytest.approx(1.4219869, abs=5e-8)


@settings(max_examples=40)
@given(temperature=temperatures, reading=st.floats(0.1, 2.0))
def test_to_20_degrees_and_back_is_the_reading(temperature: float, reading: float) -> None:
    cold = length_at_20(
        reading,
        part_temperature=temperature,
        part_expansion=STEEL,
        instrument_temperature=None,
        instrument_expansion=0.0,
    )
    assert length_at_temperature(cold, temperature, STEEL) == pytest.approx(reading, rel=1e-14)


@settings(max_examples=40)
@given(temperature=temperatures, reading=st.floats(0.1, 2.0))
def test_slip_an_instrument_that_shares_the_parts_temperature_needs_no_correction(
    temperature: float, reading: float
) -> None:
    length = length_at_20(
        reading,
        part_temperature=temperature,
        part_expansion=STEEL,
        instrument_temperature=temperature,
        instrument_expansion=STEEL,
    )
    assert length == pytest.approx(reading, rel=1e-14)


def test_slip_a_missing_temperature_is_never_68_degrees() -> None:
    with pytest.raises(ValueError, match="instrument_temperature must be given"):
        length_at_20(
            1.4,
            part_temperature=300.0,
            part_expansion=STEEL,
            instrument_temperature=None,
            instrument_expansion=STEEL,
        )
    with pytest.raises(TypeError):
        length_at_20(1.4, part_expansion=STEEL, instrument_expansion=0.0)  # type: ignore[call-arg]


def test_slip_unlike_temperatures_of_center_and_bore_are_each_their_own() -> None:
    # Equal readings of a center at 35 degC and a bore at 10: the true fit is loose by alpha x 25 K x D.
    center, bore = (
        length_at_20(
            1.4224,
            part_temperature=temperature,
            part_expansion=STEEL,
            instrument_temperature=None,
            instrument_expansion=0.0,
        )
        for temperature in (308.15, 283.15)
    )
    assert center - bore == pytest.approx(-STEEL * 25.0 * 1.4224, rel=1e-3)


def test_slip_a_difference_in_degrees_fahrenheit_has_no_32_in_it() -> None:
    # 56 in and 1 degF: .00036 in. With the offset left in it would be a shrinkage.
    effect = missing_temperature_effect(56.0 * INCH, STEEL, 1.0 * 5.0 / 9.0)
    assert round(effect / INCH, 5) == 0.00036


def test_at_20_degrees_nothing_changes() -> None:
    assert length_at_temperature(1.4224, REFERENCE_TEMPERATURE, STEEL) == 1.4224


def test_a_plain_tape_reads_round_its_own_middle() -> None:
    # 51 in tread: pi (51 + .010) = 160.25264 in on the tape.
    assert plain_tape_diameter(160.2526412 * INCH, 0.010 * INCH) / INCH == pytest.approx(51.0, abs=1e-6)


def test_a_tape_pulled_harder_than_it_should_be_reads_short() -> None:
    # A pi tape 12.7 x 0.25 mm under 45 N in place of 20 N: D F / (A E) = 1.3 x 25 / (3.175e-6 x 2e11).
    extra = tape_stretch(1.3, 45.0, 20.0, 0.0127 * 0.00025, 200e9)
    assert extra == pytest.approx(51.181e-6, rel=1e-4)
    assert tape_stretch(1.3, 10.0, 20.0, 0.0127 * 0.00025, 200e9) < 0.0


def test_slip_the_fit_goes_by_the_mean_and_not_by_largest_and_smallest() -> None:
    diameters = [1.0000, 1.0000, 1.0000, 1.0000, 1.0000, 1.0006]
    assert mean_diameter(diameters) == pytest.approx(1.0001)
    assert mean_diameter(diameters) != pytest.approx((max(diameters) + min(diameters)) / 2.0, abs=1e-4)


def test_the_mean_of_an_ovals_diameters_is_its_tape_diameter() -> None:
    angles = np.linspace(0.0, math.pi, 2001)
    long, short = 0.7003, 0.6997
    quarter = np.hypot(long * np.sin(2.0 * angles), short * np.cos(2.0 * angles))
    round_it = float(np.trapezoid(quarter, 2.0 * angles))
    across = [2.0 * math.sqrt((long * math.cos(a)) ** 2 + (short * math.sin(a)) ** 2) for a in angles[:-1]]
    assert mean_diameter(across) == pytest.approx(round_it / math.pi, abs=1e-6)


def test_out_of_round_is_blind_to_three_lobes() -> None:
    radii = {k: 0.7 + 0.0005 * math.cos(3.0 * k * math.pi / 6.0) for k in range(12)}
    assert out_of_round([radii[k] + radii[k + 6] for k in range(6)]) == pytest.approx(0.0, abs=1e-12)


@settings(max_examples=30)
@given(slope=st.floats(-0.01, 0.01), start=st.floats(0.5, 2.0))
def test_a_straight_taper_is_found_exactly(slope: float, start: float) -> None:
    places = [0.0, 0.03, 0.07, 0.12]
    assert taper(places, [start + slope * place for place in places]) == pytest.approx(slope, abs=1e-12)


def test_the_taper_agrees_with_numpys_straight_line() -> None:
    places, diameters = [0.01, 0.04, 0.05, 0.11], [1.4201, 1.4199, 1.4203, 1.4206]
    assert taper(places, diameters) == pytest.approx(np.polyfit(places, diameters, 1)[0])


def test_equal_tapers_leave_the_fit_even() -> None:
    assert taper_mismatch(0.001, 0.001, 0.125) == 0.0


def test_slip_nothing_is_rounded_before_the_decision() -> None:
    assert mean_diameter([1.42240000001, 1.42240000003]) == pytest.approx(1.42240000002, rel=1e-15)


@pytest.mark.parametrize("temperature", [0.0, -5.0, math.nan, math.inf])
def test_impossible_temperatures_are_refused_by_name(temperature: float) -> None:
    with pytest.raises(ValueError, match="part_temperature"):
        length_at_20(
            1.0,
            part_temperature=temperature,
            part_expansion=STEEL,
            instrument_temperature=None,
            instrument_expansion=0.0,
        )


def test_impossible_readings_are_refused_by_name() -> None:
    with pytest.raises(ValueError, match="part_expansion must be above zero"):
        length_at_20(
            1.0,
            part_temperature=300.0,
            part_expansion=-STEEL,
            instrument_temperature=None,
            instrument_expansion=0.0,
        )
    with pytest.raises(ValueError, match="the diameter left"):
        plain_tape_diameter(0.001, 0.01)
    with pytest.raises(ValueError, match=r"diameters\[1\]"):
        mean_diameter([1.0, math.nan])
    with pytest.raises(ValueError, match="positions must not all be the same"):
        taper([0.1, 0.1], [1.0, 1.0])
    with pytest.raises(ValueError, match="modulus must be above zero"):
        tape_stretch(1.0, 1.0, 1.0, 1e-6, 0.0)
