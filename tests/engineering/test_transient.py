"""Heat through a wheel in time: exact series, scipy, and the balance of heat."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.special import erfc

from axlebook.engineering import transient
from axlebook.engineering.braking import spoked_center_growth
from axlebook.engineering.transient import Chain, Metal, Wheel

STEEL = Metal(48.0, 7850.0, 480.0, 11.7e-6)
WHEEL = Wheel(0.80, 0.71, 0.65, 0.18, 0.14, 0.12, 16, 0.006, 0.29, 2.0e5, STEEL, STEEL, 0.4)
DIFFUSIVITY = STEEL.conductivity / (STEEL.density * STEEL.specific_heat)


def slab_rises(thickness: float, layers: int, flux: float, seconds: float, steps: int) -> list[float]:
    chain = transient.slab_chain(thickness, layers, STEEL.conductivity, STEEL.density, STEEL.specific_heat)
    rises, heats = [0.0] * layers, [0.0] * (layers - 1) + [flux]
    for _ in range(steps):
        rises = transient.chain_step(chain, rises, heats, seconds / steps)
    return rises


def exact_slab(x: float, thickness: float, flux: float, seconds: float) -> float:
    """Carslaw and Jaeger's slab: flux in at x = thickness, insulated at x = 0."""
    fourier = DIFFUSIVITY * seconds / thickness**2
    series = sum(
        (-1) ** n / n**2 * math.exp(-((n * math.pi) ** 2) * fourier) * math.cos(n * math.pi * x / thickness)
        for n in range(1, 200)
    )
    shape = (3 * (x / thickness) ** 2 - 1) / 6 - 2 / math.pi**2 * series
    return float(flux * thickness / STEEL.conductivity * (fourier + shape))


@pytest.mark.parametrize("seconds", [20.0, 120.0, 900.0])
def test_a_slab_under_constant_flux_agrees_with_the_exact_series(seconds: float) -> None:
    layers = 60
    rises = slab_rises(0.0889, layers, 60e3, seconds, 200)
    for i in (0, 20, 40, 59):
        x = (i + 0.5) * 0.0889 / layers
        assert rises[i] == pytest.approx(exact_slab(x, 0.0889, 60e3, seconds), abs=0.05)


def test_a_deep_slab_agrees_with_the_semi_infinite_solid() -> None:
    seconds, flux, layers, depth = 100.0, 60e3, 200, 0.4
    rises = slab_rises(depth, layers, flux, seconds, 200)
    spread = 2.0 * math.sqrt(DIFFUSIVITY * seconds)
    for i in (199, 190, 180, 150):
        x = depth - (i + 0.5) * depth / layers
        exact = flux / STEEL.conductivity * (
            spread / math.sqrt(math.pi) * math.exp(-((x / spread) ** 2)) - x * erfc(x / spread)
        )
        assert rises[i] == pytest.approx(exact, abs=0.1)


def test_late_in_a_drag_tread_and_bore_stand_a_third_and_a_sixth_from_the_mean() -> None:
    layers, thickness, flux = 90, 0.09, 50e3
    rises = slab_rises(thickness, layers, flux, 3000.0, 300)
    mean, unit = sum(rises) / layers, flux * thickness / STEEL.conductivity
    half = flux * thickness / layers / 2 / STEEL.conductivity
    assert rises[-1] + half - mean == pytest.approx(unit / 3, rel=0.01)
    assert mean - rises[0] == pytest.approx(unit / 6, rel=0.01)


def test_a_chain_agrees_with_a_stiff_solver() -> None:
    chain = Chain((1000.0, 300.0, 5000.0), (20.0, 3.0), (1.0, 0.0, 2.0))
    heats = [500.0, 0.0, 0.0]

    def change(_: float, rises: np.ndarray) -> list[float]:
        first, second = 20.0 * (rises[0] - rises[1]), 3.0 * (rises[1] - rises[2])
        return [
            (500.0 - first - rises[0]) / 1000.0,
            (first - second) / 300.0,
            (second - 2.0 * rises[2]) / 5000.0,
        ]

    exact = solve_ivp(change, (0.0, 600.0), [0.0, 0.0, 0.0], method="BDF", rtol=1e-9, atol=1e-9).y[:, -1]
    rises = [0.0, 0.0, 0.0]
    for _ in range(200):
        rises = transient.chain_step(chain, rises, heats, 3.0)
    assert rises == pytest.approx(exact, rel=1e-4)


def test_halving_the_step_quarters_the_error() -> None:
    def end(steps: int) -> float:
        return slab_rises(0.09, 20, 60e3, 60.0, steps)[5]

    exact = end(1024)
    assert (end(4) - exact) / (end(8) - exact) == pytest.approx(4.0, rel=0.3)


