"""The least-squares circle, against scipy's general least squares and on short arcs."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import least_squares

from axlebook.engineering.circle import circle_through_radii, least_squares_circle, roundness


def points(arc: float, count: int, noise: float, seed: int) -> tuple[np.ndarray, np.ndarray]:
    """Noisy points on a part of a circle of 0.7 m about (3, -1)."""
    random = np.random.default_rng(seed)
    angles = np.linspace(0.3, 0.3 + math.radians(arc), count)
    x = 3.0 + 0.7 * np.cos(angles) + random.normal(0.0, noise, count)
    return x, -1.0 + 0.7 * np.sin(angles) + random.normal(0.0, noise, count)


def general_fit(x: np.ndarray, y: np.ndarray) -> tuple[list[float], float]:
    """Middle and radius, and the rms distance, from scipy's general least squares."""

    def distances(p: np.ndarray) -> np.ndarray:
        return np.asarray(np.hypot(x - p[0], y - p[1]) - p[2])

    found = least_squares(distances, [3.0, -1.0, 0.7], xtol=1e-15, ftol=1e-15, gtol=1e-15)
    return [float(value) for value in found.x], math.sqrt(2.0 * float(found.cost) / len(x))


@pytest.mark.parametrize("arc", [345.0, 180.0, 90.0, 45.0, 25.0])
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_the_circle_is_scipys_least_squares_circle_on_any_arc(arc: float, seed: int) -> None:
    x, y = points(arc, 14, 2e-5, seed)
    fit = least_squares_circle(x.tolist(), y.tolist())
    circle, residual = general_fit(x, y)
    assert [fit.x, fit.y, fit.radius] == pytest.approx(circle, abs=1e-7)
    assert fit.residual == pytest.approx(residual, rel=1e-6)


def test_a_coarse_short_arc_does_not_run_away() -> None:
    x, y = points(20.0, 9, 1e-3, 7)
    _, residual = general_fit(x, y)
    assert least_squares_circle(x.tolist(), y.tolist()).residual <= residual * (1.0 + 1e-9)


@settings(max_examples=40)
@given(x=st.floats(-2, 2), y=st.floats(-2, 2), radius=st.floats(0.05, 2.0), turn=st.floats(0.0, 6.0))
def test_exact_points_give_their_circle_back(x: float, y: float, radius: float, turn: float) -> None:
    angles = [turn + k * 0.4 for k in range(7)]
    fit = least_squares_circle([x + radius * math.cos(a) for a in angles], [y + radius * math.sin(a) for a in angles])
    assert (fit.x, fit.y, fit.radius) == pytest.approx((x, y, radius), abs=1e-9)
    assert fit.residual == pytest.approx(0.0, abs=1e-9)


def test_slip_the_geometric_circle_and_not_the_linear_one() -> None:
    # The linear fit of these six points has radius 4.1088, the geometric one 4.7142 (Gander and others).
    fit = least_squares_circle([1, 2, 5, 7, 9, 3], [7, 6, 8, 7, 5, 7])
    assert fit.radius == pytest.approx(4.7142, abs=5e-5)


def test_radii_from_an_axis_off_the_middle_show_the_middle_and_no_lobes() -> None:
    angles = [2.0 * math.pi * k / 16 for k in range(16)]
    off = 0.001
    radii = [off * math.cos(a) + math.sqrt(0.49 - (off * math.sin(a)) ** 2) for a in angles]
    fit = circle_through_radii(angles, radii)
    assert (fit.x, fit.y, fit.radius) == pytest.approx((off, 0.0, 0.7), abs=1e-9)
    assert roundness(angles, radii) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("turn", [0.0, 0.7, 2.0])
