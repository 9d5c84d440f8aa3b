"""A fit worked through: Lamé's solid disc and ring by hand, what is taken off, and what no tire and center can have."""

import math
from dataclasses import replace
from typing import Any

import pytest

from axlebook.engineering import gauge
from axlebook.engineering.fitting import FitGiven, Impossible, Metal, Spokes, fit_sums, register_pull_of
from axlebook.engineering.fitting import center_compliance_of as compliance
from axlebook.engineering.rotation import rotation_loss

STEEL = Metal(205e9, 0.29, 11.7e-6)
# 44 in of center, 2.365 thou an inch short: one width, so that no share of the tire is idle.
SOLID = FitGiven(1.1176, 1.1164, 1.27, 0.146, 0.146, STEEL, STEEL, solid=True, flanged=False)
SPOKED = replace(SOLID, solid=False, rim_inside=0.95, spokes=Spokes(14, 0.004, 0.30, 0.18))
A, B, W = 0.5588, 0.635, 0.146


def lame_pressure(interference: float, b: float = B) -> float:
    """One metal, a solid disc of radius a in a ring out to b: p = E d (b^2 - a^2) / (4 a b^2)."""
    return 205e9 * interference * (b**2 - A**2) / (4.0 * A * b**2)


def test_a_tire_on_a_solid_disc_of_its_own_metal_is_lames_ring() -> None:
    fit = fit_sums(replace(SOLID, friction=(0.1, 0.2, 0.3)))
    p, grip = lame_pressure(0.0012), fit.new
    assert [grip.pressure.low, grip.pressure.likely, grip.pressure.high] == pytest.approx([p, p, p])
    assert grip.bore_hoop.likely == pytest.approx(p * (B**2 + A**2) / (B**2 - A**2))
    assert grip.tread_hoop.likely == pytest.approx(2.0 * p * A**2 / (B**2 - A**2))
    assert grip.growth.likely == pytest.approx(4.0 * p * A**2 * B / (205e9 * (B**2 - A**2)))
    holds = [mu * p * 2.0 * math.pi * A * W for mu in (0.1, 0.2, 0.3)]
    assert [grip.axial_hold.low, grip.axial_hold.likely, grip.axial_hold.high] == pytest.approx(holds)
    assert grip.slip_torque.high == pytest.approx(holds[2] * A)
    assert (grip.thickness, grip.tread_diameter) == pytest.approx((0.0768, 1.27))
    assert fit.interference == pytest.approx(0.0012)
    assert fit.loosening_rise == pytest.approx(0.0012 / (11.7e-6 * 1.1176))


def test_the_mass_is_that_of_the_ring_and_its_heat_that_of_the_lowest_rise() -> None:
    fit = fit_sums(replace(SOLID, uncertainty=0.0002))
    mass = 7850.0 * math.pi * (B**2 - 0.5582**2) * W
    assert fit.new.mass == pytest.approx(mass, rel=2e-3)
    rise = 0.0010 / (11.7e-6 * 1.1176)
    assert fit.lowest_loosening_rise == pytest.approx(rise)
    assert fit.new.loosening_heat / fit.new.mass / rise == pytest.approx(470.0, rel=0.06)  # J/(kg K) of steel
    assert fit_sums(replace(SOLID, flanged=True)).new.mass > fit.new.mass + 5.0


def test_what_is_left_is_less_the_band_the_doubt_the_ridges_and_the_speed() -> None:
    given = replace(SOLID, uncertainty=0.0001, doubt=0.00005, ridge_loss=0.00002)
    still = fit_sums(given)
    assert still.band == pytest.approx(0.00015)
    assert still.speed_loss is None
    assert still.left == pytest.approx(0.0012 - 0.00015 - 0.00002)
    moving = fit_sums(replace(given, speed=30.0))
    steel: dict[str, Any] = {
        f"{part}_{name}": what
        for part in ("tire", "center")
        for name, what in (("density", 7850.0), ("modulus", 205e9), ("poisson", 0.29))
    }
    lost = rotation_loss(30.0 / B, A, B, None, **steel)
    assert moving.speed_loss == pytest.approx(lost, rel=1e-3)
    assert moving.left == pytest.approx(still.left - lost, rel=1e-6)
    assert fit_sums(replace(SOLID, uncertainty=0.002)).left == 0.0


def test_a_worn_tire_is_the_ring_that_is_left() -> None:
    worn = fit_sums(replace(SOLID, condemning_thickness=0.0381)).worn
    assert worn is not None
    b = 0.5582 + 0.0381
    assert worn.tread_diameter == pytest.approx(2.0 * b)
    assert worn.thickness == pytest.approx(0.0381)
    assert worn.pressure.high == pytest.approx(lame_pressure(0.0012, b))
    assert fit_sums(SOLID).worn is None