def test_heat_that_goes_in_is_held_when_nothing_is_lost() -> None:
    model = transient._model(WHEEL, 3000.0, 0.0, 0.0, 12)
    rises, heats = [0.0] * 37, [40e3] + [0.0] * 36
    for _ in range(100):
        rises = transient.chain_step(model.chain, rises, heats, 7.0)
    held = sum(c * rise for c, rise in zip(model.chain.capacities, rises, strict=True))
    assert held == pytest.approx(40e3 * 700.0, rel=1e-12)


def test_the_tire_in_the_chain_has_the_mass_of_the_ring() -> None:
    model = transient._model(WHEEL, 3000.0, 0.0, 0.0, 12)
    mass = 7850.0 * math.pi * (0.80**2 - 0.71**2) * 0.14
    assert sum(model.chain.capacities[model.tire]) == pytest.approx(mass * 480.0)


def test_finer_layers_and_steps_do_not_move_the_loosening_time() -> None:
    def minutes(step: float, layers: int) -> float:
        course = transient.wheel_history(WHEEL, [(1800.0, 45e3)], 3000.0, 0.0012, step=step, layers=layers)
        seconds = transient.loosening_time(course)
        assert seconds is not None
        return seconds / 60.0

    assert minutes(10.0, 8) == pytest.approx(minutes(2.5, 24), rel=0.01)


def test_contact_that_carries_nothing_gives_the_lumped_time_of_the_cold_center() -> None:
    course = transient.wheel_history(WHEEL, [(1800.0, 45e3)], 1e-6, 0.0012, step=5.0)
    mass = 7850.0 * math.pi * (0.80**2 - 0.71**2) * 0.14
    lumped = mass * 480.0 * 0.0012 / (11.7e-6 * 1.42) / 45e3
    assert transient.loosening_time(course) == pytest.approx(lumped, rel=1e-3)


def test_better_contact_warms_the_center_and_delays_the_loosening() -> None:
    def seconds(conductance: float) -> float:
        course = transient.wheel_history(WHEEL, [(3600.0, 45e3)], conductance, 0.0012)
        time = transient.loosening_time(course)
        assert time is not None
        return time

    assert seconds(500.0) < seconds(1500.0) < seconds(15000.0)


def test_a_worn_tire_loosens_about_twice_as_soon() -> None:
    worn = replace(WHEEL, tread_radius=0.755)

    def seconds(wheel: Wheel) -> float:
        time = transient.loosening_time(transient.wheel_history(wheel, [(3600.0, 45e3)], 1500.0, 0.0012))
        assert time is not None
        return time

    assert 1.8 < seconds(WHEEL) / seconds(worn) < 2.6


def test_one_stop_leaves_interference_and_running_free_gives_it_back() -> None:
    course = transient.wheel_history(WHEEL, [(40.0, 90e3), (3600.0, 0.0)], 3000.0, 0.0012, side_loss=20.0)
    assert transient.loosening_time(course) is None
    assert min(moment.interference for moment in course) < course[-1].interference <= 0.0012


def test_a_wheel_that_starts_loose_is_loose_at_once() -> None:
    course = transient.wheel_history(WHEEL, [(10.0, 0.0)], 3000.0, -0.0001)
    assert transient.loosening_time(course) == 0.0


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan])
def test_an_impossible_wheel_or_stage_names_itself(bad: float) -> None:
    with pytest.raises(ValueError, match="hub_radius"):
        replace(WHEEL, hub_radius=bad)
    with pytest.raises(ValueError, match="stage"):
        transient.wheel_history(WHEEL, [(bad, 1.0)], 3000.0, 0.001)
    with pytest.raises(ValueError, match="links"):
        Chain((1.0, 1.0), (), (0.0, 0.0))


def rings(layers: int) -> tuple[list[float], list[float]]:
    """Capacities of the tire's and the rim's layers, from the outside in, by hand."""

    def ring(inside: float, outside: float, width: float) -> list[float]:
        edges = np.linspace(outside, inside, layers + 1)
        return [7850.0 * 480.0 * width * math.pi * (a**2 - b**2) for a, b in pairwise(edges)]

    return ring(0.71, 0.80, 0.14), ring(0.65, 0.71, 0.12)


