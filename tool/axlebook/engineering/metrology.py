"""Readings brought to 20 degC, tapes, mean diameters and taper.

Nomenclature: alpha coefficient of expansion, T absolute temperature [K], P length read on a tape, t its
thickness, D diameter. The reference temperature is 20 degC = 68 degF = 293.15 K (ISO 1). No temperature
has a default: one that was not written down is not 20 degC.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from axlebook.engineering._given import (
    above_absolute_zero,
    finite,
    finite_values,
    not_negative,
    positive,
    same_length,
)

REFERENCE_TEMPERATURE = 293.15
"""20 degC, ISO 1 [K]."""


def expansion_factor(temperature: float, expansion: float, name: str = "temperature") -> float:
    """How much longer a thing is at a temperature than at 20 degC.

    Parameters
    ----------
    temperature : float
        Its temperature [K].
    expansion : float
        Mean coefficient of expansion, zero for an instrument that reads true length [1/K].
    name : str
        What the temperature is called in an error.

    Returns
    -------
    float
        Length there / length at 20 degC [1].

    Raises
    ------
    ValueError
        If the temperature is not above absolute zero or the coefficient is negative.

    Examples
    --------
    >>> round(expansion_factor(303.15, 11.7e-6), 6)
    1.000117

    References
    ----------
    ISO 1; linear expansion, good to a part in a hundred of the correction from -20 to 60 degC.
    """
    rise = above_absolute_zero(name, temperature) - REFERENCE_TEMPERATURE
    return 1.0 + not_negative("expansion", expansion) * rise


def length_at_20(
    reading: float,
    *,
    part_temperature: float,
    part_expansion: float,
    instrument_temperature: float | None,
    instrument_expansion: float,
) -> float:
    """A part's length at 20 degC from a reading taken at other temperatures.

    Parameters
    ----------
    reading : float
        What the instrument showed, one value [m].
    part_temperature : float
        Temperature of the part [K].
    part_expansion : float
        Coefficient of expansion of the part [1/K].
    instrument_temperature : float or None
        Temperature of the instrument; None only when it reads true length [K].
    instrument_expansion : float
        Coefficient of expansion of the instrument; zero when it reads true length [1/K].

    Returns
    -------
    float
        Length at 20 degC [m].

    Raises
    ------
    ValueError
        If the reading or the part's coefficient is not above zero, a temperature is not above absolute zero,
        or an instrument that expands has no temperature.

    Notes
    -----
    A steel instrument at the part's own temperature nearly compensates itself; correcting the part alone
    would then spoil the reading.

    Examples
    --------
    A true length, and the same reading off a steel bar of the part's own temperature:

    >>> warm = dict(part_temperature=296.85, part_expansion=11.7e-6)
    >>> true = length_at_20(0.500035, instrument_temperature=None, instrument_expansion=0.0, **warm)
    >>> round(true, 6)
    0.500013
    >>> own = length_at_20(0.500035, instrument_temperature=296.85, instrument_expansion=11.7e-6, **warm)
    >>> round(own, 6)
    0.500035

    References
    ----------
    National Physical Laboratory, FAQ Length, How do I correct lengths to 20 degC; for two bodies derived
    here: the marks of the instrument stand (1 + alpha_i dT_i) further apart than they say.
    """
    part = expansion_factor(part_temperature, positive("part_expansion", part_expansion), "part_temperature")
    return positive("reading", reading) * _scale(instrument_temperature, instrument_expansion) / part


def _scale(temperature: float | None, expansion: float) -> float:
    """What an instrument's own expansion multiplies its reading by [1]."""
    if not_negative("instrument_expansion", expansion) == 0.0:
        return 1.0
    if temperature is None:
        raise ValueError("instrument_temperature must be given for an instrument that expands.")
    return expansion_factor(temperature, expansion, "instrument_temperature")


def length_at_temperature(length_at_20: float, temperature: float, expansion: float) -> float:
    """A part's length at a temperature from its length at 20 degC.

    Parameters
    ----------
    length_at_20 : float
        Length at 20 degC [m].
    temperature : float
        Temperature of the part [K].
    expansion : float
        Coefficient of expansion [1/K].

    Returns
    -------
    float
        Length there [m].

    Raises
    ------
    ValueError
        If the length is not above zero, the coefficient is negative or the temperature impossible.

    Examples
    --------
    >>> round(length_at_temperature(2.0, 293.15 + 70.0, 12e-6), 5)
    2.00168

    References
    ----------
    ISO 1; linear expansion.
    """
    return positive("length_at_20", length_at_20) * expansion_factor(temperature, expansion)


def missing_temperature_effect(length: float, expansion: float, temperature_range: float) -> float:
    """How far a length may be off when its temperature is only known to a range.

    Parameters
    ----------
    length : float
        Length or diameter [m].
    expansion : float
        Coefficient of expansion [1/K].
    temperature_range : float
        How far from 20 degC the part may have been, as a temperature DIFFERENCE [K].

    Returns
    -------
    float
        Plus or minus this much [m].

    Raises
    ------
    ValueError
        If the length is not above zero, or another value is negative.

    Examples
    --------
    >>> inch, degf = 0.0254, 5.0 / 9.0
    >>> round(missing_temperature_effect(56.0 * inch, 11.7e-6, 1.0 * degf) / inch, 5)
    0.00036

    References
    ----------
    Linear expansion.
    """
    move = not_negative("expansion", expansion) * not_negative("temperature_range", temperature_range)
    return positive("length", length) * move


