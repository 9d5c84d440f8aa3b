"""What each case asks of our formulas, from the given values to results in SI: fits, rotation, mass."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any

from axlebook.engineering.grip import slip_torque
from axlebook.engineering.heating import temperature_rise
from axlebook.engineering.ring_stress import (
    center_seat_stress,
    pressure_for_bore_hoop,
    radial_growth,
    rim_inside_hoop,
    ring_stress,
    tire_bore_hoop,
    tire_tread_hoop,
    von_mises_stress,
)
from axlebook.engineering.rotation import rotation_loss, spinning_growth, spinning_ring_stress
from axlebook.engineering.shrink_fit import (
    contact_pressure,
    interference,
    required_interference,
    ring_center_compliance,
    solid_center_compliance,
    tire_compliance,
)
from axlebook.engineering.tire_mass import revolved_mass

Given = Mapping[str, Any]
Results = Mapping[str, Any]


def root(function: Callable[[float], float], low: float, high: float) -> float:
    """Where a rising function crosses zero, by halving."""
    for _ in range(200):
        middle = (low + high) / 2.0
        low, high = (low, middle) if function(middle) > 0.0 else (middle, high)
    return (low + high) / 2.0


def _thick_ring(given: Given) -> Results:
    """Stress in a ring at each radius listed."""
    pressures = given.get("inside_pressure", 0.0), given.get("outside_pressure", 0.0)
    results: dict[str, float] = {}
    for radius in given["at"]:
        stress = ring_stress(radius, given["inside_radius"], given["outside_radius"], *pressures)
        results[f"radial_{radius * 1e3:g}"] = stress.radial
        results[f"hoop_{radius * 1e3:g}"] = stress.hoop
    bore = ring_stress(given["inside_radius"], given["inside_radius"], given["outside_radius"], *pressures)
    return results | {"shear_bore": (bore.hoop - bore.radial) / 2.0}


def _pressure_for_the_same_bore_hoop(given: Given) -> Results:
    """Inside pressure that keeps the bore's hoop stress when the outside pressure changes."""
    radii = given["inside_radius"], given["outside_radius"]
    before = ring_stress(radii[0], *radii, given["inside_pressure"], given["outside_pressure"]).hoop
    return {
        "inside_pressure": root(
            lambda p: ring_stress(radii[0], *radii, p, given["new_outside_pressure"]).hoop - before, 0.0, 1e9
        )
    }


def _compliances(given: Given) -> tuple[float, float]:
    """Of the outer part, and of the inner one, which is solid when it has no inside radius."""
    radius, modulus, poisson = given["seat_radius"], given["modulus"], given["poisson"]
    outer = tire_compliance(radius, given["outside_radius"], modulus, poisson)
    if "inside_radius" not in given:
        return outer, solid_center_compliance(radius, modulus, poisson)
    return outer, ring_center_compliance(radius, given["inside_radius"], modulus, poisson)


def _diametral(given: Given) -> float:
    """The interference on diameter, however the source states it."""
    if "diametral_interference" in given:
        return float(given["diametral_interference"])
    return 2.0 * float(given["radial_interference"])


def _shrink_fit(given: Given) -> Results:
    """Pressure, and the stresses at the edges of both parts."""
    radius, outside = given["seat_radius"], given["outside_radius"]
    pressure = contact_pressure(_diametral(given), *_compliances(given))
    results = {
        "pressure": pressure,
        "hoop_outer_bore": tire_bore_hoop(pressure, radius, outside),
        "hoop_outer_tread": tire_tread_hoop(pressure, radius, outside),
        "hoop_inner_seat": center_seat_stress(pressure, radius, given.get("inside_radius")).hoop,
    }
    if "inside_radius" in given:
        results["hoop_inner_inside"] = rim_inside_hoop(pressure, radius, given["inside_radius"])
    if "expansion" in given:
        clearance = 2.0 * given.get("radial_clearance", 0.0)
        results["rise"] = temperature_rise(_diametral(given), clearance, 2.0 * radius, given["expansion"])
    if "friction" in given:
        results["torque"] = slip_torque(pressure, given["friction"], radius, given["width"])
    return results


