"""What each case asks of our formulas, from the given values to results in SI: heat, brakes, regression.

Semi-infinite solids are stood for by a slab deep enough that its far face stays cold, so that the printed answers
test the volumes of the transient model; no closed form of the answer is used here.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any

from axlebook.engineering import braking, heating, transient, wear

LAYERS = 400
STEPS = 400


def sphere(given: Mapping[str, Any]) -> tuple[float, float]:
    """Mass and area of a sphere."""
    return given["density"] * math.pi * given["diameter"] ** 3 / 6.0, math.pi * given["diameter"] ** 2


def sphere_time(given: Mapping[str, Any]) -> Mapping[str, Any]:
    mass, area = sphere(given)
    loss = given["coefficient"] * area
    ends = given["start"], given["end"], given["surroundings"]
    if given["end"] > given["start"]:
        ends = (ends[2] - ends[0] + 300.0, ends[2] - ends[1] + 300.0, 300.0)
    return {"time": heating.cooling_time(mass, given["specific_heat"], loss, *ends)}


def cooled_mass_time(given: Mapping[str, Any]) -> Mapping[str, Any]:
    loss = given["coefficient"] * given["area"]
    ends = given["start"], given["end"], given["surroundings"]
    return {"time": heating.cooling_time(given["mass"], given["specific_heat"], loss, *ends)}


def sphere_temperature(given: Mapping[str, Any]) -> Mapping[str, Any]:
    mass, area = sphere(given)
    chain = transient.Chain((mass * given["specific_heat"],), (), (given["coefficient"] * area,))
    rises = run(chain, [given["start"] - given["surroundings"]], 0.0, given["time"])
    return {"temperature": given["surroundings"] + rises[0]}


def run(chain: transient.Chain, rises: list[float], heat: float, seconds: float) -> list[float]:
    """A chain's rises after a time, heat going into its last volume."""
    heats = [0.0] * (len(rises) - 1) + [heat]
    for _ in range(STEPS):
        rises = transient.chain_step(chain, rises, heats, seconds / STEPS)
    return rises


def convective_slab(given: Mapping[str, Any]) -> Mapping[str, Any]:
    layers = 100
    metal = given["conductivity"], given["density"], given["specific_heat"]
    chain = transient.slab_chain(given["thickness"], layers, *metal, loss=given["coefficient"])
    start = given["start"] - given["surroundings"]
    rises = run(chain, [start] * layers, 0.0, given["time"])
    gained = sum(c * (rise - start) for c, rise in zip(chain.capacities, rises, strict=True))
    return {
        "insulated_face": given["surroundings"] + rises[0],
        "flux": chain.losses[-1] * rises[-1],
        "held_per_metre_of_pipe": -gained * math.pi,
    }


def deep_slab(given: Mapping[str, Any], seconds: float, loss: float) -> tuple[transient.Chain, float]:
    """A slab that the heat does not cross in the time, and its thickness."""
    if "diffusivity" in given:
        capacity = given["conductivity"] / given["diffusivity"]
    else:
        capacity = given["density"] * given["specific_heat"]
    thickness = 8.0 * math.sqrt(given["conductivity"] / capacity * seconds)
    chain = transient.slab_chain(thickness, LAYERS, given["conductivity"], capacity, 1.0, loss)
    return chain, thickness


def at_depth(rises: list[float], thickness: float, depth: float) -> float:
    """The rise at a depth below the last face, straight between two volumes."""
    place = (thickness - depth) / thickness * LAYERS - 0.5
    below = math.floor(place)
    return rises[below] + (place - below) * (rises[below + 1] - rises[below])


SUDDEN = 1e9
"""A surface coefficient so great that the face takes the temperature of its surroundings at once [W/(m2 K)]."""


def rise_after(given: Mapping[str, Any], start: float, loss: float, flux: float) -> float:
    chain, thickness = deep_slab(given, given["time"], loss)
    rises = run(chain, [start] * LAYERS, flux, given["time"])
    return at_depth(rises, thickness, given["depth"])


def half_space_step(given: Mapping[str, Any]) -> Mapping[str, Any]:
    rise = rise_after(given, given["start"] - given["surface"], SUDDEN, 0.0)
    return {"temperature": given["surface"] + rise}


def half_space_flux(given: Mapping[str, Any]) -> Mapping[str, Any]:
    return {"temperature": given["start"] + rise_after(given, 0.0, 0.0, given["flux"])}


def half_space_convection(given: Mapping[str, Any]) -> Mapping[str, Any]:
    rise = rise_after(given, given["start"] - given["surroundings"], given["coefficient"], 0.0)
    return {"temperature": given["surroundings"] + rise}


def half_space_step_from_last_flux(given: Mapping[str, Any]) -> Mapping[str, Any]:
    """The surface whose flux at the end is the one given: the flux of a unit step, and then in proportion."""
    chain, thickness = deep_slab(given, given["time"], SUDDEN)
    rises = run(chain, [1.0] * LAYERS, 0.0, given["time"])
    step = given["flux"] / (chain.losses[-1] * rises[-1])
    return {"temperature": given["start"] + step * (1.0 - at_depth(rises, thickness, given["depth"]))}


