"""A tire on its center: pressure, stress, grip and losses, by hand and by their properties.

The fit worked by hand: center 56 in, tire 3 1/2 in thick and 5 1/2 in wide, rim 3 1/2 in deep, .056 in of
interference, E 205 GPa and nu 0.29 throughout.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from axlebook.engineering.grip import (
    axial_hold,
    permanent_growth,
    remaining_interference,
    ridge_loss,
    slip_torque,
)
from axlebook.engineering.ring_stress import (
    center_seat_stress,
    pressure_for_bore_hoop,
    pressure_from_tread_growth,
    rim_inside_hoop,
    ring_stress,
    tire_bore_hoop,
    tire_tread_hoop,
    tread_growth,
    von_mises_stress,
)
from axlebook.engineering.shrink_fit import (
    center_bounds,
    contact_pressure,
    contact_pressure_bounds,
    interference,
    mounted_tread_diameter,
    required_interference,
    ring_center_compliance,
    seat_share,
    solid_center_compliance,
    tire_compliance,
)

INCH = 0.0254
SEAT, TREAD, RIM_INSIDE = 28.0 * INCH, 31.5 * INCH, 24.5 * INCH
E, NU = 205e9, 0.29
FIT = 0.056 * INCH
TIRE = tire_compliance(SEAT, TREAD, E, NU)

thicknesses = st.floats(0.02, 0.12)
fits = st.floats(1e-5, 3e-3)


def test_the_pressure_of_a_solid_center_worked_by_hand() -> None:
    # (992.25 + 784) / (992.25 - 784) = 8.529412; with nu both ways 8.529412 + 1 = 9.529412 radii over E.
    # p = (0.028 in / 28 in) x 205 GPa / 9.529412 = 21.5123 MPa.
    pressure = contact_pressure(FIT, TIRE, solid_center_compliance(SEAT, E, NU))
    assert pressure == pytest.approx(21.5123e6, rel=1e-5)


def test_the_pressure_of_a_free_rim_worked_by_hand() -> None:
    # (784 + 600.25) / (784 - 600.25) = 7.533333; 8.529412 + 7.533333 = 16.062745; 205 MPa / that = 12.7624 MPa.
    pressure = contact_pressure(FIT, TIRE, ring_center_compliance(SEAT, RIM_INSIDE, E, NU))
    assert pressure == pytest.approx(12.7624e6, rel=1e-5)


def test_the_hoop_stresses_worked_by_hand() -> None:
    # 20 MPa x 8.529412 at the bore; 2 x 20 MPa x 784 / 208.25 at the tread; they differ by p.
    assert tire_bore_hoop(20e6, SEAT, TREAD) == pytest.approx(170.588e6, rel=1e-5)
    assert tire_tread_hoop(20e6, SEAT, TREAD) == pytest.approx(150.588e6, rel=1e-5)


def test_the_tread_of_the_shop_proof_grows_by_46_thousandths() -> None:
    # 4 x 20e6 x 784 x 31.5 in / (205e9 x 208.25) = .0462782 in.
    assert tread_growth(20e6, SEAT, TREAD, E) / INCH == pytest.approx(0.0462782, rel=1e-5)


def test_a_narrow_seat_takes_its_share_of_stress_and_growth() -> None:
    share = seat_share(4.5 * INCH, 5.0 * INCH)
    assert tire_bore_hoop(20e6, SEAT, TREAD, share) == pytest.approx(0.9 * 170.588e6, rel=1e-5)
    assert tread_growth(20e6, SEAT, TREAD, E, share) / INCH == pytest.approx(0.9 * 0.0462782, rel=1e-5)
    assert tire_compliance(SEAT, TREAD, E, NU, share) == pytest.approx(0.9 * TIRE, rel=1e-9, abs=0.0)


def test_a_narrow_seat_may_press_harder_for_the_same_stress_and_growth() -> None:
    assert pressure_for_bore_hoop(170.588e6, SEAT, TREAD, 0.9) == pytest.approx(20e6 / 0.9, rel=1e-5)
    growth = tread_growth(20e6, SEAT, TREAD, E, 0.9)
    assert pressure_from_tread_growth(growth, SEAT, TREAD, E, 0.9) == pytest.approx(20e6)


def test_a_seat_wider_than_the_tire_presses_on_all_of_it() -> None:
    assert seat_share(0.15, 0.14) == 1.0


def test_the_grip_of_the_fit_worked_by_hand() -> None:
    # 0.1 x 20e6 x 2 pi x 0.7112 x 0.14 = 1 251 208 N; times 0.7112 m.
    assert axial_hold(20e6, 0.10, SEAT, 0.14) == pytest.approx(1_251_208, abs=1)
    assert slip_torque(20e6, 0.10, SEAT, 0.14) == pytest.approx(889_859, abs=1)


def test_the_center_is_squeezed_more_inside_its_rim_than_at_its_seat() -> None:
    assert center_seat_stress(20e6, SEAT, RIM_INSIDE).hoop == pytest.approx(-150.667e6, rel=1e-5)
    assert rim_inside_hoop(20e6, SEAT, RIM_INSIDE) == pytest.approx(-170.667e6, rel=1e-5)


def test_a_solid_center_is_squeezed_evenly() -> None:
    assert center_seat_stress(20e6, SEAT, None) == (-20e6, -20e6)


def test_shims_count_twice_in_fit_and_tread() -> None:
    assert interference(56.0 * INCH, 55.96 * INCH, 0.010 * INCH) / INCH == pytest.approx(0.060)
    assert mounted_tread_diameter(56.0 * INCH, 3.5 * INCH, 0.010 * INCH) / INCH == pytest.approx(63.02)


def test_losses_add_up_and_may_leave_nothing() -> None:
    assert remaining_interference(100e-6, ridge_loss(25e-6, 16e-6, 0.8), 80e-6) == pytest.approx(-12.8e-6)


def test_a_tire_found_larger_than_it_was_bored_has_grown() -> None:
    assert permanent_growth(55.94 * INCH, 55.95 * INCH) / INCH == pytest.approx(0.010)


def test_von_mises_agrees_with_the_plane_stress_form() -> None:
    # sqrt(h2 - h r + r2) with h 170, r -20: sqrt(28900 + 3400 + 400).
    assert von_mises_stress(-20e6, 170e6) == pytest.approx(math.sqrt(32700.0) * 1e6)


@settings(max_examples=40)
@given(thickness=thicknesses, delta=fits)
def test_pressure_and_tread_growth_go_there_and_back(thickness: float, delta: float) -> None:
    tire = tire_compliance(SEAT, SEAT + thickness, E, NU)
    center = solid_center_compliance(SEAT, E, NU)
    pressure = contact_pressure(delta, tire, center)
    growth = tread_growth(pressure, SEAT, SEAT + thickness, E)
    assert pressure_from_tread_growth(growth, SEAT, SEAT + thickness, E) == pytest.approx(pressure)
    assert required_interference(pressure, tire, center) == pytest.approx(delta, rel=1e-9, abs=0.0)
    hoop = tire_bore_hoop(pressure, SEAT, SEAT + thickness)
    assert pressure_for_bore_hoop(hoop, SEAT, SEAT + thickness) == pytest.approx(pressure)


@settings(max_examples=40)
@given(thickness=thicknesses, delta=fits)
def test_a_thinner_tire_grips_less_but_is_stressed_more(thickness: float, delta: float) -> None:
    center = ring_center_compliance(SEAT, RIM_INSIDE, E, NU)

    def state(wall: float) -> tuple[float, float, float]:
        pressure = contact_pressure(delta, tire_compliance(SEAT, SEAT + wall, E, NU), center)
        hoop = tire_bore_hoop(pressure, SEAT, SEAT + wall)
        return pressure, hoop, slip_torque(pressure, 0.15, SEAT, 0.14)

    thick, thin = state(thickness), state(0.8 * thickness)
    assert thin[0] < thick[0]
    assert thin[1] > thick[1]
    assert thin[2] < thick[2]


@settings(max_examples=40)
@given(delta=fits, scale=st.floats(0.1, 10.0))
def test_inches_and_millimetres_give_one_pressure(delta: float, scale: float) -> None:
    one = contact_pressure(delta, TIRE, solid_center_compliance(SEAT, E, NU))
    other = contact_pressure(
        delta * scale,
        tire_compliance(SEAT * scale, TREAD * scale, E, NU),
        solid_center_compliance(SEAT * scale, E, NU),
    )
    assert other == pytest.approx(one)


def test_stress_meets_the_pressures_at_both_edges() -> None:
    assert ring_stress(SEAT, SEAT, TREAD, 20e6, 3e6).radial == pytest.approx(-20e6)
    assert ring_stress(TREAD, SEAT, TREAD, 20e6, 3e6).radial == pytest.approx(-3e6)


def test_slip_a_loose_tire_never_has_negative_pressure() -> None:
    center = solid_center_compliance(SEAT, E, NU)
    assert contact_pressure(-0.001 * INCH, TIRE, center) == 0.0
    assert contact_pressure(0.0, TIRE, center) == 0.0
    assert pressure_from_tread_growth(-0.001 * INCH, SEAT, TREAD, E) == 0.0


def test_slip_interference_is_diametral_and_not_radial() -> None:
    # Taking delta as radial would double the hand-worked 21.5123 MPa.
    pressure = contact_pressure(FIT, TIRE, solid_center_compliance(SEAT, E, NU))
    assert pressure < 22e6


def test_slip_tread_growth_is_on_the_diameter_and_not_on_the_radius() -> None:
    # The radius grows by half of the hand-worked .0462782 in.
    assert tread_growth(20e6, SEAT, TREAD, E) / INCH > 0.046


def test_slip_the_solid_disc_alone_is_never_the_answer_for_a_spoked_center() -> None:
    bounds = contact_pressure_bounds(FIT, TIRE, center_bounds(SEAT, RIM_INSIDE, E, NU))
    assert bounds.low == pytest.approx(12.7624e6, rel=1e-5)
    assert bounds.high == pytest.approx(21.5123e6, rel=1e-5)
    assert bounds.likely is None


def test_slip_the_seat_diameter_and_not_the_tread_diameter_rules_the_grip() -> None:
    # With the tread radius in its place the hand-worked torque would be 27 percent too large.
    assert slip_torque(20e6, 0.10, SEAT, 0.14) < 900_000


def test_slip_growth_measured_on_a_worn_tire_goes_with_its_worn_radius() -> None:
    worn = SEAT + 2.0 * INCH
    growth = tread_growth(20e6, SEAT, worn, E)
    assert pressure_from_tread_growth(growth, SEAT, worn, E) == pytest.approx(20e6)
    assert pressure_from_tread_growth(growth, SEAT, TREAD, E) != pytest.approx(20e6, rel=0.2)


@pytest.mark.parametrize(
    ("seat", "tread", "modulus", "poisson", "share", "named"),
    [
        (TREAD, SEAT, E, NU, 1.0, "seat_radius"),
        (SEAT, SEAT, E, NU, 1.0, "seat_radius"),
        (-SEAT, TREAD, E, NU, 1.0, "seat_radius"),
        (SEAT, math.nan, E, NU, 1.0, "tread_radius"),
        (SEAT, TREAD, -E, NU, 1.0, "modulus"),
        (SEAT, TREAD, E, 0.7, 1.0, "poisson"),
        (SEAT, TREAD, E, NU, 1.2, "share"),
    ],
)
def test_impossible_tires_are_refused_by_name(
    seat: float, tread: float, modulus: float, poisson: float, share: float, named: str
) -> None:
    with pytest.raises(ValueError, match=named):
        tire_compliance(seat, tread, modulus, poisson, share)


def test_a_rim_without_metal_is_refused() -> None:
    with pytest.raises(ValueError, match="rim_inside_radius must be below seat_radius"):
        ring_center_compliance(SEAT, SEAT, E, NU)


def test_a_width_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="seat_width must be above zero"):
        axial_hold(20e6, 0.1, SEAT, 0.0)
    with pytest.raises(ValueError, match="tire_width must be above zero"):
        seat_share(0.1, -0.1)


def test_stress_outside_the_metal_is_refused() -> None:
    with pytest.raises(ValueError, match="radius must lie"):
        ring_stress(SEAT / 2.0, SEAT, TREAD, 20e6)


def test_three_equal_stresses_have_no_equivalent_and_three_unlike_ones_do() -> None:
    # 100, 0 and -100: sqrt((100^2 + 100^2 + 200^2) / 2) = 173.205.
    assert von_mises_stress(50e6, 50e6, 50e6) == 0.0
    assert von_mises_stress(100e6, 0.0, -100e6) == pytest.approx(173.205e6, rel=1e-5)
