"""A tire shrunk on its center: interference, compliance, contact pressure and stress.

Nomenclature, as in the formulas: b seat radius, c tread radius, a inside radius of the rim, w width,
delta interference ON DIAMETER, p contact pressure, E modulus, nu Poisson ratio.

All of it is Lame's thick ring in plane stress: no pressure along the axle, no friction while shrinking,
elastic metal. A compliance is a radial displacement for each unit of contact pressure [m/Pa]; it turns a
ring, a disc or a spoked center into one number, so that they can be put together freely.
"""

from __future__ import annotations

from typing import NamedTuple

from axlebook.engineering._given import (
    finite,
    not_negative,
    poisson_ratio,
    positive,
    smaller,
    width_share,
)


class CenterCompliance(NamedTuple):
    """A center's compliance with its bounds [m/Pa].

    Parameters
    ----------
    low : float
        Of a solid disc: the stiffest the center can be.
    likely : float or None
        Of the spokes as modelled; None when their geometry is not known.
    high : float
        Of the rim alone as a free ring: the softest the center can be.
    """

    low: float
    likely: float | None
    high: float


class PressureBounds(NamedTuple):
    """A contact pressure with its bounds [Pa].

    Parameters
    ----------
    low : float
        With the rim alone.
    likely : float or None
        With the spokes as modelled; None when their geometry is not known.
    high : float
        With a solid disc.
    """

    low: float
    likely: float | None
    high: float


def interference(center_diameter: float, bore_diameter: float, shim_thickness: float = 0.0) -> float:
    """Interference on diameter, both parts at 20 degC.

    Parameters
    ----------
    center_diameter, bore_diameter : float
        Mean diameters at 20 degC, one value each [m].
    shim_thickness : float
        Thickness of a shim that runs full round, none by default [m].

    Returns
    -------
    float
        Positive grips, negative is clearance [m].

    Raises
    ------
    ValueError
        If a diameter is not above zero or the shim is negative.

    Notes
    -----
    A shim that does not run full round gives no interference of its own: leave it out. A mounted tire's
    bore is the center's, not its free bore, so this needs the bore as measured off the center.

    Examples
    --------
    >>> round(interference(1.4224, 1.4224 - 0.001524), 6)
    0.001524

    References
    ----------
    Definition (diametral, as the trade measures it).
    """
    outside = positive("center_diameter", center_diameter)
    bore = positive("bore_diameter", bore_diameter)
    return outside + 2.0 * not_negative("shim_thickness", shim_thickness) - bore


def mounted_tread_diameter(
    center_diameter: float, tire_thickness: float, shim_thickness: float = 0.0
) -> float:
    """Tread diameter of a mounted tire from its thickness.

    Parameters
    ----------
    center_diameter : float
        Outside diameter of the center [m].
    tire_thickness : float
        Thickness at the tread line [m].
    shim_thickness : float
        Thickness of a shim, none by default [m].

    Returns
    -------
    float
        Tread diameter [m].

    Raises
    ------
    ValueError
        If a diameter or the thickness is not above zero, or the shim is negative.

    Notes
    -----
    The squeeze of the center under the fit (a few hundredths of a millimetre) is left out.

    Examples
    --------
    >>> round(mounted_tread_diameter(1.1176, 0.0889), 4)
    1.2954

    References
    ----------
    Definition.
    """
    outside = positive("center_diameter", center_diameter)
    shim = not_negative("shim_thickness", shim_thickness)
    return outside + 2.0 * shim + 2.0 * positive("tire_thickness", tire_thickness)


def seat_share(seat_width: float, tire_width: float) -> float:
    """Share of the tire's width that the seat presses on.

    Parameters
    ----------
    seat_width, tire_width : float
        Widths along the axle [m].

    Returns
    -------
    float
        Seat width / tire width, at most 1 [1].

    Raises
    ------
    ValueError
        If a width is not above zero.

    Notes
    -----
    Multiplies the tire's compliance and its hoop stress: the pressure on the seat is spread over the whole
    tire. A mean over the width: a plane-stress ring does not see the tire cone a little over its lip.

    Examples
    --------
    >>> round(seat_share(0.126, 0.140), 3)
    0.9

    References
    ----------
    Derived here: equilibrium of the ring, p w_seat = p_mean w_tire.
    """
    return min(1.0, positive("seat_width", seat_width) / positive("tire_width", tire_width))