def half_space_convection_time(given: Mapping[str, Any]) -> Mapping[str, Any]:
    chain, thickness = deep_slab(given, 6000.0, given["coefficient"])
    sought = given["sought"] - given["surroundings"]
    rises = [given["start"] - given["surroundings"]] * LAYERS
    before, clock = at_depth(rises, thickness, given["depth"]), 0.0
    while True:
        rises = transient.chain_step(chain, rises, [0.0] * LAYERS, 20.0)
        after = at_depth(rises, thickness, given["depth"])
        if after <= sought:
            return {"time": clock + 20.0 * (before - sought) / (before - after)}
        before, clock = after, clock + 20.0


def half_space_depth(given: Mapping[str, Any]) -> Mapping[str, Any]:
    chain, thickness = deep_slab(given, given["time"], SUDDEN)
    rises = run(chain, [given["start"] - given["surface"]] * LAYERS, 0.0, given["time"])
    sought, low, high = given["sought"] - given["surface"], thickness / LAYERS, thickness / 2.0
    for _ in range(60):
        middle = (low + high) / 2.0
        low, high = (middle, high) if at_depth(rises, thickness, middle) < sought else (low, middle)
    return {"depth": low}


def growth(given: Mapping[str, Any]) -> Mapping[str, Any]:
    rise = given["warm"] - given["cold"]
    return {"growth": heating.diameter_growth(given["length"], given["expansion"], rise)}


def descent_rise(given: Mapping[str, Any]) -> Mapping[str, Any]:
    energy = braking.stop_energy(
        given["mass"], 10.0, 10.0, descent=given["descent"], gravity=given["gravity"]
    )
    return {
        "energy": energy,
        "rise": braking.lumped_rise(energy, given["brake_mass"], given["specific_heat"]),
    }


def vehicle_stop(given: Mapping[str, Any]) -> Mapping[str, Any]:
    energy = braking.stop_energy(given["weight"] / given["gravity"], given["speed"])
    time = given["speed"] / given["deceleration"]
    rise = braking.lumped_rise(energy, given["brake_mass"], given["specific_heat"])
    return {"energy": energy, "rise": rise, "time": time, "power": energy / time}


def disk_stop(given: Mapping[str, Any]) -> Mapping[str, Any]:
    """A disk that turns in place: half its mass as if at its edge, shared between what moves and what turns."""
    mass = given["density"] * math.pi * given["diameter"] ** 2 / 4.0 * given["width"]
    edge = given["spin"] * given["diameter"] / 2.0
    energy = braking.stop_energy(mass / 4.0, edge, rotating_mass=mass / 4.0)
    return {"energy": energy, "torque": energy / (given["spin"] * given["time"] / 2.0)}


def car_stop(given: Mapping[str, Any]) -> Mapping[str, Any]:
    inertia = given["wheels"] * given["wheel_inertia"] + given["engine_inertia"] * given["engine_ratio"] ** 2
    energy = braking.stop_energy(given["mass"], given["speed"], rotating_mass=inertia / given["radius"] ** 2)
    return {"energy_of_each_brake": braking.heat_into_wheel(energy, int(given["wheels"]), 1.0)}


def lowered_load_stop(given: Mapping[str, Any]) -> Mapping[str, Any]:
    turning = given["drum_mass"] * (given["gyration"] / given["radius"]) ** 2
    energy = braking.stop_energy(
        given["mass"], given["speed"], 0.0, turning, given["descent"], given["gravity"]
    )
    return {"energy": energy, "torque": energy / (given["descent"] / given["radius"])}


def drag_brake(given: Mapping[str, Any]) -> Mapping[str, Any]:
    power = braking.grade_power(given["axle_load"], given["gradient"], given["speed"])
    return {
        "power_of_each_wheel": braking.heat_into_wheel(power, 2, 1.0),
        "time": given["distance"] / given["speed"],
    }


def dated(readings: list[Any]) -> tuple[list[float], list[float]]:
    """Places and readings of a series, those missing left out."""
    kept = [(float(i), value) for i, value in enumerate(readings) if value != "missing"]
    return [place for place, _ in kept], [value for _, value in kept]


def theil_sen(given: Mapping[str, Any]) -> Mapping[str, Any]:
    return {"slope": wear.theil_sen_slope(*dated(given["readings"]))}


def slope_within_months(given: Mapping[str, Any]) -> Mapping[str, Any]:
    return {"slope": wear.common_slope([dated(given["readings"][month::12]) for month in range(12)])}


def theil_sen_pairs(given: Mapping[str, Any]) -> Mapping[str, Any]:
    low, high = wear.slope_interval([(given["times"], given["readings"])]) or (math.nan, math.nan)
    return {
        "slope": wear.theil_sen_slope(given["times"], given["readings"]),
        "interval_holds_certified": float(low <= given["certified"] <= high),
    }


def sen_example(given: Mapping[str, Any]) -> Mapping[str, Any]:
    trend = wear.wear_trend([(given["times"], given["readings"])], given["confidence"])
    assert trend is not None
    return {"slope": trend.slope, "intercept": trend.intercept, "low": trend.low, "high": trend.high}


FORMULAS: dict[str, Callable[[Mapping[str, Any]], Mapping[str, Any]]] = {
    formula.__name__: formula
    for formula in (
        sphere_time,
        cooled_mass_time,
        sphere_temperature,
        convective_slab,
        half_space_step,
        half_space_flux,
        half_space_convection,
        half_space_step_from_last_flux,
        half_space_convection_time,
        half_space_depth,
        growth,
        descent_rise,
        vehicle_stop,
        disk_stop,
        car_stop,
        lowered_load_stop,
        drag_brake,
        theil_sen,
        slope_within_months,
        theil_sen_pairs,
        sen_example,
    )
}