def _shrink_fit_under_pressure(given: Given) -> Results:
    """Hoop stress when pressure inside is added to a shrink fit of like parts."""
    fit = _shrink_fit(given)
    inside, radius, outside = given["inside_radius"], given["seat_radius"], given["outside_radius"]
    added = {r: ring_stress(r, inside, outside, given["inside_pressure"]) for r in (inside, radius, outside)}
    return {
        "hoop_inner_inside": fit["hoop_inner_inside"] + added[inside].hoop,
        "hoop_inner_seat": fit["hoop_inner_seat"] + added[radius].hoop,
        "hoop_outer_bore": fit["hoop_outer_bore"] + added[radius].hoop,
        "hoop_outer_tread": fit["hoop_outer_tread"] + added[outside].hoop,
        "radial_seat": added[radius].radial - fit["pressure"],
    }


def _allowance_for_pressure(given: Given) -> Results:
    diametral = required_interference(given["pressure"], *_compliances(given))
    return {"radial_interference": diametral / 2.0, "diametral_interference": diametral}


def _bore_for_hoop_limit(given: Given) -> Results:
    """Bore of the outer part whose hoop stress reaches a limit."""
    pressure = pressure_for_bore_hoop(given["hoop"], given["seat_radius"], given["outside_radius"])
    allowance = required_interference(pressure, *_compliances(given))
    return {"bore": 2.0 * given["seat_radius"] - allowance}


def _interference_limits(given: Given) -> Results:
    return {
        "most": interference(given["shaft_high"], given["hole_low"]),
        "least": interference(given["shaft_low"], given["hole_high"]),
    }


def _equivalent_stress(given: Given) -> Results:
    return {"yield": von_mises_stress(given["radial"], given["hoop"])}


def _yield_theories(given: Given) -> Results:
    """Inside pressure at first yield, the outside one being a fixed share of it."""
    radii, share = (given["inside_radius"], given["outside_radius"]), given["outside_share"]
    unit = ring_stress(radii[0], *radii, 1.0, share)
    return {
        "greatest_stress": given["yield"] / max(abs(unit.hoop), abs(unit.radial)),
        "greatest_shear": given["yield"] / (unit.hoop - unit.radial),
        "distortion": given["yield"] / von_mises_stress(unit.radial, unit.hoop),
    }


def _strain_limited_wall(given: Given) -> Results:
    """Wall at which the hoop STRAIN at the bore reaches what a plain bar would have at the limit."""
    inside, pressure = given["inside_diameter"] / 2.0, given["pressure"]
    limit = given["yield"] / given["factor"]

    def spare(wall: float) -> float:
        stress = ring_stress(inside, inside, inside + wall, pressure)
        return float(limit - (stress.hoop - given["poisson"] * stress.radial))

    return {"wall": root(spare, 1e-6, 10.0 * inside)}


def _thin_tire_on_rigid_wheel(given: Given) -> Results:
    """A tire that just fits hot, on a wheel that does not give: as a thick ring, and in the thin limit."""
    radius, modulus, poisson = given["diameter"] / 2.0, given["modulus"], given["poisson"]
    delta = given["diameter"] * given["expansion"] * (given["hot"] - given["cold"])

    def pressure(thickness: float) -> float:
        outer = tire_compliance(radius, radius + thickness, modulus, poisson)
        return contact_pressure(delta, outer, 1e-12 * outer)

    return {"thick": pressure(given["thickness"]), "thin": pressure(given["thickness"] * 1e-6) * 1e6}


