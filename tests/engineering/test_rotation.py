"""Spinning rings and discs, by hand and against the equation they must meet."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import solve_bvp

from axlebook.engineering.ring_stress import radial_growth, ring_stress
from axlebook.engineering.rotation import (
    rotation_loss,
    spinning_growth,
    spinning_ring_stress,
    wheel_angular_speed,
)
from axlebook.engineering.shrink_fit import ring_center_compliance, tire_compliance

E, NU, RHO = 205e9, 0.29, 7850.0
SEAT, TREAD, RIM_INSIDE = 0.7112, 0.8001, 0.6223
MILE_AN_HOUR = 0.44704
STEEL = {
    "tire_density": RHO,
    "tire_modulus": E,
    "tire_poisson": NU,
    "center_density": RHO,
    "center_modulus": E,
    "center_poisson": NU,
}


def solved_move(
    inside: float, outside: float, p_in: float, p_out: float, omega: float
) -> tuple[float, float]:
    """Radial moves of both edges: u'' + u'/r - u/r2 + (1 - nu2) rho omega2 r / E = 0, solved numerically."""
    stiffness = E / (1.0 - NU**2)

    def slope(r: np.ndarray, y: np.ndarray) -> np.ndarray:
        return np.vstack((y[1], -y[1] / r + y[0] / r**2 - RHO * omega**2 * r / stiffness))

    def edges(ya: np.ndarray, yb: np.ndarray) -> np.ndarray:
        at_inside = stiffness * (ya[1] + NU * ya[0] / inside) + p_in
        at_outside = stiffness * (yb[1] + NU * yb[0] / outside) + p_out
        return np.array([at_inside, at_outside]) / 1e6

    radii = np.linspace(inside, outside, 30)
    solution = solve_bvp(slope, edges, radii, np.zeros((2, 30)), tol=1e-9)
    assert solution.success
    return float(solution.y[0, 0]), float(solution.y[0, -1])


def test_the_still_tire_moves_as_the_equation_says() -> None:
    bore, tread = solved_move(SEAT, TREAD, 20e6, 0.0, 0.0)
    assert tire_compliance(SEAT, TREAD, E, NU) * 20e6 == pytest.approx(bore, rel=1e-6)
    at_tread = ring_stress(TREAD, SEAT, TREAD, 20e6)
    assert radial_growth(TREAD, at_tread, E, NU) == pytest.approx(tread, rel=1e-6)


def test_the_still_rim_moves_as_the_equation_says() -> None:
    _, seat = solved_move(RIM_INSIDE, SEAT, 0.0, 20e6, 0.0)
    assert -ring_center_compliance(SEAT, RIM_INSIDE, E, NU) * 20e6 == pytest.approx(seat, rel=1e-6)


def test_the_spinning_tire_moves_as_the_equation_says() -> None:
    bore, tread = solved_move(SEAT, TREAD, 0.0, 0.0, 40.0)
    assert spinning_growth(SEAT, SEAT, TREAD, 40.0, RHO, E, NU) == pytest.approx(bore, rel=1e-6)
    assert spinning_growth(TREAD, SEAT, TREAD, 40.0, RHO, E, NU) == pytest.approx(tread, rel=1e-6)


def test_fit_and_rotation_together_are_their_sum() -> None:
    bore, _ = solved_move(SEAT, TREAD, 20e6, 0.0, 40.0)
    still = tire_compliance(SEAT, TREAD, E, NU) * 20e6
    assert still + spinning_growth(SEAT, SEAT, TREAD, 40.0, RHO, E, NU) == pytest.approx(bore, rel=1e-6)


def test_a_spinning_disc_has_the_textbook_stress_at_its_middle() -> None:
    # (3 + nu) / 8 rho omega2 b2, both radial and hoop.
    middle = spinning_ring_stress(0.0, 0.0, SEAT, 40.0, RHO, NU)
    expected = (3.0 + NU) / 8.0 * RHO * 1600.0 * SEAT**2
    assert middle == pytest.approx((expected, expected))


def test_the_edges_of_a_spinning_ring_carry_no_radial_stress() -> None:
    for radius in (SEAT, TREAD):
        assert spinning_ring_stress(radius, SEAT, TREAD, 40.0, RHO, NU).radial == pytest.approx(0.0, abs=1e-3)


def test_sixty_miles_an_hour_takes_about_two_percent_of_the_fit() -> None:
    omega = wheel_angular_speed(60.0 * MILE_AN_HOUR, TREAD)
    loss = rotation_loss(omega, SEAT, TREAD, None, **STEEL)
    assert 0.015 < loss / (0.060 * 0.0254) < 0.03


def test_a_free_rim_loses_less_than_a_solid_disc() -> None:
    solid = rotation_loss(33.5, SEAT, TREAD, None, **STEEL)
    rim = rotation_loss(33.5, SEAT, TREAD, RIM_INSIDE, **STEEL)
    assert 0.0 < rim < solid


def test_the_loss_grows_with_the_square_of_the_speed() -> None:
    slow, fast = (rotation_loss(omega, SEAT, TREAD, None, **STEEL) for omega in (20.0, 40.0))
    assert fast == pytest.approx(4.0 * slow)


def test_slip_the_loss_from_rotation_is_on_the_diameter() -> None:
    # Twice the radial growths, each worked out on its own.
    tire = spinning_growth(SEAT, SEAT, TREAD, 33.5, RHO, E, NU)
    disc = RHO * 33.5**2 * SEAT**3 * (1.0 - NU) / (4.0 * E)
    assert rotation_loss(33.5, SEAT, TREAD, None, **STEEL) == pytest.approx(2.0 * (tire - disc))


def test_impossible_rotation_is_refused_by_name() -> None:
    with pytest.raises(ValueError, match="speed must not be negative"):
        wheel_angular_speed(-1.0, TREAD)
    with pytest.raises(ValueError, match="density must be above zero"):
        spinning_ring_stress(SEAT, SEAT, TREAD, 1.0, 0.0, NU)
    with pytest.raises(ValueError, match="rim_inside_radius must be above zero"):
        rotation_loss(1.0, SEAT, TREAD, 0.0, **STEEL)
    with pytest.raises(ValueError, match="angular_speed must be a finite number"):
        spinning_ring_stress(SEAT, SEAT, TREAD, math.nan, RHO, NU)
