"""Stress in a tire and in its center, and what the tread grows by.

Nomenclature: b seat radius, c tread radius, a inside radius of the rim, p contact pressure. Plane stress,
elastic; tension is positive. `share` is seat width / tire width (`shrink_fit.seat_share`): where the seat
is narrower than the tire, the hoop stress comes from the mean pressure p * share.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from axlebook.engineering._given import (
    between,
    finite,
    not_negative,
    poisson_ratio,
    positive,
    smaller,
    width_share,
)


class RingStress(NamedTuple):
    """Stress at one radius of a ring [Pa], tension positive."""

    radial: float
    hoop: float


def _squares(
    inside_name: str, inside: float, outside_name: str, outside: float
) -> tuple[float, float, float]:
    """The squares of two radii and their difference, which a factor apiece keeps above zero."""
    smaller(inside_name, positive(inside_name, inside), outside_name, outside)
    return inside**2, outside**2, (outside - inside) * (outside + inside)


def ring_stress(
    radius: float,
    inside_radius: float,
    outside_radius: float,
    inside_pressure: float = 0.0,
    outside_pressure: float = 0.0,
) -> RingStress:
    """Stress at any radius of a ring under pressure inside and outside.

    Parameters
    ----------
    radius : float
        Where, from the inside to the outside radius [m].
    inside_radius, outside_radius : float
        Radii of the ring [m].
    inside_pressure, outside_pressure : float
        Pressures on it, none by default [Pa].

    Returns
    -------
    RingStress
        Radial and hoop stress [Pa].

    Raises
    ------
    ValueError
        If the radii are out of order or a pressure is negative.

    Examples
    --------
    >>> stress = ring_stress(0.010, 0.010, 0.050, inside_pressure=300e6)
    >>> round(stress.hoop / 1e6, 6), round(stress.radial / 1e6, 6)
    (325.0, -300.0)

    References
    ----------
    Boresi & Schmidt, Advanced Mechanics of Materials, ch. 11 (Lame).
    """
    inner, outer, wall = _squares("inside_radius", inside_radius, "outside_radius", outside_radius)
    between("radius", radius, inside_radius, outside_radius)
    p_in = not_negative("inside_pressure", inside_pressure)
    p_out = not_negative("outside_pressure", outside_pressure)
    even = (p_in * inner - p_out * outer) / wall
    uneven = (p_in - p_out) * inner * outer / wall / radius**2
    return RingStress(radial=even - uneven, hoop=even + uneven)


def tire_bore_hoop(pressure: float, seat_radius: float, tread_radius: float, share: float = 1.0) -> float:
    """Hoop stress at the bore of a shrunk tire, where it is greatest.

    Parameters
    ----------
    pressure : float
        Contact pressure on the seat [Pa].
    seat_radius, tread_radius : float
        Radii of bore and tread [m].
    share : float
        Seat width / tire width [1].

    Returns
    -------
    float
        Tension, positive [Pa].

    Raises
    ------
    ValueError
        If the pressure is negative or the radii are out of order.

    Notes
    -----
    Rises slightly as the tire wears thin, while pressure and slip torque fall.

    Examples
    --------
    >>> round(tire_bore_hoop(189e6, 0.025, 0.050) / 1e6, 6)
    315.0

    References
    ----------
    Boresi & Schmidt, Advanced Mechanics of Materials, ch. 11.
    """
    mean_pressure = not_negative("pressure", pressure) * width_share(share)
    return ring_stress(seat_radius, seat_radius, tread_radius, inside_pressure=mean_pressure).hoop


def tire_tread_hoop(pressure: float, seat_radius: float, tread_radius: float, share: float = 1.0) -> float:
    """Hoop stress at the tread of a shrunk tire, where it is least.

    Parameters
    ----------
    pressure : float
        Contact pressure on the seat [Pa].
    seat_radius, tread_radius : float
        Radii of bore and tread [m].
    share : float
        Seat width / tire width [1].

    Returns
    -------
    float
        Tension, positive [Pa].

    Raises
    ------
    ValueError
        If the pressure is negative or the radii are out of order.

    Examples
    --------
    >>> round(tire_tread_hoop(189e6, 0.025, 0.050) / 1e6, 6)
    126.0

    References
    ----------
    Boresi & Schmidt, Advanced Mechanics of Materials, ch. 11: 2 p b2 / (c2 - b2).
    """
    mean_pressure = not_negative("pressure", pressure) * width_share(share)
    return ring_stress(tread_radius, seat_radius, tread_radius, inside_pressure=mean_pressure).hoop


def center_seat_stress(pressure: float, seat_radius: float, rim_inside_radius: float | None) -> RingStress:
    """Stress in the center at its seat.

    Parameters
    ----------
    pressure : float
        Contact pressure [Pa].
    seat_radius : float
        Radius of the seat [m].
    rim_inside_radius : float or None
        Inside radius of a free rim; None for a solid disc [m].

    Returns
    -------
    RingStress
        Both negative: squeezed [Pa].

    Raises
    ------
    ValueError
        If the pressure is negative or the radii are out of order.

    Notes
    -----
    A free rim is the upper bound for a spoked center. Local bending between the spokes is left out.

    Examples
    --------
    >>> round(center_seat_stress(189e6, 0.025, 0.010).hoop / 1e6, 6)
    -261.0
    >>> center_seat_stress(20e6, 0.7112, None).hoop
    -20000000.0

    References
    ----------
    Boresi & Schmidt, Advanced Mechanics of Materials, ch. 11.
    """
    load = not_negative("pressure", pressure)
    if rim_inside_radius is None:
        positive("seat_radius", seat_radius)
        return RingStress(radial=-load, hoop=-load)
    return ring_stress(seat_radius, rim_inside_radius, seat_radius, outside_pressure=load)


def rim_inside_hoop(pressure: float, seat_radius: float, rim_inside_radius: float) -> float:
    """Hoop stress on the inside of a free rim, where it is squeezed most.

    Parameters
    ----------
    pressure : float
        Contact pressure [Pa].
    seat_radius, rim_inside_radius : float
        Radii of the seat and of the inside of the rim [m].

    Returns
    -------
    float
        Negative: squeezed [Pa].

    Raises
    ------
    ValueError
        If the pressure is negative or the radii are out of order.

    Examples
    --------
    >>> round(rim_inside_hoop(189e6, 0.025, 0.010) / 1e6, 6)
    -450.0

    References
    ----------
    Boresi & Schmidt, Advanced Mechanics of Materials, ch. 11.
    """
    return ring_stress(
        rim_inside_radius, rim_inside_radius, seat_radius, outside_pressure=not_negative("pressure", pressure)
    ).hoop


def von_mises_stress(radial: float, hoop: float, axial: float = 0.0) -> float:
    """Equivalent stress of three principal stresses.

    Parameters
    ----------
    radial, hoop, axial : float
        Principal stresses, tension positive; axial is zero in plane stress [Pa].

    Returns
    -------
    float
        Equivalent stress, not negative [Pa].

    Raises
    ------
    ValueError
        If a stress is not finite.

    Notes
    -----
    At a shrunk bore the radial stress is minus the contact pressure.

    Examples
    --------
    >>> von_mises_stress(0.0, 300e6) / 1e6
    300.0

    References
    ----------
    Boresi & Schmidt, Advanced Mechanics of Materials, ch. 4 and Ex 11.5 (octahedral shear stress).
    """
    one, two, three = finite("radial", radial), finite("hoop", hoop), finite("axial", axial)
    return math.sqrt(((one - two) ** 2 + (two - three) ** 2 + (three - one) ** 2) / 2.0)


def tread_growth(
    pressure: float, seat_radius: float, tread_radius: float, modulus: float, share: float = 1.0
) -> float:
    """Growth of the tread on DIAMETER when the tire grips.

    Parameters
    ----------
    pressure : float
        Contact pressure on the seat [Pa].
    seat_radius, tread_radius : float
        Radii of bore and tread [m].
    modulus : float
        Young's modulus of the tire [Pa].
    share : float
        Seat width / tire width [1].

    Returns
    -------
    float
        Growth on diameter, tread taped cold before and after, not negative [m].

    Raises
    ------
    ValueError
        If the pressure is negative, the radii are out of order or the modulus is not above zero.

    Examples
    --------
    >>> inch = 0.0254
    >>> round(tread_growth(20e6, 28.0 * inch, 31.5 * inch, 205e9) / inch, 4)
    0.0463

    References
    ----------
    Derived here: at the free tread u = c hoop / E, and hoop = 2 p b2 / (c2 - b2); on diameter 2 u.
    """
    hoop = tire_tread_hoop(pressure, seat_radius, tread_radius, share)
    return 2.0 * tread_radius * hoop / positive("modulus", modulus)


def pressure_from_tread_growth(
    growth: float, seat_radius: float, tread_radius: float, modulus: float, share: float = 1.0
) -> float:
    """Contact pressure from the growth of the tread as measured.

    Parameters
    ----------
    growth : float
        Growth of the tread on DIAMETER, cold before to cold after [m].
    seat_radius, tread_radius : float
        Radii of bore and tread [m].
    modulus : float
        Young's modulus of the tire [Pa].
    share : float
        Seat width / tire width [1].

    Returns
    -------
    float
        Contact pressure on the seat; zero when the tread did not grow [Pa].

    Raises
    ------
    ValueError
        If the growth is not finite, the radii are out of order or the modulus is not above zero.

    Notes
    -----
    Needs nothing of the center: a check of the fit that a shop can make. A growth of zero or less gives zero;
    a tire stretched for good grows more than its pressure says, so this is then too high.

    Examples
    --------
    >>> inch = 0.0254
    >>> round(pressure_from_tread_growth(0.0463 * inch, 28.0 * inch, 31.5 * inch, 205e9) / 1e6, 1)
    20.0

    References
    ----------
    Derived here: `tread_growth` solved for p, p = g E (c2 - b2) / (4 b2 c).
    """
    inner, _, wall = _squares("seat_radius", seat_radius, "tread_radius", tread_radius)
    mean = finite("growth", growth) * positive("modulus", modulus) * wall / (4 * inner * tread_radius)
    return max(0.0, mean / width_share(share))


def pressure_for_bore_hoop(hoop: float, seat_radius: float, tread_radius: float, share: float = 1.0) -> float:
    """Contact pressure at which the bore's hoop stress reaches a limit.

    Parameters
    ----------
    hoop : float
        Hoop stress that may be reached [Pa].
    seat_radius, tread_radius : float
        Radii of bore and tread [m].
    share : float
        Seat width / tire width [1].

    Returns
    -------
    float
        Contact pressure on the seat [Pa].

    Raises
    ------
    ValueError
        If the stress is negative or the radii are out of order.

    Notes
    -----
    With `shrink_fit.required_interference` it is the interference that a stress limit allows.

    Examples
    --------
    >>> round(pressure_for_bore_hoop(315e6, 0.025, 0.050) / 1e6, 6)
    189.0

    References
    ----------
    `tire_bore_hoop` solved for p.
    """
    inner, outer, wall = _squares("seat_radius", seat_radius, "tread_radius", tread_radius)
    return not_negative("hoop", hoop) * wall / (outer + inner) / width_share(share)


def radial_growth(radius: float, stress: RingStress, modulus: float, poisson: float) -> float:
    """How far a ring moves outward at a radius under a stress.

    Parameters
    ----------
    radius : float
        Radius [m].
    stress : RingStress
        Stress there [Pa].
    modulus : float
        Young's modulus [Pa].
    poisson : float
        Poisson ratio [1].

    Returns
    -------
    float
        Radial move, outward positive [m].

    Raises
    ------
    ValueError
        If the radius or the modulus is not above zero.

    Examples
    --------
    >>> round(radial_growth(0.050, RingStress(0.0, 126e6), 200e9, 0.29) * 1e6, 6)
    31.5

    References
    ----------
    Hooke's law in plane stress: u = r (hoop - nu radial) / E.
    """
    strain = stress.hoop - poisson_ratio("poisson", poisson) * stress.radial
    return positive("radius", radius) * strain / positive("modulus", modulus)