def tire_compliance(
    seat_radius: float, tread_radius: float, modulus: float, poisson: float, share: float = 1.0
) -> float:
    """Radial growth of a tire's bore for each unit of contact pressure.

    Parameters
    ----------
    seat_radius, tread_radius : float
        Radii of bore and tread [m].
    modulus : float
        Young's modulus [Pa].
    poisson : float
        Poisson ratio [1].
    share : float
        Seat width / tire width, see `seat_share` [1].

    Returns
    -------
    float
        Compliance, positive [m/Pa].

    Raises
    ------
    ValueError
        If the bore is not below the tread, or the modulus or the share is out of range.

    Notes
    -----
    Radial, not diametral: the interference on diameter is twice the sum of the radial moves.

    Examples
    --------
    >>> round(tire_compliance(0.025, 0.050, 200e9, 0.29) * 1e12, 4)
    0.2446

    References
    ----------
    Boresi & Schmidt, Advanced Mechanics of Materials, ch. 11 (Lame, plane stress).
    """
    inside = positive("seat_radius", seat_radius)
    smaller("seat_radius", inside, "tread_radius", tread_radius)
    wall = (tread_radius - inside) * (tread_radius + inside)
    stretch = (tread_radius**2 + inside**2) / wall + poisson_ratio("poisson", poisson)
    return width_share(share) * inside / positive("modulus", modulus) * stretch


def ring_center_compliance(
    seat_radius: float, rim_inside_radius: float, modulus: float, poisson: float
) -> float:
    """Radial squeeze of a free rim for each unit of contact pressure.

    Parameters
    ----------
    seat_radius, rim_inside_radius : float
        Radii of the seat and of the inside of the rim [m].
    modulus : float
        Young's modulus [Pa].
    poisson : float
        Poisson ratio [1].

    Returns
    -------
    float
        Compliance, positive [m/Pa].

    Raises
    ------
    ValueError
        If the inside of the rim is not below the seat, or the modulus is not above zero.

    Notes
    -----
    The softest a center can be: its spokes carry nothing.

    Examples
    --------
    >>> round(ring_center_compliance(0.025, 0.010, 200e9, 0.29) * 1e12, 4)
    0.1364

    References
    ----------
    Boresi & Schmidt, Advanced Mechanics of Materials, ch. 11 (Lame, plane stress).
    """
    inside = positive("rim_inside_radius", rim_inside_radius)
    smaller("rim_inside_radius", inside, "seat_radius", seat_radius)
    wall = (seat_radius - inside) * (seat_radius + inside)
    squeeze = (seat_radius**2 + inside**2) / wall - poisson_ratio("poisson", poisson)
    return seat_radius / positive("modulus", modulus) * squeeze


def solid_center_compliance(seat_radius: float, modulus: float, poisson: float) -> float:
    """Radial squeeze of a solid disc for each unit of contact pressure.

    Parameters
    ----------
    seat_radius : float
        Radius of the seat [m].
    modulus : float
        Young's modulus [Pa].
    poisson : float
        Poisson ratio [1].

    Returns
    -------
    float
        Compliance, positive [m/Pa].

    Raises
    ------
    ValueError
        If the radius or the modulus is not above zero.

    Notes
    -----
    The stiffest a center can be. Never the answer for a spoked center by itself: give both bounds.

    Examples
    --------
    >>> round(solid_center_compliance(0.7112, 205e9, 0.29) * 1e12, 4)
    2.4632

    References
    ----------
    Boresi & Schmidt, Advanced Mechanics of Materials, ch. 11: the ring with no hole, by its limit.
    """
    seat = positive("seat_radius", seat_radius)
    return seat / positive("modulus", modulus) * (1.0 - poisson_ratio("poisson", poisson))