def test_long_after_the_start_every_part_warms_alike_and_each_stands_above_the_next_by_its_resistance() -> None:
    # Nothing is lost: all parts warm at P / (all capacities), so the heat that crosses a place is that of what
    # lies beyond it, and the drop there is this times the resistance: ln(r2/r1) / (2 pi k w), 1 / (h A), L / (k A).
    power, contact, k = 20e3, 3000.0, 48.0
    (tire,), (rim,) = rings(1)
    length, area = 0.65 - 0.18, 16 * 0.006
    spoke, hub = 7850.0 * 480.0 * area * length, 2.0e5
    rate = power / (tire + rim + spoke + hub)
    round_tire, round_rim = 2.0 * math.pi * k * 0.14, 2.0 * math.pi * k * 0.12
    seat = (math.log(0.755 / 0.71) / round_tire + 1.0 / (contact * 2.0 * math.pi * 0.71 * 0.12)
            + math.log(0.71 / 0.68) / round_rim)  # fmt: skip
    end = transient.wheel_history(WHEEL, [(1e6, power)], contact, 0.0015, step=1e4, layers=1)[-1]
    assert end.tread - end.tire == pytest.approx(power * math.log(0.80 / 0.755) / round_tire, rel=1e-6)
    assert end.tire - end.rim == pytest.approx(rate * (rim + spoke + hub) * seat, rel=1e-6)
    between = math.log(0.68 / 0.65) / round_rim + 0.5 * length / (k * area)
    assert end.rim - end.spoke == pytest.approx(rate * (spoke + hub) * between, rel=1e-6)
    assert end.spoke - end.hub == pytest.approx(rate * hub * 0.5 * length / (k * area), rel=1e-6)
    held = tire * end.tire + rim * end.rim + spoke * end.spoke + hub * end.hub
    assert held == pytest.approx(power * 1e6, rel=1e-9)
    assert (end.bore, end.seat) == (end.tire, end.rim)


def test_two_layers_of_a_part_stand_apart_by_the_resistance_between_their_middles() -> None:
    power, k = 20e3, 48.0
    tire, rim = rings(2)
    length, area = 0.65 - 0.18, 16 * 0.006
    spoke = 7850.0 * 480.0 * area * length
    rate = power / (sum(tire) + sum(rim) + spoke + 2.0e5)
    end = transient.wheel_history(WHEEL, [(1e6, power)], 3000.0, 0.0015, step=1e4, layers=2)[-1]
    outer = (end.tire * sum(tire) - end.bore * tire[1]) / tire[0]
    apart = math.log(0.7775 / 0.7325) / (2.0 * math.pi * k * 0.14)
    assert outer - end.bore == pytest.approx((power - rate * tire[0]) * apart, rel=1e-6)
    inner = (end.rim * sum(rim) - end.seat * rim[0]) / rim[1]
    apart = math.log(0.695 / 0.665) / (2.0 * math.pi * k * 0.12)
    assert end.seat - inner == pytest.approx((power - rate * (sum(tire) + rim[0])) * apart, rel=1e-6)
    # half the spoke above its middle and half below it: its mean lies 3/4 of a layer above the lower layer's end
    lower = end.hub + rate * 2.0e5 * (length / 4.0) / (k * area)
    upper = 2.0 * end.spoke - lower
    assert upper - lower == pytest.approx(rate * (2.0e5 + spoke / 2.0) * (length / 2.0) / (k * area), rel=1e-6)


def test_what_the_tread_alone_loses_settles_where_it_loses_what_goes_in() -> None:
    power, loss = 5e3, 30.0
    end = transient.wheel_history(WHEEL, [(1e9, power)], 3000.0, 0.0015, tread_loss=loss, step=1e8, layers=300)[-1]
    rise = power / (loss * 2.0 * math.pi * 0.80 * 0.14)
    assert [end.tread, end.tire, end.rim, end.spoke, end.hub] == pytest.approx([rise] * 5, rel=1e-3)


def test_the_layer_that_takes_the_heat_loses_it_again_through_its_outer_half() -> None:
    power, loss = 5.0, 0.5
    end = transient.wheel_history(WHEEL, [(1e10, power)], 3000.0, 0.0015, tread_loss=loss, step=1e9, layers=1)[-1]
    half = math.log(0.80 / 0.755) / (2.0 * math.pi * 48.0 * 0.14)
    assert end.hub == pytest.approx(power * (1.0 / (loss * 2.0 * math.pi * 0.80 * 0.14) + half), rel=1e-6)


@pytest.mark.parametrize("layers", [1, 3])
def test_what_all_other_faces_lose_settles_by_their_area(layers: int) -> None:
    # Metal that conducts without end: one temperature, and the area is both faces of the rings and the spokes' sides.
    copper = Metal(1e9, 7850.0, 480.0, 11.7e-6)
    wheel = replace(WHEEL, tire=copper, center=copper)
    area = 2.0 * math.pi * (0.80**2 - 0.65**2) + 16 * 0.29 * (0.65 - 0.18)
    end = transient.wheel_history(wheel, [(1e9, 5e3)], 1e9, 0.0015, side_loss=20.0, step=1e8, layers=layers)[-1]
    assert [end.tire, end.rim, end.spoke, end.hub] == pytest.approx([5e3 / (20.0 * area)] * 4, rel=1e-5)