def test_a_shim_widens_the_seat_and_tightens_the_fit_by_twice_its_thickness() -> None:
    shimmed = replace(SOLID, shim=0.0004)
    assert shimmed.seat_radius == pytest.approx(0.5592)
    assert shimmed.interference == pytest.approx(0.0020)
    assert compliance(shimmed, 0.07)[0] == pytest.approx(compliance(SOLID, 0.07)[0])


def test_a_solid_disc_gives_by_its_radius_and_a_rim_alone_as_lames_ring() -> None:
    # u / p: a (1 - nu) / E for the disc; a / E ((a^2 + c^2) / (a^2 - c^2) - nu) for a ring from c to a.
    low, likely, high = compliance(replace(SPOKED, spokes=None), 0.07)
    assert low == pytest.approx(A * 0.71 / 205e9)
    assert likely is None
    assert high == pytest.approx(A / 205e9 * ((A**2 + 0.475**2) / (A**2 - 0.475**2) - 0.29))
    assert compliance(replace(SPOKED, spokes=None, rim_inside=None), 0.07)[1:] == (None, None)
    assert compliance(SOLID, 0.07) == (low, low, low)


def test_spokes_lie_between_the_disc_and_the_rim_alone_and_more_metal_in_them_is_stiffer() -> None:
    low, likely, high = compliance(SPOKED, 0.07)
    assert likely is not None
    assert high is not None
    assert low < likely < high
    thicker = compliance(replace(SPOKED, spokes=Spokes(14, 0.008, 0.30, 0.18)), 0.07)[1]
    longer = compliance(replace(SPOKED, spokes=Spokes(14, 0.004, 0.20, 0.18)), 0.07)[1]
    assert thicker is not None
    assert longer is not None
    assert thicker < likely < longer


def test_how_far_a_tire_may_draw_off_is_worked_out_from_the_greatest_pressure() -> None:
    drawn = register_pull_of(fit_sums(SOLID), 92.0)
    asked = gauge.register_pull_off(
        W, 92.0, 11.7e-6, pressure=lame_pressure(0.0012), seat_radius=A, tread_radius=B, modulus=205e9, poisson=0.29,
        share=1.0,
    )  # fmt: skip
    assert drawn == pytest.approx(asked)


@pytest.mark.parametrize(
    ("given", "names"),
    [
        ({"bore": 1.27}, "nothing would be left of the tire"),
        ({"center_diameter": 1.27, "bore": 1.2}, "center_diameter"),
        ({"shim": 0.0762}, "^the center diameter must be less than the tread diameter"),
        ({"bore": 1.1176}, "no interference"),
        ({"condemning_thickness": 1.27}, "condemning_thickness"),
        ({"condemning_thickness": 0.0}, "condemning_thickness"),
        ({"friction": (0.1, 0.2, 2.001)}, "friction"),
        ({"friction": (-0.001, 0.2, 0.3)}, "friction"),
        ({"uncertainty": -1e-9}, "uncertainty"),
        ({"tire_width": 0.0}, "tire_width"),
        ({"rim_inside": 1.1176}, "rim_inside"),
        ({"tire_metal": replace(STEEL, modulus=0.0)}, "tire_modulus"),
        ({"center_metal": replace(STEEL, poisson=0.5)}, "center_poisson"),
        ({"center_metal": replace(STEEL, poisson=-1.0)}, "center_poisson"),
        ({"tire_metal": replace(STEEL, expansion=0.0)}, "tire_expansion"),
        ({"spokes": Spokes(2, 0.004, 0.30, 0.18)}, "spokes"),
        ({"spokes": Spokes(14, 0.0, 0.30, 0.18)}, "spoke_section"),
        ({"spokes": Spokes(14, 0.004, 0.0, 0.18)}, "hub"),
        ({"spokes": Spokes(14, 0.004, 0.30, 0.0)}, "hub"),
        ({"spokes": Spokes(14, 0.004, 0.95, 0.18)}, "hub"),
    ],
)
def test_what_no_tire_and_center_can_have_is_refused_by_its_name(given: dict[str, Any], names: str) -> None:
    with pytest.raises(Impossible, match=names.replace("_", " ")):
        replace(SPOKED, **given)


@pytest.mark.parametrize(
    "given",
    [
        {"friction": (0.0, 1.0, 2.0)},
        {"uncertainty": 0.0, "ridge_loss": 0.0, "speed": 0.0},
        {"condemning_thickness": 0.001},
        {"spokes": Spokes(3, 1e-6, 0.001, 0.001)},
        {"tire_metal": Metal(1e-3, 0.499, 1e-9), "center_metal": Metal(0.5, -0.999, 1e-9)},
        {"rim_inside": None},
        {"shim": 0.0761},
    ],
)
def test_what_is_just_possible_is_taken(given: dict[str, Any]) -> None:
    assert replace(SPOKED, **given).bore == 1.1164