def test_roundness_off_the_middle_is_that_of_the_lobes_alone(turn: float) -> None:
    # Three lobes of 0.0005 m about a middle that lies 0.02 m off, in any direction: 0.001 m from crest to hollow.
    middle_x, middle_y = 0.02 * math.cos(turn), 0.02 * math.sin(turn)
    round_it = [2.0 * math.pi * k / 36 for k in range(36)]
    points = [
        (middle_x + r * math.cos(a), middle_y + r * math.sin(a))
        for a, r in ((a, 0.7 + 0.0005 * math.cos(3.0 * a)) for a in round_it)
    ]
    angles = [math.atan2(y, x) for x, y in points]
    radii = [math.hypot(x, y) for x, y in points]
    assert roundness(angles, radii) == pytest.approx(0.001, rel=1e-3)


@pytest.mark.parametrize("far", [1.0, 1e3])
def test_points_that_differ_by_less_than_can_be_told_at_their_distance_are_one_spot(far: float) -> None:
    apart = far * 1e-13
    with pytest.raises(ValueError, match="one spot"):
        least_squares_circle([far, far + apart, far], [0.0, apart, apart])
    with pytest.raises(ValueError, match="one spot"):
        least_squares_circle([0.0, apart, apart], [far, far + apart, far])


def test_a_small_circle_near_the_origin_is_no_spot() -> None:
    fit = least_squares_circle([1e-9, 0.0, -1e-9, 0.0], [0.0, 1e-9, 0.0, -1e-9])
    assert (fit.x, fit.y, fit.radius) == pytest.approx((0.0, 0.0, 1e-9), abs=1e-15)


@pytest.mark.parametrize(("rise", "told"), [(1e-4, True), (1e-5, True), (4.08e-7, False), (1e-8, False)])
def test_a_very_flat_arc_is_a_circle_until_it_cannot_be_told_from_a_line(rise: float, told: bool) -> None:
    # Three points a chord of 2 apart with this rise: r = (1 + rise^2) / (2 rise). They lie 0.8165 from their middle
    # (rms), and a million times that is the flattest: a rise of 6.1e-7.
    xs, ys = [-1.0, 0.0, 1.0], [0.0, rise, 0.0]
    if told:
        assert least_squares_circle(xs, ys).radius == pytest.approx((1.0 + rise**2) / (2.0 * rise), rel=1e-3)
    else:
        with pytest.raises(ValueError, match="straight line"):
            least_squares_circle(xs, ys)


def test_a_point_in_the_very_middle_is_borne() -> None:
    # Four points at 1 and one at the middle: the mean distance is 4/5, the rms distance from it 2/5.
    fit = least_squares_circle([1.0, 0.0, -1.0, 0.0, 0.0], [0.0, 1.0, 0.0, -1.0, 0.0])
    assert fit.radius == pytest.approx(0.8, abs=1e-3)
    assert fit.residual == pytest.approx(0.4, abs=1e-3)


def test_slip_roundness_sees_the_odd_lobes_that_diameters_miss() -> None:
    angles = [2.0 * math.pi * k / 12 for k in range(12)]
    radii = [0.7 + 0.0005 * math.cos(3.0 * a) for a in angles]
    assert roundness(angles, radii) == pytest.approx(0.001, rel=1e-3)


@pytest.mark.parametrize("scale", [1e-3, 1.0, 1e3])
def test_points_on_a_line_are_refused(scale: float) -> None:
    with pytest.raises(ValueError, match="straight line"):
        least_squares_circle([0.0, scale, 2 * scale, 3 * scale], [0.0, scale, 2 * scale, 3 * scale])


def test_points_on_one_spot_are_refused() -> None:
    with pytest.raises(ValueError, match="one spot"):
        least_squares_circle([1.0, 1.0, 1.0], [2.0, 2.0, 2.0])


def test_two_points_are_refused() -> None:
    with pytest.raises(ValueError, match="xs must hold 3 or more"):
        least_squares_circle([1.0, 2.0], [1.0, 2.0])


def test_a_radius_that_is_no_number_is_refused_by_its_place() -> None:
    with pytest.raises(ValueError, match=r"radii\[2\]"):
        circle_through_radii([0.0, 1.0, 2.0], [0.7, 0.7, math.nan])
