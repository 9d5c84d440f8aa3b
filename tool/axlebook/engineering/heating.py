"""Heating a tire to fit it: how hot, how long, what a crayon proves, and when it grips.

Temperatures are absolute [K]; a rise is a difference [K], which is never converted with an offset.
Interference, clearance and growth are on DIAMETER.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from axlebook.engineering._given import (
    above_absolute_zero,
    between,
    finite,
    finite_values,
    not_negative,
    positive,
    same_length,
    smaller,
)

REFERENCE_TEMPERATURE = 293.15
"""The temperature at which a dimension is stated, ISO 1 [K]."""


def temperature_rise(interference: float, clearance: float, bore: float, expansion: float) -> float:
    """The rise of the tire's mean above the CENTER's temperature that a fit asks for.

    Parameters
    ----------
    interference : float
        One value, center diameter less bore, both at 20 degC [m].
    clearance : float
        One value on diameter, wanted while fitting [m].
    bore : float
        One value, the free bore at 20 degC [m].
    expansion : float
        One value, of the tire [1/K].

    Returns
    -------
    float
        One value, a difference, zero when the parts go together as they are [K].

    Raises
    ------
    ValueError
        If the clearance is negative, the bore or the expansion not above zero, or anything not finite.

    Notes
    -----
    (interference + clearance) / (expansion bore). For parts of like expansion; the center's own growth away
    from 20 degC then multiplies the answer by less than 1.001. The rise is of the area mean, not of the
    tread.

    Examples
    --------
    >>> round(temperature_rise(0.0015, 0.0007, 1.4, 11.7e-6), 1)
    134.3

    References
    ----------
    Linear expansion; A. P. Boresi and R. J. Schmidt, Advanced Mechanics of Materials, example 11.3, works
    it with both figures radial.
    """
    wanted = finite("interference", interference) + not_negative("clearance", clearance)
    return max(0.0, wanted) / (positive("expansion", expansion) * positive("bore", bore))


def clearance_when_hot(interference: float, bore: float, expansion: float, rise: float) -> float:
    """The clearance on diameter when the tire's mean is so much above the center's temperature.

    Parameters
    ----------
    interference : float
        One value, center diameter less bore, both at 20 degC [m].
    bore : float
        One value, the free bore at 20 degC [m].
    expansion : float
        One value, of the tire [1/K].
    rise : float
        One value, the tire's mean above the center, a difference [K].

    Returns
    -------
    float
        One value; negative while the parts do not yet go together [m].

    Raises
    ------
    ValueError
        If the bore or the expansion is not above zero, or anything not finite.

    Notes
    -----
    expansion bore rise - interference.

    Examples
    --------
    >>> round(clearance_when_hot(0.0015, 1.4, 11.7e-6, 150.0) * 1000, 3)
    0.957

    References
    ----------
    Linear expansion, derived here: the inverse of `temperature_rise`.
    """
    growth = diameter_growth(bore, expansion, rise)
    return growth - finite("interference", interference)


def grip_temperature(
    interference: float,
    bore: float,
    tire_expansion: float,
    center_temperature: float,
    center_expansion: float | None = None,
) -> float:
    """The tire's mean temperature at which its bore equals the center's outside diameter.

    Parameters
    ----------
    interference : float
        One value, center diameter less bore, both at 20 degC [m].
    bore : float
        One value, the free bore at 20 degC [m].
    tire_expansion : float
        One value [1/K].
    center_temperature : float
        One value [K].
    center_expansion : float, optional
        One value; the tire's when not given [1/K].

    Returns
    -------
    float
        One value; below it a tire that cools has gripped [K].

    Raises
    ------
    ValueError
        If the bore or an expansion is not above zero, the center is not above absolute zero, or anything
        not finite.

    Notes
    -----
    The root of bore [1 + a_t (T - T0)] = (bore + interference) [1 + a_c (T_c - T0)], T0 = 293.15 K. It is the
    center's temperature when fitting that counts, not the shop's.

    Examples
    --------
    >>> round(grip_temperature(0.0015, 1.4, 11.7e-6, 293.15) - 273.15, 1)
    111.6

    References
    ----------
    Derived here from linear expansion of both parts.
    """
    tire = positive("tire_expansion", tire_expansion)
    center = tire if center_expansion is None else positive("center_expansion", center_expansion)
    warmth = above_absolute_zero("center_temperature", center_temperature) - REFERENCE_TEMPERATURE
    free_bore = positive("bore", bore)
    ratio = (free_bore + finite("interference", interference)) / free_bore * (1.0 + center * warmth)
    return REFERENCE_TEMPERATURE + (ratio - 1.0) / tire


def diameter_growth(diameter: float, expansion: float, rise: float) -> float:
    """The growth of a diameter with a rise of the mean temperature.

    Parameters
    ----------
    diameter : float
        One value, before the rise [m].
    expansion : float
        One value [1/K].
    rise : float
        One value, a difference [K].

    Returns
    -------
    float
        One value on diameter, negative when it cools [m].

    Raises
    ------
    ValueError
        If the diameter or the expansion is not above zero, or anything not finite.

    Notes
    -----
    expansion diameter rise.

    Examples
    --------
    >>> round(diameter_growth(1.4, 11.7e-6, 150.0) * 1000, 3)
    2.457

    References
    ----------
    Linear expansion; R. K. Bansal, Strength of Materials, problem 1.28.
    """
    length = positive("diameter", diameter)
    return positive("expansion", expansion) * length * finite("rise", rise)


def circumference_growth(diameter: float, expansion: float, rise: float) -> float:
    """The growth of a CIRCUMFERENCE with a rise of the mean temperature.

    Parameters
    ----------
    diameter : float
        One value, before the rise [m].
    expansion : float
        One value [1/K].
    rise : float
        One value, a difference [K].

    Returns
    -------
    float
        One value along the circumference, pi times the growth on diameter [m].

    Raises
    ------
    ValueError
        If the diameter or the expansion is not above zero, or anything not finite.

    Notes
    -----
    "It grows a quarter inch" is said of the circumference.

    Examples
    --------
    >>> round(circumference_growth(1.4, 11.7e-6, 150.0) * 1000, 2)
    7.72

    References
    ----------
    Derived here: pi times `diameter_growth`.
    """
    return math.pi * diameter_growth(diameter, expansion, rise)


def area_mean_temperature(radii: Sequence[float], temperatures: Sequence[float]) -> float:
    """The mean of a ring's temperature over its area, which is what its bore follows.

    Parameters
    ----------
    radii : sequence of float
        One for each temperature, rising, from the bore to the tread [m].
    temperatures : sequence of float
        One for each radius, straight between [K].

    Returns
    -------
    float
        One value [K].

    Raises
    ------
    ValueError
        If there are fewer than two, their numbers differ, the radii do not rise or are negative, or a
        temperature is impossible.

    Notes
    -----
    2 / (c^2 - b^2) times the integral of T r dr, exact for a profile of straight pieces. It lies above the
    plain mean when the tread is the hotter side.

    Examples
    --------
    >>> round(area_mean_temperature([0.70, 0.80], [400.0, 500.0]), 3)
    451.111

    References
    ----------
    S. P. Timoshenko and J. N. Goodier, Theory of Elasticity, thermal stress in a disk (from memory).
    """
    same_length("radii", radii, "temperatures", temperatures)
    places = finite_values("radii", radii, 2)
    not_negative("radii[0]", places[0])
    heats = [above_absolute_zero(f"temperatures[{i}]", value) for i, value in enumerate(temperatures)]
    total = 0.0
    for i in range(len(places) - 1):
        inner, outer = smaller(f"radii[{i}]", places[i], f"radii[{i + 1}]", places[i + 1]), places[i + 1]
        weighted = heats[i] * (2.0 * inner + outer) + heats[i + 1] * (inner + 2.0 * outer)
        total += (outer - inner) * weighted / 6.0
    return 2.0 * total / (places[-1] ** 2 - places[0] ** 2)


def bore_growth(
    radii: Sequence[float],
    temperatures: Sequence[float],
    expansion: float,
    reference_temperature: float = REFERENCE_TEMPERATURE,
) -> float:
    """The growth of a free ring's bore, on diameter, under a radial temperature profile.

    Parameters
    ----------
    radii : sequence of float
        One for each temperature, rising, from the bore to the tread [m].
    temperatures : sequence of float
        One for each radius, straight between [K].
    expansion : float
        One value [1/K].
    reference_temperature : float, optional
        One value, at which the bore has its stated size [K].

    Returns
    -------
    float
        One value on diameter [m].

    Raises
    ------
    ValueError
        If a temperature, a radius or the expansion is impossible.

    Notes
    -----
    expansion x bore x (area mean - reference). Plane stress; the profile the same all round.

    Examples
    --------
    >>> round(bore_growth([0.70, 0.80], [393.15, 493.15], 11.7e-6) * 1000, 3)
    2.475

    References
    ----------
    Derived here: u(r) of a free ring is expansion/r times [(1+nu) F(r) + ((1-nu) r^2 + (1+nu) b^2) F(c) /
    (c^2 - b^2)], F the integral of (T - T0) r dr from the bore; at r = b only 2 b F(c)/(c^2 - b^2) is left.
    """
    mean = area_mean_temperature(radii, temperatures)
    cold = above_absolute_zero("reference_temperature", reference_temperature)
    return diameter_growth(2.0 * positive("radii[0]", radii[0]), expansion, mean - cold)


def tread_above_mean(flux: float, thickness: float, conductivity: float) -> float:
    """How much hotter than the mean the tread is while heat goes in at a steady rate.

    Parameters
    ----------
    flux : float
        One value, into the tread [W/m2].
    thickness : float
        One value, of the tire, radial [m].
    conductivity : float
        One value [W/(m K)].

    Returns
    -------
    float
        One value, a difference [K].

    Raises
    ------
    ValueError
        If the thickness or the conductivity is not above zero, or the flux not finite.

    Notes
    -----
    flux thickness / (3 conductivity), after the first thickness^2 / diffusivity / 2 or so. A crayon on the
    tread overstates the mean by this much.

    Examples
    --------
    >>> round(tread_above_mean(20e3, 0.0889, 45.0), 2)
    13.17

    References
    ----------
    H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids, slab with constant flux at one face, late
    times (from memory; derived again in the tests).
    """
    drop = finite("flux", flux) * positive("thickness", thickness) / positive("conductivity", conductivity)
    return drop / 3.0


def bore_below_mean(flux: float, thickness: float, conductivity: float) -> float:
    """How much colder than the mean the bore is while heat goes in at the tread at a steady rate.

    Parameters
    ----------
    flux : float
        One value, into the tread [W/m2].
    thickness : float
        One value, of the tire, radial [m].
    conductivity : float
        One value [W/(m K)].

    Returns
    -------
    float
        One value, a difference, positive when the bore is the colder [K].

    Raises
    ------
    ValueError
        If the thickness or the conductivity is not above zero, or the flux not finite.

    Notes
    -----
    flux thickness / (6 conductivity): half of what the tread is above.

    Examples
    --------
    >>> round(bore_below_mean(20e3, 0.0889, 45.0), 2)
    6.59

    References
    ----------
    As `tread_above_mean`.
    """
    return tread_above_mean(flux, thickness, conductivity) / 2.0


def soak_time(thickness: float, diffusivity: float, remaining: float = 0.05) -> float:
    """How long a tire has to stand, heat off, until its thickness is even.

    Parameters
    ----------
    thickness : float
        One value, radial [m].
    diffusivity : float
        One value, conductivity / (density specific heat) [m2/s].
    remaining : float, optional
        One value, the share of the difference from face to face that may be left [1].

    Returns
    -------
    float
        One value [s].

    Raises
    ------
    ValueError
        If the thickness or the diffusivity is not above zero, or the share not between 0 and 1.

    Notes
    -----
    thickness^2 ln(1/remaining) / (pi^2 diffusivity): the slowest wave in a slab with no loss. It evens the
    thickness only; it does nothing for a tire that was heated unevenly ROUND.

    Examples
    --------
    >>> round(soak_time(0.0889, 12.0e-6))
    200

    References
    ----------
    Derived here: cos(pi x / t) exp(-pi^2 a time / t^2) solves the slab with both faces insulated.
    """
    share = between("remaining", remaining, 0.0, 1.0)
    waves = math.log(1.0 / positive("remaining", share))
    return positive("thickness", thickness) ** 2 * waves / (math.pi**2 * positive("diffusivity", diffusivity))


def heating_energy(mass: float, specific_heat: float, rise: float) -> float:
    """The heat that a mass holds for a rise of its mean temperature.

    Parameters
    ----------
    mass : float
        One value [kg].
    specific_heat : float
        One value [J/(kg K)].
    rise : float
        One value, a difference [K].

    Returns
    -------
    float
        One value, losses not counted [J].

    Raises
    ------
    ValueError
        If the mass or the specific heat is not above zero, or the rise not finite.

    Notes
    -----
    mass specific_heat rise.

    Examples
    --------
    >>> round(heating_energy(464.0, 480.0, 150.0) / 1e6, 1)
    33.4

    References
    ----------
    OpenStax, College Physics, section 14.2.
    """
    capacity = positive("mass", mass) * positive("specific_heat", specific_heat)
    return capacity * finite("rise", rise)


def heating_time(
    power: float, mass: float, specific_heat: float, rise: float, loss: float = 0.0
) -> float | None:
    """How long a steady power takes to raise a mass, with losses that grow with the rise.

    Parameters
    ----------
    power : float
        One value, the heat that goes in [W].
    mass : float
        One value [kg].
    specific_heat : float
        One value [J/(kg K)].
    rise : float
        One value, above the surroundings, from which it starts [K].
    loss : float, optional
        One value, surface coefficient times area [W/K].

    Returns
    -------
    float or None
        One value [s]; None when the losses eat the power before the rise is reached.

    Raises
    ------
    ValueError
        If the power, the mass or the specific heat is not above zero, or the rise or the loss is negative.

    Notes
    -----
    -(m c / loss) ln(1 - loss rise / power), and m c rise / power when nothing is lost. Good while the mass
    is nearly at one temperature: surface coefficient x thickness / conductivity below about 0.1.

    Examples
    --------
    >>> round(heating_time(20e3, 464.0, 480.0, 150.0, 30.0) / 60)
    32
    >>> heating_time(4e3, 464.0, 480.0, 150.0, 30.0) is None
    True

    References
    ----------
    F. P. Incropera and others, Fundamentals of Heat and Mass Transfer, section 5.3, with a source (from
    memory; derived again in the tests).
    """
    held = heating_energy(mass, specific_heat, not_negative("rise", rise))
    capacity = mass * specific_heat
    given, lost = positive("power", power), not_negative("loss", loss)
    if lost * rise >= given:
        return None
    if lost == 0.0:
        return held / given
    return -capacity / lost * math.log1p(-lost * rise / given)


def cooling_time(
    mass: float, specific_heat: float, loss: float, start: float, end: float, surroundings: float
) -> float | None:
    """How long a hot mass takes to fall from one temperature to another: the time there is to fit it.

    Parameters
    ----------
    mass : float
        One value [kg].
    specific_heat : float
        One value [J/(kg K)].
    loss : float
        One value, surface coefficient times area [W/K].
    start, end, surroundings : float
        One value each; for a fitting, `end` is the grip temperature [K].

    Returns
    -------
    float or None
        One value, zero when it starts at the end or below [s]; None when the surroundings are no colder than
        the end.

    Raises
    ------
    ValueError
        If the mass, the specific heat or the loss is not above zero, or a temperature is impossible.

    Notes
    -----
    (m c / loss) ln[(start - surroundings) / (end - surroundings)]. Once it touches the center it cools much
    faster: the answer is for the tire in air.

    Examples
    --------
    >>> round(cooling_time(464.0, 480.0, 30.0, 450.0, 385.0, 293.15) / 60)
    66

    References
    ----------
    J. P. Holman, Heat Transfer, example 4.1.
    """
    capacity = positive("mass", mass) * positive("specific_heat", specific_heat)
    air = above_absolute_zero("surroundings", surroundings)
    hot, cool = above_absolute_zero("start", start), above_absolute_zero("end", end)
    conductance = positive("loss", loss)
    if hot <= cool:
        return 0.0
    if cool <= air:
        return None
    return capacity / conductance * math.log((hot - air) / (cool - air))


def crayon_interval(
    melted: Sequence[float], not_melted: Sequence[float]
) -> tuple[float | None, float | None]:
    """What crayons prove: a temperature from one rating to below another.

    Parameters
    ----------
    melted : sequence of float
        The ratings of those that melted, in any order, perhaps none [K].
    not_melted : sequence of float
        The ratings of those that did not, in any order, perhaps none [K].

    Returns
    -------
    tuple of (float or None, float or None)
        The temperature is at least the first and below the second [K]; None where that side is open.

    Raises
    ------
    ValueError
        If a rating is impossible, or one melted that is rated at or above one that did not.

    Notes
    -----
    Of the place that was touched. A crayon is evidence of an interval and never of one figure.

    Examples
    --------
    >>> crayon_interval([366.5, 338.7], [449.8])
    (366.5, 449.8)
    >>> crayon_interval([], [449.8])
    (None, 449.8)

    References
    ----------
    Common practice, no source.
    """
    low = max((above_absolute_zero("melted", rating) for rating in melted), default=None)
    high = min((above_absolute_zero("not_melted", rating) for rating in not_melted), default=None)
    if low is not None and high is not None and low >= high:
        raise ValueError(f"melted holds {low} K, but a crayon in not_melted is rated no higher, {high} K.")
    return low, high


def unevenness(temperatures: Sequence[float]) -> float:
    """How far the hottest place round a tire is above the coldest.

    Parameters
    ----------
    temperatures : sequence of float
        One for each place, all read at one time, two or more [K].

    Returns
    -------
    float
        One value, a difference [K].

    Raises
    ------
    ValueError
        If there are fewer than two, or one is impossible.

    Notes
    -----
    A soak does not take it away: round the tire the way is long. It leaves the bore out of round.

    Examples
    --------
    >>> round(unevenness([440.0, 447.0, 433.0, 441.0]), 1)
    14.0

    References
    ----------
    Common practice, no source.
    """
    heats = finite_values("temperatures", temperatures, 2)
    for place, heat in enumerate(heats):
        above_absolute_zero(f"temperatures[{place}]", heat)
    return max(heats) - min(heats)


def axial_shortening(width: float, expansion: float, drop: float) -> float:
    """How much a tire's width shrinks by cooling after it has gripped: the pull off its register.

    Parameters
    ----------
    width : float
        One value, along the axle [m].
    expansion : float
        One value [1/K].
    drop : float
        One value, grip temperature less the cold one, a difference [K].

    Returns
    -------
    float
        One value, the thermal part only [m].

    Raises
    ------
    ValueError
        If the width or the expansion is not above zero, or the drop is negative.

    Notes
    -----
    width expansion drop. The grip itself adds the Poisson part (see `shrink_fit`). If the tire holds at its
    outer edge, all of it opens a gap at the register; clamp, and feel with gauges when it is cold.

    Examples
    --------
    >>> round(axial_shortening(0.14, 11.7e-6, 91.6) * 1000, 2)
    0.15

    References
    ----------
    Derived here: linear expansion along the axle.
    """
    return diameter_growth(positive("width", width), expansion, not_negative("drop", drop))