def _disc_on_shaft_at_speed(given: Given) -> Results:
    """The fit that speed just takes away: interference, pressure at rest, hoop stress at rest and at speed."""
    radius, outside = given["shaft_diameter"] / 2.0, given["disc_diameter"] / 2.0
    density, modulus, poisson = given["density"], given["modulus"], given["poisson"]
    lost = rotation_loss(
        given["speed"],
        radius,
        outside,
        None,
        tire_density=density,
        tire_modulus=modulus,
        tire_poisson=poisson,
        center_density=density,
        center_modulus=modulus,
        center_poisson=poisson,
    )
    outer = tire_compliance(radius, outside, modulus, poisson)
    pressure = contact_pressure(lost, outer, solid_center_compliance(radius, modulus, poisson))
    return {
        "radial_interference": lost / 2.0,
        "pressure_at_rest": pressure,
        "hoop_at_rest": tire_bore_hoop(pressure, radius, outside),
        "hoop_at_speed": spinning_ring_stress(radius, radius, outside, given["speed"], density, poisson).hoop,
    }


def _spinning_disc_yield(given: Given) -> Results:
    inside, outside = given["inside_radius"], given["outside_radius"]
    unit = spinning_ring_stress(inside, inside, outside, 1.0, given["density"], given["poisson"]).hoop
    return {"speed": math.sqrt(given["yield"] / unit)}


def _spinning_thin_rim(given: Given) -> Results:
    """Diameter of a thin rim that reaches a stress; its stress grows with the square of the diameter."""
    unit = spinning_ring_stress(0.5, 0.4999999, 0.5, given["speed"], given["density"], 0.3).hoop
    return {"diameter": math.sqrt(given["stress"] / unit)}


def _three_spinning_cylinders(given: Given) -> Results:
    """Both contact pressures of three rings, one in the other, that spin under pressure in and out."""

    def move(ring: int, radius: float, p_in: float, p_out: float) -> float:
        inside, outside = given["inside_radius"][ring], given["outside_radius"][ring]
        modulus, poisson = given["modulus"][ring], given["poisson"][ring]
        still = radial_growth(radius, ring_stress(radius, inside, outside, p_in, p_out), modulus, poisson)
        density = given["density"][ring]
        return still + spinning_growth(radius, inside, outside, given["speed"], density, modulus, poisson)

    def gaps(p1: float, p2: float) -> tuple[float, float]:
        outer, inner = given["outside_radius"][1], given["outside_radius"][2]
        first = move(0, outer, p1, given["pressure_outside"]) - move(1, outer, p2, p1)
        second = move(1, inner, p2, p1) - move(2, inner, given["pressure_inside"], p2)
        return first - given["radial_interference"][0], second - given["radial_interference"][1]

    none, one, two = gaps(0.0, 0.0), gaps(1e6, 0.0), gaps(0.0, 1e6)
    a, c = ((one[i] - none[i]) / 1e6 for i in (0, 1))
    b, d = ((two[i] - none[i]) / 1e6 for i in (0, 1))
    return {
        "first": (-none[0] * d + none[1] * b) / (a * d - b * c),
        "second": (-none[1] * a + none[0] * c) / (a * d - b * c),
    }


def _revolved_section(given: Given) -> Results:
    pieces = list(zip(given["areas"], given["centroid_radii"], strict=True))
    mass = revolved_mass(given["density"], pieces)
    return {"mass": mass, "weight": mass * 9.81}


FORMULAS: dict[str, Callable[[Given], Results]] = {
    "thick_ring": _thick_ring,
    "pressure_for_the_same_bore_hoop": _pressure_for_the_same_bore_hoop,
    "shrink_fit": _shrink_fit,
    "shrink_fit_under_pressure": _shrink_fit_under_pressure,
    "allowance_for_pressure": _allowance_for_pressure,
    "bore_for_hoop_limit": _bore_for_hoop_limit,
    "interference_limits": _interference_limits,
    "equivalent_stress": _equivalent_stress,
    "yield_theories": _yield_theories,
    "strain_limited_wall": _strain_limited_wall,
    "thin_tire_on_rigid_wheel": _thin_tire_on_rigid_wheel,
    "disc_on_shaft_at_speed": _disc_on_shaft_at_speed,
    "spinning_disc_yield": _spinning_disc_yield,
    "spinning_thin_rim": _spinning_thin_rim,
    "three_spinning_cylinders": _three_spinning_cylinders,
    "revolved_section": _revolved_section,
}
