"""What a shrunk tire holds, and what is left of its interference after its losses.

Nomenclature: b seat radius, w seat width, p contact pressure, mu friction.
"""

from __future__ import annotations

import math

from axlebook.engineering._given import finite, not_negative, positive

LOW_FRICTION, LIKELY_FRICTION, HIGH_FRICTION = 0.10, 0.15, 0.20
"""Friction of steel on steel in a shrink fit, low, likely and high [1]; from memory."""


def axial_hold(pressure: float, friction: float, seat_radius: float, seat_width: float) -> float:
    """Force along the axle that would start the tire sliding off its seat.

    Parameters
    ----------
    pressure : float
        Contact pressure [Pa].
    friction : float
        Friction between tire and center [1].
    seat_radius, seat_width : float
        Radius and width of the seat [m].

    Returns
    -------
    float
        Force [N].

    Raises
    ------
    ValueError
        If the pressure or the friction is negative, or a measure is not above zero.

    Notes
    -----
    Friction alone: lips, keys, screws and retaining rings are left out.

    Examples
    --------
    >>> round(axial_hold(58.3e6, 0.15, 0.050, 0.050) / 1e3, 1)
    137.4

    References
    ----------
    Derived here: mu p times the area of the seat, 2 pi b w.
    """
    load = not_negative("pressure", pressure) * not_negative("friction", friction)
    return load * 2.0 * math.pi * positive("seat_radius", seat_radius) * positive("seat_width", seat_width)


def slip_torque(pressure: float, friction: float, seat_radius: float, seat_width: float) -> float:
    """Torque that would start the tire turning on its center.

    Parameters
    ----------
    pressure : float
        Contact pressure [Pa].
    friction : float
        Friction between tire and center [1].
    seat_radius, seat_width : float
        Radius and width of the seat [m].

    Returns
    -------
    float
        Torque [N m].

    Raises
    ------
    ValueError
        If the pressure or the friction is negative, or a measure is not above zero.

    Notes
    -----
    Torque and force along the axle together: their squares add up, each as a share of its own hold.

    Examples
    --------
    >>> round(slip_torque(58.33e6, 0.15, 0.050, 0.050) / 1e3, 2)
    6.87

    References
    ----------
    Derived here: `axial_hold` times the seat radius.
    """
    return axial_hold(pressure, friction, seat_radius, seat_width) * seat_radius


def ridge_loss(center_roughness: float, bore_roughness: float, factor: float) -> float:
    """Interference on diameter lost when the tops of the turned ridges flatten.

    Parameters
    ----------
    center_roughness, bore_roughness : float
        Mean peak-to-valley heights Rz of the seat and of the bore [m].
    factor : float
        Share lost: as recorded by the shop, traditionally 0.8, in newer practice 0.4 [1].

    Returns
    -------
    float
        Loss on diameter [m].

    Raises
    ------
    ValueError
        If a height or the factor is negative.

    Examples
    --------
    >>> round(ridge_loss(25e-6, 16e-6, 0.8) * 1e6, 3)
    32.8

    References
    ----------
    DIN 7190 (0.8) and DIN 7190-1:2017 (0.4), from memory.
    """
    heights = not_negative("center_roughness", center_roughness) + not_negative(
        "bore_roughness", bore_roughness
    )
    return not_negative("factor", factor) * heights


def permanent_growth(bore_when_applied: float, bore_now: float) -> float:
    """How much a tire's free bore has grown for good.

    Parameters
    ----------
    bore_when_applied, bore_now : float
        Mean diameters of the free bore at 20 degC: before it went on, and off the center again [m].

    Returns
    -------
    float
        Growth on diameter; negative when the later reading is the smaller [m].

    Raises
    ------
    ValueError
        If a diameter is not above zero.

    Notes
    -----
    Only a tire off its center shows it: on the center the bore is the center's.

    Examples
    --------
    >>> round(permanent_growth(1.420876, 1.421130), 6)
    0.000254

    References
    ----------
    Definition. That rolling stretches tires, chiefly thin ones, was reported by a committee in the American
    Engineer and Railroad Journal, 1900s.
    """
    return positive("bore_now", bore_now) - positive("bore_when_applied", bore_when_applied)


def remaining_interference(interference: float, *losses: float) -> float:
    """What is left of an interference after its losses.

    Parameters
    ----------
    interference : float
        On diameter, both parts at 20 degC [m].
    *losses : float
        Each loss on diameter: ridges, rotation, permanent growth, uncertainty [m].

    Returns
    -------
    float
        On diameter; negative when the fit is gone [m].

    Raises
    ------
    ValueError
        If a value is not finite.

    Examples
    --------
    >>> round(remaining_interference(0.0015, 0.00003, 0.00004), 6)
    0.00143

    References
    ----------
    Definition.
    """
    given = (finite(f"losses[{place}]", loss) for place, loss in enumerate(losses))
    return finite("interference", interference) - sum(given)
