"""One tire under the brake: by hand, by its properties, and against a finer model of the same."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from axlebook.engineering import brake_wheel
from axlebook.engineering.brake_wheel import (
    BrakeWheel,
    CenterForm,
    Steel,
    cold_center_rise,
    counted_interference,
    heat_wheel,
    loosened_in_time,
    lumped_time,
    rise_of_stop,
)
from axlebook.engineering.spoked_center import SpokedCenter, TireSection, spoked_center_compliance
from axlebook.engineering.transient import Moment

STEEL = Steel(205e9, 0.29, 11.7e-6, 7850.0, 460.0, 45.0)
FORM = CenterForm(0.4636, 0.1397, 0.19, 0.1397, 14, 0.083, 0.051)
WHEEL = BrakeWheel(1.1176, 0.146, STEEL, STEEL, 0.0012, form=FORM)


def test_the_rise_is_the_interference_over_expansion_and_diameter() -> None:
    # 1.2 mm / (11.7e-6 x 1117.6 mm) = 91.77 K
    assert cold_center_rise(WHEEL, 0.0012, 293.15) == pytest.approx(91.77, abs=0.005)


def test_an_iron_center_on_a_cold_day_holds_the_tire_better_by_what_it_shrinks_less() -> None:
    iron = Steel(100e9, 0.26, 10.6e-6, 7200.0, 500.0, 45.0)
    wheel = BrakeWheel(1.0, 0.146, STEEL, iron, 0.0012)
    # 20 K colder: the tire's bore shrinks by 0.234 mm, the center by 0.212 mm: 0.022 mm more grip.
    assert cold_center_rise(wheel, 0.0012, 273.15) == pytest.approx(0.001222 / 11.7e-6, rel=1e-9)


@pytest.mark.parametrize("left", [0.0, -0.0003])
def test_no_interference_left_is_no_rise_and_loosens_at_once(left: float) -> None:
    assert cold_center_rise(WHEEL, left, 293.15) == 0.0
    assert lumped_time(WHEEL, 0.07, 45e3, 0.0) == 0.0
    found = loosened_in_time(WHEEL, 0.07, 45e3, left, 0.0)
    assert found is not None
    assert found.seconds == 0.0


def test_losses_come_off_once_each() -> None:
    wheel = BrakeWheel(1.1176, 0.146, STEEL, STEEL, 0.0012, ridges=0.00003, growth=0.0001, uncertainty=0.00005)
    assert counted_interference(wheel, 0.0762, None) == pytest.approx(0.00102, abs=1e-12)
    slow, fast = (counted_interference(wheel, 0.0762, speed) for speed in (5.0, 20.0))
    assert 0.00102 - slow == pytest.approx((0.00102 - fast) / 16.0, rel=1e-6)  # by the square of the speed
    assert fast < slow < 0.00102


def test_the_tire_alone_takes_the_time_of_its_mass() -> None:
    # pi (0.6350^2 - 0.5588^2) 0.146 m3 x 7850 x 460 x 91.77 K / 45 kW
    metal = math.pi * (0.6350**2 - 0.5588**2) * 0.146 * 7850.0
    assert lumped_time(WHEEL, 0.0762, 45e3, 91.77) == pytest.approx(metal * 460.0 * 91.77 / 45e3, rel=1e-12)
    assert rise_of_stop(WHEEL, 0.0762, 1e6) == pytest.approx(1e6 / (metal * 460.0), rel=1e-12)


def test_a_tire_half_as_thick_gets_there_about_twice_as_fast_at_the_same_rise() -> None:
    thick, thin = (lumped_time(WHEEL, t, 45e3, 91.77) for t in (0.0762, 0.0381))
    assert thick is not None
    assert thin is not None
    assert thick / thin == pytest.approx(2.0, abs=0.1)


def test_no_power_never_loosens() -> None:
    assert lumped_time(WHEEL, 0.07, 0.0, 91.77) is None
    assert loosened_in_time(WHEEL, 0.07, 0.0, 0.0012, 91.77) is None


def test_a_center_that_is_not_on_record_has_no_model_of_heat_in_time() -> None:
    assert loosened_in_time(BrakeWheel(1.1176, 0.146, STEEL, STEEL, 0.0012), 0.07, 45e3, 0.0012, 91.77) is None


@pytest.mark.parametrize("power", [60e3, 30e3, 20e3])
@pytest.mark.parametrize("thickness", [0.0762, 0.035])
def test_the_tire_alone_is_the_lower_of_the_two_in_time_and_in_rise(power: float, thickness: float) -> None:
    alone, warm = (
        lumped_time(WHEEL, thickness, power, 91.77),
        loosened_in_time(WHEEL, thickness, power, 0.0012, 91.77),
    )
    assert alone is not None
    assert warm is not None
    assert warm.seconds is None or (warm.rise is not None and warm.seconds > alone and warm.rise > 91.77)


def test_the_steps_are_fine_enough(monkeypatch: pytest.MonkeyPatch) -> None:
    coarse = loosened_in_time(WHEEL, 0.0762, 40e3, 0.0012, 91.77)
    monkeypatch.setattr(brake_wheel, "_STEPS", 300)
    monkeypatch.setattr(brake_wheel, "_LAYERS", 30)
    fine = loosened_in_time(WHEEL, 0.0762, 40e3, 0.0012, 91.77)
    assert coarse is not None
    assert fine is not None
    assert coarse.seconds == pytest.approx(fine.seconds, rel=0.01)
    assert coarse.rise == pytest.approx(fine.rise, rel=0.005)


def test_a_contact_that_passes_more_heat_takes_longer() -> None:
    poor, good = (loosened_in_time(WHEEL, 0.0762, 40e3, 0.0012, 91.77, h) for h in (1500.0, 6000.0))
    assert poor is not None
    assert good is not None
    assert poor.seconds is not None
    assert good.seconds is None or good.seconds > poor.seconds


def test_it_is_followed_for_an_hour_and_no_longer() -> None:
    found = loosened_in_time(WHEEL, 0.0762, 8e3, 0.0012, 91.77)
    assert found is not None
    assert found.seconds is None
    assert found.followed == 3600.0


@pytest.mark.parametrize("thickness", [0.0, -0.01, math.nan, math.inf])
def test_an_impossible_thickness_is_refused_by_name(thickness: float) -> None:
    with pytest.raises(ValueError, match="thickness"):
        lumped_time(WHEEL, thickness, 45e3, 91.77)


def test_the_wheel_of_the_heat_model_has_the_measures_of_its_form() -> None:
    model = heat_wheel(WHEEL, 0.0762)
    assert model is not None
    assert model.tread_radius == pytest.approx(0.5588 + 0.0762)
    assert (model.seat_radius, model.rim_inside_radius, model.hub_radius) == pytest.approx((0.5588, 0.4636, 0.19))
    assert (model.tire_width, model.rim_width, model.spokes) == (0.146, 0.1397, 14)
    assert model.spoke_area == pytest.approx(0.083 * 0.051)
    assert model.spoke_girth == pytest.approx(2.0 * 0.083 + 2.0 * 0.051)
    assert model.hub_capacity == pytest.approx(math.pi * 0.19 * 0.19 * 0.1397 * 7850.0 * 460.0)
    bounds = spoked_center_compliance(
        SpokedCenter(0.5588, 0.4636, 0.1397, 14, 0.2736, 0.083 * 0.051, 0.1397, 205e9, 0.29),
        TireSection(0.0762, 0.146, 205e9, 0.29),
    )
    assert bounds.likely is not None
    assert model.ring_share == pytest.approx(bounds.likely / bounds.high)
    narrow = heat_wheel(replace(WHEEL, tire_width=0.12), 0.0762)
    assert narrow is not None
    assert narrow.rim_width == 0.12


@pytest.mark.parametrize(
    ("left", "found"),
    [((2.0, 1.0, -1.0), (15.0, 150.0)), ((2.0, 0.0, -1.0), (10.0, 100.0)), ((2.0, 1.0, 0.5), None)],
)
def test_the_model_is_loose_straight_between_two_moments(
    left: tuple[float, ...], found: tuple[float, float] | None
) -> None:
    course = [Moment(10.0 * n, 0, 100.0 * n, 0, 0, 0, 0, 0, 1e-3 * value) for n, value in enumerate(left)]
    assert brake_wheel._first_loose(course) == (None if found is None else pytest.approx(found))