def test_a_loss_from_a_slab_passes_its_last_half_layer_first() -> None:
    # 50 W/(m K) through 0.05 m is 1000 W/K a layer; 20 W/(m2 K) after half a layer is 1 / (1/20 + 1/2000).
    chain = transient.slab_chain(0.1, 2, 50.0, 8000.0, 500.0, 20.0)
    assert chain.links == pytest.approx((1000.0,))
    assert chain.capacities == pytest.approx((2.0e5, 2.0e5))
    assert chain.losses == pytest.approx((0.0, 1.0 / 0.0505))
    assert transient.slab_chain(0.1, 1, 50.0, 8000.0, 500.0).losses == (0.0,)
    assert transient.slab_chain(0.1, 1, 50.0, 8000.0, 500.0, 0.5).losses == pytest.approx((1.0 / 2.001,))
    with pytest.raises(ValueError, match="layers must be one or more, not 0"):
        transient.slab_chain(0.1, 0, 50.0, 8000.0, 500.0)


def test_a_stage_is_cut_into_equal_steps_none_longer_than_asked() -> None:
    course = transient.wheel_history(WHEEL, [(60.0, 1e3), (30.0, 0.0)], 3000.0, 0.0015, step=25.0, layers=2)
    assert [moment.seconds for moment in course] == pytest.approx([0.0, 20.0, 40.0, 60.0, 75.0, 90.0])
    assert [course[0].tread, course[0].hub, course[0].interference] == pytest.approx([0.0, 0.0, 0.0015])


def test_what_is_left_of_the_interference_is_what_the_rises_of_a_moment_leave() -> None:
    end = transient.wheel_history(WHEEL, [(600.0, 40e3)], 3000.0, 0.0015)[-1]
    growth = spoked_center_growth(0.71, 0.06, 0.18, 11.7e-6, 0.4, end.rim, end.spoke, end.hub)
    assert end.interference == pytest.approx(0.0015 + growth - 11.7e-6 * 1.42 * end.tire, rel=1e-9)


@pytest.mark.parametrize(
    ("left", "seconds"),
    [((1.0, 0.5, -0.5), 15.0), ((1.0, 0.0, -1.0), 10.0), ((1.0, 0.25, 0.0), 20.0), ((0.0, 1.0, 1.0), 0.0),
     ((1.0, 0.5, 0.25), None), ((3.0, -1.0, 1.0), 7.5)],
)  # fmt: skip
def test_the_loosening_lies_straight_between_two_moments(left: tuple[float, ...], seconds: float | None) -> None:
    course = [transient.Moment(10.0 * n, 0, 0, 0, 0, 0, 0, 0, 1e-3 * value) for n, value in enumerate(left)]
    assert transient.loosening_time(course) == (None if seconds is None else pytest.approx(seconds))


def test_one_spoke_and_one_layer_are_enough_and_none_is_not() -> None:
    assert replace(WHEEL, spokes=1).spokes == 1
    with pytest.raises(ValueError, match="spokes must be one or more, not 0"):
        replace(WHEEL, spokes=0)
    with pytest.raises(ValueError, match="layers must be one or more, not 0"):
        transient.wheel_history(WHEEL, [(1.0, 1.0)], 3000.0, 0.001, layers=0)


def test_one_long_step_is_that_of_the_two_stages() -> None:
    # dT/dt = -T over one step of 1, g = 2 - sqrt 2. Trapezoid to g: (1 - g/2) / (1 + g/2) = 0.54692; then from both
    # (0.54692 - (1 - g)^2) / (g (2 - g)) / (1 + (1 - g) / (2 - g)) = 0.35044. Exactly it would be 1/e = 0.36788.
    chain = Chain((1.0,), (), (1.0,))
    assert transient.chain_step(chain, [1.0], [0.0], 1.0) == pytest.approx([0.35044], abs=1e-5)


def test_unless_asked_otherwise_a_step_is_five_seconds_and_a_part_twelve_layers() -> None:
    asked = transient.wheel_history(WHEEL, [(12.0, 40e3)], 3000.0, 0.0015, 0.0, 0.0, 5.0, 12)
    assert transient.wheel_history(WHEEL, [(12.0, 40e3)], 3000.0, 0.0015) == asked
