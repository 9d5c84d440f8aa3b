"""The guards of the formulas' arguments."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from axlebook.engineering import _given as given

IMPOSSIBLE = [math.nan, math.inf, -math.inf]


@pytest.mark.parametrize(
    "guard", [given.finite, given.positive, given.not_negative, given.above_absolute_zero]
)
@pytest.mark.parametrize("value", IMPOSSIBLE)
def test_a_number_that_is_none_is_refused_by_name(guard: Callable[[str, float], float], value: float) -> None:
    with pytest.raises(ValueError, match="rim_width must be a finite number"):
        guard("rim_width", value)


def test_zero_is_not_positive_but_not_negative() -> None:
    assert given.not_negative("clearance", 0.0) == 0.0
    with pytest.raises(ValueError, match="clearance must be above zero"):
        given.positive("clearance", 0.0)


def test_minus_one_is_neither() -> None:
    with pytest.raises(ValueError, match="must not be negative"):
        given.not_negative("clearance", -1.0)


def test_absolute_zero_itself_is_refused() -> None:
    with pytest.raises(ValueError, match="above absolute zero"):
        given.above_absolute_zero("tire_temperature", 0.0)


def test_both_ends_of_a_span_are_within_it() -> None:
    assert given.between("share", 0.0, 0.0, 1.0) == 0.0
    assert given.between("share", 1.0, 0.0, 1.0) == 1.0
    with pytest.raises(ValueError, match=r"share must lie from 0\.0 to 1\.0"):
        given.between("share", 1.0000001, 0.0, 1.0)


def test_equal_is_not_smaller() -> None:
    with pytest.raises(ValueError, match="bore_radius must be below tread_radius"):
        given.smaller("bore_radius", 0.7, "tread_radius", 0.7)


def test_a_list_that_is_too_short_says_how_many_it_holds() -> None:
    with pytest.raises(ValueError, match="diameters must hold 2 or more values, but holds 1"):
        given.finite_values("diameters", [1.0], 2)


def test_a_bad_value_in_a_list_is_named_by_its_place() -> None:
    with pytest.raises(ValueError, match=r"diameters\[1\] must be a finite number"):
        given.finite_values("diameters", [1.0, math.nan], 2)


def test_lists_of_different_lengths_are_refused() -> None:
    with pytest.raises(ValueError, match="angles and radii must have the same length"):
        given.same_length("angles", [1.0], "radii", [1.0, 2.0])


def test_no_metal_has_a_poisson_ratio_above_one_half() -> None:
    with pytest.raises(ValueError, match="poisson must lie"):
        given.poisson_ratio("poisson", 0.6)


def test_no_seat_takes_none_of_the_width() -> None:
    with pytest.raises(ValueError, match="share must be above zero"):
        given.width_share(0.0)


def test_a_measure_beyond_all_bounds_is_refused_by_name() -> None:
    with pytest.raises(ValueError, match="rim_width is far too large"):
        given.finite("rim_width", -1e200)
    with pytest.raises(ValueError, match="rim_width is far too small"):
        given.positive("rim_width", 1e-200)