def center_bounds(
    seat_radius: float, rim_inside_radius: float, modulus: float, poisson: float
) -> CenterCompliance:
    """Bounds on the compliance of a center whose spokes are not known.

    Parameters
    ----------
    seat_radius, rim_inside_radius : float
        Radii of the seat and of the inside of the rim [m].
    modulus : float
        Young's modulus [Pa].
    poisson : float
        Poisson ratio [1].

    Returns
    -------
    CenterCompliance
        Solid disc and free rim; no likely value [m/Pa].

    Raises
    ------
    ValueError
        As for the two compliances.

    Examples
    --------
    >>> bounds = center_bounds(0.7112, 0.62, 205e9, 0.29)
    >>> bounds.low < bounds.high, bounds.likely
    (True, None)

    References
    ----------
    Derived here: spokes can only add stiffness to the rim, and metal taken out of a disc only takes it away.
    """
    return CenterCompliance(
        low=solid_center_compliance(seat_radius, modulus, poisson),
        likely=None,
        high=ring_center_compliance(seat_radius, rim_inside_radius, modulus, poisson),
    )


def contact_pressure(interference: float, tire_compliance: float, center_compliance: float) -> float:
    """Pressure between tire and center.

    Parameters
    ----------
    interference : float
        On DIAMETER, what is left of it after its losses; negative is clearance [m].
    tire_compliance, center_compliance : float
        Radial compliances [m/Pa].

    Returns
    -------
    float
        Contact pressure, zero when nothing is left of the interference [Pa].

    Raises
    ------
    ValueError
        If the interference is not finite or a compliance is not above zero.

    Notes
    -----
    Elastic. Never negative: a loose tire does not pull.

    Examples
    --------
    >>> contact_pressure(2.0e-4, 0.4e-12, 0.1e-12) / 1e6
    200.0
    >>> contact_pressure(-1.0e-4, 0.4e-12, 0.1e-12)
    0.0

    References
    ----------
    Boresi & Schmidt, Advanced Mechanics of Materials, ch. 11: the two radial moves add up to delta / 2.
    """
    total = positive("tire_compliance", tire_compliance) + positive("center_compliance", center_compliance)
    return max(0.0, finite("interference", interference) / 2.0 / total)


def contact_pressure_bounds(
    interference: float, tire_compliance: float, center: CenterCompliance
) -> PressureBounds:
    """Pressure between a tire and a center whose compliance has bounds.

    Parameters
    ----------
    interference : float
        On diameter [m].
    tire_compliance : float
        Radial compliance of the tire [m/Pa].
    center : CenterCompliance
        Of the center [m/Pa].

    Returns
    -------
    PressureBounds
        Rim only, likely, solid disc [Pa].

    Raises
    ------
    ValueError
        As `contact_pressure`.

    Examples
    --------
    >>> bounds = center_bounds(0.7112, 0.62, 205e9, 0.29)
    >>> pressure = contact_pressure_bounds(0.0015, 3.0e-11, bounds)
    >>> pressure.low < pressure.high
    True

    References
    ----------
    As `contact_pressure`.
    """
    likely = center.likely
    return PressureBounds(
        low=contact_pressure(interference, tire_compliance, center.high),
        likely=None if likely is None else contact_pressure(interference, tire_compliance, likely),
        high=contact_pressure(interference, tire_compliance, center.low),
    )


def required_interference(pressure: float, tire_compliance: float, center_compliance: float) -> float:
    """Interference on diameter that gives a contact pressure.

    Parameters
    ----------
    pressure : float
        Contact pressure [Pa].
    tire_compliance, center_compliance : float
        Radial compliances [m/Pa].

    Returns
    -------
    float
        Interference on DIAMETER [m].

    Raises
    ------
    ValueError
        If the pressure is negative or a compliance is not above zero.

    Notes
    -----
    With `pressure_for_bore_hoop` it is the interference that a stress limit allows.

    Examples
    --------
    >>> round(required_interference(200e6, 0.4e-12, 0.1e-12), 9)
    0.0002

    References
    ----------
    `contact_pressure` solved for delta.
    """
    total = positive("tire_compliance", tire_compliance) + positive("center_compliance", center_compliance)
    return 2.0 * not_negative("pressure", pressure) * total
