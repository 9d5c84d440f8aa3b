"""The gauge of a pair, by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlebook.engineering.gauge import (
    FlangeBack,
    Sense,
    back_to_back,
    frog_margins,
    mismatch,
    off_center,
    over_flanges,
    register_pull_off,
    stacked_tolerance,
    variation,
    wheel_check,
)

INCH = 0.0254
PULL = {
    "pressure": 20e6,
    "seat_radius": 0.7112,
    "tread_radius": 0.8001,
    "modulus": 205e9,
    "poisson": 0.29,
}


def test_two_flange_backs_inward_of_their_registers_close_the_pair() -> None:
    inward = FlangeBack(0.5 * INCH, Sense.INWARD)
    assert back_to_back(54.375 * INCH, inward, inward) / INCH == pytest.approx(53.375)


def test_slip_the_sense_of_the_register_is_never_left_to_a_sign() -> None:
    outward = FlangeBack(0.5 * INCH, Sense.OUTWARD)
    assert back_to_back(52.375 * INCH, outward, outward) / INCH == pytest.approx(53.375)
    with pytest.raises(ValueError, match="distance must not be negative"):
        FlangeBack(-0.5 * INCH, Sense.INWARD)


def test_unlike_senses_cancel() -> None:
    inward, outward = FlangeBack(0.02, Sense.INWARD), FlangeBack(0.02, Sense.OUTWARD)
    assert back_to_back(1.357, inward, outward) == pytest.approx(1.357)


def test_the_stack_worked_by_hand() -> None:
    # 3, 4 and 12 thousandths: 19 in the worst case, 13 as independent errors.
    worst, likely = stacked_tolerance([0.003, -0.004, 0.012])
    assert worst == pytest.approx(0.019)
    assert likely == pytest.approx(0.013)


@settings(max_examples=30)
@given(tolerances=st.lists(st.floats(0.0, 0.01), min_size=1, max_size=6))
def test_independent_errors_never_exceed_the_worst_case(tolerances: list[float]) -> None:
    worst, likely = stacked_tolerance(tolerances)
    assert likely <= worst * (1.0 + 1e-12)


def test_the_root_sum_square_agrees_with_a_monte_carlo() -> None:
    random = np.random.default_rng(4)
    tolerances = [0.0003, 0.0002, 0.0004]
    total = sum(random.normal(0.0, t, 200_000) for t in tolerances)
    assert stacked_tolerance(tolerances).root_sum_square == pytest.approx(float(np.std(total)), rel=0.01)


def test_flanges_and_checks_worked_by_hand() -> None:
    assert over_flanges(53.375 * INCH, 1.125 * INCH, 1.25 * INCH) / INCH == pytest.approx(55.75)
    assert wheel_check(53.375 * INCH, 1.25 * INCH) / INCH == pytest.approx(54.625)


def test_slip_the_thicker_flange_decides_at_the_frog_and_not_the_mean_of_the_two() -> None:
    # Check 54 5/8 with the 1 1/4 in flange against a guard check of 54 9/16: 1/16 short.
    for flanges in ((1.0, 1.25), (1.25, 1.0)):
        margins = frog_margins(
            53.375 * INCH, flanges[0] * INCH, flanges[1] * INCH, 54.5625 * INCH, 53.0 * INCH
        )
        assert margins.guard_check / INCH == pytest.approx(-0.0625)
        assert margins.guard_face / INCH == pytest.approx(0.375)


def test_wider_pairs_gain_at_the_guard_faces_what_they_lose_at_the_point() -> None:
    narrow, wide = (frog_margins(b, 0.029, 0.029, 1.390, 1.353) for b in (1.356, 1.358))
    assert wide.guard_face - narrow.guard_face == pytest.approx(0.002)
    assert wide.guard_check - narrow.guard_check == pytest.approx(-0.002)


def test_the_pull_off_the_register_worked_by_hand() -> None:
    # .14 (11.7e-6 x 90 + .29 x 2 x 20e6 x .505805 / (.134355 x 205e9)) = .14 (1.053e-3 + 2.1303e-4).
    assert register_pull_off(0.14, 90.0, 11.7e-6, **PULL) == pytest.approx(0.17724e-3, rel=1e-4)


def test_a_tire_that_grips_cold_still_draws_in_by_its_hoop_tension() -> None:
    assert register_pull_off(0.14, 0.0, 11.7e-6, **PULL) == pytest.approx(0.14 * 2.1303e-4, rel=1e-4)


def test_variation_and_mismatch_keep_their_signs() -> None:
    assert variation([1.3570, 1.3575, 1.3568]) == pytest.approx(0.0007)
    assert mismatch(1.2950, 1.2954) == pytest.approx(-0.0004)
    assert off_center(0.100, 0.102) == pytest.approx(-0.001)


def test_impossible_gauges_are_refused_by_name() -> None:
    with pytest.raises(ValueError, match="the back to back left"):
        back_to_back(0.05, FlangeBack(0.03, Sense.INWARD), FlangeBack(0.03, Sense.INWARD))
    with pytest.raises(ValueError, match="guard_check must be above zero"):
        frog_margins(1.357, 0.029, 0.029, 0.0, 1.35)
    with pytest.raises(ValueError, match="grip_temperature_drop must not be negative"):
        register_pull_off(0.14, -90.0, 11.7e-6, **PULL)
    with pytest.raises(ValueError, match="seat_radius must be below tread_radius"):
        register_pull_off(0.14, 90.0, 11.7e-6, **(PULL | {"tread_radius": 0.7}))
    with pytest.raises(ValueError, match="tolerances must hold 1 or more"):
        stacked_tolerance([])
    with pytest.raises(ValueError, match=r"readings\[0\] must be a finite number"):
        variation([math.nan, 1.0])
