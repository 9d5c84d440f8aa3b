"""How the load on the journals opens or closes a pair of wheels.

Nomenclature: W load on both journals, m distance between the journals' middles, g distance between the two
tread lines, e = |g - m| / 2, d axle diameter, h length of the hub's seat, R tread radius, I = pi d4 / 64.

Between the journals and wheels the load bends the axle; each wheel leans with it. Journals inside the
wheels: the axle's middle goes down, the wheels lean in at the top and open at the rail. Outside journals:
the other way. Both figures are bounds: how much of the axle the hubs stiffen is not known.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from axlebook.engineering._given import finite, not_negative, positive, smaller


class LoadEffect(NamedTuple):
    """Change of the back to back at the rail under load [m], positive opens: least and most in size."""

    least: float
    most: float


def _section(axle_diameter: float) -> float:
    """Second moment of area of a round axle [m4]."""
    return math.pi * positive("axle_diameter", axle_diameter) ** 4 / 64.0


def inside_journal_opening(
    load: float,
    journal_spacing: float,
    tread_spacing: float,
    axle_diameter: float,
    modulus: float,
    tread_radius: float,
    hub_length: float,
) -> LoadEffect:
    """How much the load opens a pair whose journals are inside its wheels.

    Parameters
    ----------
    load : float
        On both journals together [N].
    journal_spacing, tread_spacing : float
        Between the journals' middles, and between the tread lines [m].
    axle_diameter : float
        Of the axle's body [m].
    modulus : float
        Young's modulus of the axle [Pa].
    tread_radius : float
        Radius of the tread [m].
    hub_length : float
        Length of the wheel seat in the hub, zero to count no stiffening [m].

    Returns
    -------
    LoadEffect
        Opening at the rail: with hubs that do not bend at all, and with hubs that stiffen nothing [m].

    Raises
    ------
    ValueError
        If a measure is not above zero, the load is negative, or the journals do not stand inside.

    Notes
    -----
    Vertical load alone, upright wheels; side load in a curve is another matter.

    Examples
    --------
    >>> inch, pound = 0.0254, 4.4482216
    >>> effect = inside_journal_opening(40000 * pound, 43 * inch, 59.5 * inch, 9 * inch, 207e9, 28 * inch,
    ...                                 7 * inch)
    >>> round(effect.least / inch, 3), round(effect.most / inch, 3)
    (0.024, 0.024)

    References
    ----------
    Derived here: the moment is W e / 2 between the journals and falls evenly to nothing at the wheel. Half of
    the axle turns the wheel by the area of M / (E I): (W e / 2)(m / 2 + e / 2) / (E I) at most; less the last
    h / 2, over which M is W x / 2, when the hub is rigid. Opening is 2 R times the turn.
    """
    smaller("journal_spacing", positive("journal_spacing", journal_spacing), "tread_spacing", tread_spacing)
    arm = (tread_spacing - journal_spacing) / 2.0
    half_load = not_negative("load", load) / 2.0
    stiffness = positive("modulus", modulus) * _section(axle_diameter)
    whole = half_load * arm * (journal_spacing + arm) / 2.0
    in_hub = min(not_negative("hub_length", hub_length) / 2.0, arm)
    lever = 2.0 * positive("tread_radius", tread_radius) / stiffness
    return LoadEffect(least=lever * (whole - half_load * in_hub**2 / 2.0), most=lever * whole)


def outside_journal_opening(
    load: float,
    journal_spacing: float,
    tread_spacing: float,
    axle_diameter: float,
    modulus: float,
    tread_radius: float,
    hub_length: float,
) -> LoadEffect:
    """How much the load opens a pair whose journals are outside its wheels: it closes it.

    Parameters
    ----------
    load : float
        On both journals together [N].
    journal_spacing, tread_spacing : float
        Between the journals' middles, and between the tread lines [m].
    axle_diameter : float
        Of the axle's body between the wheels [m].
    modulus : float
        Young's modulus of the axle [Pa].
    tread_radius : float
        Radius of the tread [m].
    hub_length : float
        Length of the wheel seat in the hub, zero to count no stiffening [m].

    Returns
    -------
    LoadEffect
        Negative: closes at the rail. With hubs that do not bend at all, and that stiffen nothing [m].

    Raises
    ------
    ValueError
        If a measure is not above zero, the load is negative, the journals do not stand outside, or the hubs
        leave nothing of the axle.

    Notes
    -----
    The axle is taken as even between the wheels; one that is thinner in the middle bends more.

    Examples
    --------
    >>> inch, pound = 0.0254, 4.4482216
    >>> effect = outside_journal_opening(30000 * pound, 77 * inch, 59.5 * inch, 6 * inch, 207e9, 16.5 * inch,
    ...                                  7 * inch)
    >>> round(effect.least / inch, 3), round(effect.most / inch, 3)
    (-0.06, -0.067)

    References
    ----------
    Derived here: between the wheels the moment is W e / 2 throughout, so half of the axle turns the wheel by
    (W e / 2)(g / 2) / (E I), or by (g - h) / 2 in place of g / 2 when the hubs are rigid.
    """
    smaller("tread_spacing", positive("tread_spacing", tread_spacing), "journal_spacing", journal_spacing)
    smaller("hub_length", not_negative("hub_length", hub_length), "tread_spacing", tread_spacing)
    moment = not_negative("load", load) / 2.0 * (journal_spacing - tread_spacing) / 2.0
    stiffness = positive("modulus", modulus) * _section(axle_diameter)
    closing = 2.0 * positive("tread_radius", tread_radius) * moment / stiffness
    return LoadEffect(
        least=-closing * (tread_spacing - hub_length) / 2.0, most=-closing * tread_spacing / 2.0
    )


def opening_at(opening_at_rail: float, angle_from_rail: float) -> float:
    """How much the load changes the back to back at another place on the rim.

    Parameters
    ----------
    opening_at_rail : float
        Change at the rail, straight below the axle [m].
    angle_from_rail : float
        Angle from straight below: 0 at the rail, pi/2 at axle height, pi on top [rad].

    Returns
    -------
    float
        Change there [m].

    Raises
    ------
    ValueError
        If a value is not finite.

    Notes
    -----
    At axle height, 3 and 9 o'clock, the bending drops out: a pair under the engine is read there, rolled
    half a turn and read again.

    Examples
    --------
    >>> opening_at(0.0008, math.pi)
    -0.0008

    References
    ----------
    Derived here: a wheel that leans about a level line through its middle moves in proportion to the height.
    """
    return finite("opening_at_rail", opening_at_rail) * math.cos(finite("angle_from_rail", angle_from_rail))