def tape_stretch(
    length: float, tension: float, reference_tension: float, area: float, modulus: float
) -> float:
    """How much longer a tape is under a pull than under the pull it was made for.

    Parameters
    ----------
    length : float
        Length read, or diameter read on a pi tape [m].
    tension, reference_tension : float
        Pull applied, and pull at which the tape is true; zero is a slack tape [N].
    area : float
        Section of the tape [m2].
    modulus : float
        Young's modulus of the tape [Pa].

    Returns
    -------
    float
        What to add to the reading; negative when pulled too little [m].

    Raises
    ------
    ValueError
        If the length, area or modulus is not above zero, or a pull is negative.

    Examples
    --------
    >>> round(tape_stretch(30.0, 120.0, 0.0, 0.015 * 0.00075, 200e9), 6)
    0.0016

    References
    ----------
    Bhavikatti, Mechanics of Solids, Ex 8.2: L F / (A E); for a diameter derived here: D F / (A E), since D
    and the length round it stretch alike.
    """
    extra = not_negative("tension", tension) - not_negative("reference_tension", reference_tension)
    return positive("length", length) * extra / (positive("area", area) * positive("modulus", modulus))


def plain_tape_diameter(circumference: float, tape_thickness: float) -> float:
    """Outside diameter from a plain tape passed round it.

    Parameters
    ----------
    circumference : float
        Length read, stretch and temperature already seen to [m].
    tape_thickness : float
        Thickness of the tape [m].

    Returns
    -------
    float
        Mean diameter of the part [m].

    Raises
    ------
    ValueError
        If the length is not above zero, the thickness is negative, or nothing is left.

    Notes
    -----
    The tape's middle runs half its thickness outside the part all round. A pi tape has this allowed for in
    its marks: its reading is already the diameter.

    Examples
    --------
    >>> round(plain_tape_diameter(4.0708, 0.00025), 5)
    1.29553

    References
    ----------
    Derived here: P = pi (D + t).
    """
    diameter = positive("circumference", circumference) / math.pi
    return positive("the diameter left", diameter - not_negative("tape_thickness", tape_thickness))


def mean_diameter(diameters: Sequence[float]) -> float:
    """Mean of several diameters of one circle: what a fit goes by.

    Parameters
    ----------
    diameters : sequence of float
        Two or more, at equally spaced angles [m].

    Returns
    -------
    float
        Their mean [m].

    Raises
    ------
    ValueError
        If there are fewer than two, or one is not above zero.

    Notes
    -----
    The mean of the largest and the smallest is not it.

    Examples
    --------
    >>> mean_diameter([1.0, 1.0, 1.0, 1.004])
    1.001

    References
    ----------
    Derived here: the length round an oval is pi times its mean diameter, to second order.
    """
    given = [positive(f"diameters[{place}]", value) for place, value in enumerate(diameters)]
    return math.fsum(finite_values("diameters", given, 2)) / len(given)


def out_of_round(diameters: Sequence[float]) -> float:
    """Largest less smallest of several diameters of one circle.

    Parameters
    ----------
    diameters : sequence of float
        Two or more [m].

    Returns
    -------
    float
        Difference on DIAMETER, not negative [m].

    Raises
    ------
    ValueError
        If there are fewer than two, or one is not above zero.

    Notes
    -----
    Blind to odd lobes: a three-lobed bore shows one diameter everywhere. Radii from one axis show it, see
    `circle.roundness`.

    Examples
    --------
    >>> round(out_of_round([1.0000, 1.0002, 0.9999]), 6)
    0.0003

    References
    ----------
    Common practice, no source.
    """
    given = [positive(f"diameters[{place}]", value) for place, value in enumerate(diameters)]
    finite_values("diameters", given, 2)
    return max(given) - min(given)


def taper(positions: Sequence[float], diameters: Sequence[float]) -> float:
    """Change of diameter along the axle, by least squares.

    Parameters
    ----------
    positions : sequence of float
        Where each diameter was taken, from the face that the caller names; at least two different [m].
    diameters : sequence of float
        One diameter for each position [m].

    Returns
    -------
    float
        Diameter gained for each unit of length; positive grows away from that face [m/m].

    Raises
    ------
    ValueError
        If there are fewer than two, their numbers differ, or all positions are the same.

    Examples
    --------
    >>> round(taper([0.0, 0.05, 0.10], [1.4200, 1.4201, 1.4202]), 6)
    0.002

    References
    ----------
    Straight line by least squares.
    """
    places = finite_values("positions", positions, 2)
    given = finite_values("diameters", diameters, 2)
    same_length("positions", places, "diameters", given)
    middle, mean = math.fsum(places) / len(places), math.fsum(given) / len(given)
    spread = math.fsum((place - middle) ** 2 for place in places)
    if spread == 0.0:
        raise ValueError("positions must not all be the same.")
    return math.fsum((x - middle) * (d - mean) for x, d in zip(places, given, strict=True)) / spread


def taper_mismatch(seat_taper: float, bore_taper: float, seat_width: float) -> float:
    """How much the interference changes from one side of the seat to the other.

    Parameters
    ----------
    seat_taper, bore_taper : float
        Tapers of the two parts, both counted from the same face [m/m].
    seat_width : float
        Width of the seat [m].

    Returns
    -------
    float
        Interference on diameter gained across the seat, away from that face [m].

    Raises
    ------
    ValueError
        If a taper is not finite or the width is not above zero.

    Examples
    --------
    >>> round(taper_mismatch(0.001, 0.0005, 0.125) * 1e6, 3)
    62.5

    References
    ----------
    Derived here: the difference of the two straight lines.
    """
    difference = finite("seat_taper", seat_taper) - finite("bore_taper", bore_taper)
    return difference * positive("seat_width", seat_width)
