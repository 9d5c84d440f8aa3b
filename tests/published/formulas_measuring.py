"""What each case asks of our formulas, from the given values to results in SI: lengths, tapes, uncertainty."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from axlebook.engineering.circle import least_squares_circle
from axlebook.engineering.metrology import (
    REFERENCE_TEMPERATURE,
    length_at_20,
    length_at_temperature,
    tape_stretch,
)
from axlebook.engineering.uncertainty import (
    combined_standard_uncertainty,
    conformance_probability,
    effective_degrees_of_freedom,
    instrument_uncertainty,
    rectangular_uncertainty,
    repeat_uncertainty,
)

Given = Mapping[str, Any]
Results = Mapping[str, Any]


def _as_given(given: Given) -> Results:
    """For conversions of units: what the runner itself made of the written value."""
    return given


def _true_length_at_20(given: Given) -> Results:
    length = length_at_20(
        given["reading"],
        part_temperature=given["temperature"],
        part_expansion=given["expansion"],
        instrument_temperature=None,
        instrument_expansion=0.0,
    )
    return {"length": length}


def _stretch(length: float, expansion: float, rise: float) -> float:
    """Free growth for a temperature difference."""
    return length_at_temperature(length, REFERENCE_TEMPERATURE + rise, expansion) - length


def _free_expansion(given: Given) -> Results:
    rise = given["hot"] - given["cold"]
    growth = _stretch(given["length"], given["expansion"], rise)
    held = growth - given.get("gap", 0.0)
    return {"growth": growth, "stress": given["modulus"] * held / given["length"]}


def _two_metals_side_by_side(given: Given) -> Results:
    """Stress in two bars that must keep one length; each takes the same force."""
    rise = given["rise"]
    misfit = _stretch(1.0, given["expansion"][1], rise) - _stretch(1.0, given["expansion"][0], rise)
    force = misfit / sum(1.0 / (e * a) for e, a in zip(given["modulus"], given["area"], strict=True))
    return {"first": force / given["area"][0], "second": force / given["area"][1]}


def _hung_from_unlike_bars(given: Given) -> Results:
    """A stiff level weight on two bars of one kind and a third of another, warmed together.

    All three grow by the same amount: a L dT + s L / E is one and the same, and the forces carry the load.
    """
    outer, inner = 0, 1
    free = [_stretch(given["length"][i], given["expansion"][i], given["rise"]) for i in (outer, inner)]
    springs = [given["length"][i] / given["modulus"][i] for i in (outer, inner)]
    areas = given["area"]
    both = 2.0 * areas[outer] * springs[inner] / springs[outer] + areas[inner]
    stress_inner = (given["load"] - 2.0 * areas[outer] * (free[inner] - free[outer]) / springs[outer]) / both
    stress_outer = (free[inner] - free[outer] + stress_inner * springs[inner]) / springs[outer]
    return {"outer": stress_outer, "inner": stress_inner}


def _pulled_tape(given: Given) -> Results:
    section = given["tension"], 0.0, given["width"] * given["thickness"], given["modulus"]
    stretch = tape_stretch(given["tape"], *section)
    return {"stretch": stretch, "length": given["reading"] + tape_stretch(given["reading"], *section)}


def _rectangular_and_normal(given: Given) -> Results:
    parts = [instrument_uncertainty(given["expanded"], given["coverage"]), *given["standard"]]
    parts += [rectangular_uncertainty(half) for half in given["half_widths"]]
    combined = combined_standard_uncertainty(parts)
    return {"value": sum(given["values"]), "combined": combined, "expanded": 2.0 * combined}


def _end_gauge(given: Given) -> Results:
    """GUM H.1: seven inputs, two of them themselves combined, first order."""
    length, theta = given["length"], abs(given["theta"])
    difference = combined_standard_uncertainty(given["difference_parts"])
    difference_freedom = effective_degrees_of_freedom(given["difference_parts"], given["difference_freedoms"])
    arcsine = given["theta_swing"] / math.sqrt(2.0)
    offset = combined_standard_uncertainty([given["theta_mean_uncertainty"], arcsine])
    temperature = length * given["expansion"] * rectangular_uncertainty(given["gauge_difference"])
    expansion = length * theta * rectangular_uncertainty(given["expansion_difference"])
    moves = [given["standard_uncertainty"], difference, expansion, temperature]
    freedoms = [given["standard_freedom"], difference_freedom, 50.0, 2.0]
    return {
        "difference": difference,
        "difference_freedom": difference_freedom,
        "offset": offset,
        "temperature": temperature,
        "combined": combined_standard_uncertainty(moves),
        "freedom": effective_degrees_of_freedom(moves, freedoms),
    }


def _correlation(one: Sequence[float], other: Sequence[float]) -> float:
    n, a, b = len(one), sum(one) / len(one), sum(other) / len(other)
    covariance = sum((x - a) * (y - b) for x, y in zip(one, other, strict=True)) / (n - 1) / n
    return covariance / repeat_uncertainty(one) / repeat_uncertainty(other)


def _impedance(given: Given) -> Results:
    """GUM H.2: resistance, reactance and impedance from correlated volts, amperes and phase."""
    series = [given["volts"], given["amperes"], given["phase"]]
    uncertainties = [repeat_uncertainty(values) for values in series]
    correlation = [[1.0 if one is other else _correlation(one, other) for other in series] for one in series]
    correlation = [[(correlation[i][j] + correlation[j][i]) / 2.0 for j in range(3)] for i in range(3)]
    volts, amperes, phase = (sum(values) / len(values) for values in series)
    impedance = volts / amperes
    cosine, sine = math.cos(phase), math.sin(phase)
    for_r = [cosine / amperes, -impedance * cosine / amperes, -impedance * sine]
    for_x = [sine / amperes, -impedance * sine / amperes, impedance * cosine]
    for_z = [1.0 / amperes, -impedance / amperes, 0.0]
    return {
        "resistance": impedance * cosine,
        "reactance": impedance * sine,
        "impedance": impedance,
        "u_resistance": combined_standard_uncertainty(uncertainties, for_r, correlation),
        "u_reactance": combined_standard_uncertainty(uncertainties, for_x, correlation),
        "u_impedance": combined_standard_uncertainty(uncertainties, for_z, correlation),
    }


def _expansion_coefficient(given: Given) -> Results:
    """(L1 - L0) / (L0 (T1 - T0)), all four independent."""
    (short, long), (cold, hot) = given["lengths"], given["temperatures"]
    rise = hot - cold
    value = (long - short) / (short * rise)
    slopes = [-long / short**2 / rise, 1.0 / short / rise, value / rise, -value / rise]
    parts = [*given["length_uncertainties"], *given["temperature_uncertainties"]]
    return {"value": value, "combined": combined_standard_uncertainty(parts, slopes)}


def _ratio_times_constant(given: Given) -> Results:
    """x1 / x2 * y, all independent."""
    (first, second, third), parts = given["values"], given["standard"]
    value = first / second * third
    slopes = [value / first, -value / second, value / third]
    moves = [slope * part for slope, part in zip(slopes, parts, strict=True)]
    return {
        "value": value,
        "combined": combined_standard_uncertainty(parts, slopes),
        "freedom": effective_degrees_of_freedom(moves, given["freedoms"]),
    }


def _freedom_of_a_sum(given: Given) -> Results:
    return {"freedom": effective_degrees_of_freedom(given["standard"], given["freedoms"])}


def _logarithm(given: Given) -> Results:
    """ln x of a rectangular x, first order."""
    part = rectangular_uncertainty(given["half_width"])
    return {"combined": combined_standard_uncertainty([part], [1.0 / given["middle"]])}


def _within_limits(given: Given) -> Results:
    chance = conformance_probability(
        given["value"], given["standard"], lower=given.get("lower"), upper=given.get("upper")
    )
    return {"within": chance, "outside": 1.0 - chance}


def _circle(given: Given) -> Results:
    fit = least_squares_circle(given["x"], given["y"])
    return {"x": fit.x, "y": fit.y, "radius": fit.radius}


FORMULAS: dict[str, Callable[[Given], Results]] = {
    "as_given": _as_given,
    "true_length_at_20": _true_length_at_20,
    "free_expansion": _free_expansion,
    "two_metals_side_by_side": _two_metals_side_by_side,
    "hung_from_unlike_bars": _hung_from_unlike_bars,
    "pulled_tape": _pulled_tape,
    "rectangular_and_normal": _rectangular_and_normal,
    "end_gauge": _end_gauge,
    "impedance": _impedance,
    "expansion_coefficient": _expansion_coefficient,
    "ratio_times_constant": _ratio_times_constant,
    "freedom_of_a_sum": _freedom_of_a_sum,
    "logarithm": _logarithm,
    "within_limits": _within_limits,
    "circle": _circle,
}
