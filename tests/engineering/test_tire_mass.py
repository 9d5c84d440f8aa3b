"""The mass of a tire, by hand."""

from __future__ import annotations

import math

import pytest

from axlebook.engineering.tire_mass import revolved_mass, tire_mass


def test_a_plain_tire_worked_by_hand() -> None:
    # pi (0.64 - 0.49) x 0.14 x 7850 = 517.89 kg.
    assert tire_mass(7850.0, 0.7, 0.8, 0.14) == pytest.approx(517.89, abs=0.005)


def test_a_flange_adds_its_own_ring() -> None:
    # 7850 x 2 pi x 0.812 x 0.0008 = 32.04 kg.
    flanged = tire_mass(7850.0, 0.7, 0.8, 0.14, flange_area=0.0008, flange_radius=0.812)
    assert flanged - tire_mass(7850.0, 0.7, 0.8, 0.14) == pytest.approx(32.04, abs=0.005)


def test_a_cylinder_is_its_section_turned_about_the_axle() -> None:
    assert revolved_mass(7850.0, [(0.1 * 0.14, 0.75)]) == pytest.approx(tire_mass(7850.0, 0.7, 0.8, 0.14))


@pytest.mark.parametrize(
    ("arguments", "named"),
    [
        ((7850.0, 0.8, 0.7, 0.14), "bore_radius must be below tread_radius"),
        ((0.0, 0.7, 0.8, 0.14), "density"),
        ((7850.0, 0.7, 0.8, 0.0), "width"),
        ((7850.0, 0.7, 0.8, 0.14, 0.0008), "flange_radius must be given"),
        ((7850.0, 0.7, 0.8, 0.14, 0.0008, 0.75), "tread_radius must be below flange_radius"),
        ((7850.0, 0.7, 0.8, math.nan), "width"),
    ],
)
def test_impossible_tires_are_refused_by_name(arguments: tuple[float, ...], named: str) -> None:
    with pytest.raises(ValueError, match=named):
        tire_mass(*arguments)


def test_a_section_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="the section's moment must be above zero"):
        revolved_mass(7850.0, [(0.001, 0.7), (-0.001, 0.7)])
