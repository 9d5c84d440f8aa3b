"""What speed does to a shrunk tire: stress in spinning rings and discs, interference lost.

Nomenclature: b seat radius, c tread radius, a inside radius of the rim, omega angular speed, rho density,
E modulus, nu Poisson ratio. Plane stress, elastic.
"""

from __future__ import annotations

from axlebook.engineering._given import between, not_negative, poisson_ratio, positive, smaller
from axlebook.engineering.ring_stress import RingStress, radial_growth


def wheel_angular_speed(speed: float, tread_radius: float) -> float:
    """Angular speed of a wheel that rolls.

    Parameters
    ----------
    speed : float
        Speed of the engine [m/s].
    tread_radius : float
        Radius of the tread [m].

    Returns
    -------
    float
        Angular speed [rad/s].

    Raises
    ------
    ValueError
        If the speed is negative or the radius is not above zero.

    Examples
    --------
    >>> wheel_angular_speed(26.8224, 0.8001) > 33.5
    True

    References
    ----------
    Definition.
    """
    return not_negative("speed", speed) / positive("tread_radius", tread_radius)


def spinning_ring_stress(
    radius: float,
    inside_radius: float,
    outside_radius: float,
    angular_speed: float,
    density: float,
    poisson: float,
) -> RingStress:
    """Stress from rotation in a free ring, or in a solid disc when its inside radius is zero.

    Parameters
    ----------
    radius : float
        Where, from the inside to the outside radius [m].
    inside_radius, outside_radius : float
        Radii; an inside radius of exactly zero means a solid disc [m].
    angular_speed : float
        Angular speed [rad/s].
    density : float
        Density [kg/m3].
    poisson : float
        Poisson ratio [1].

    Returns
    -------
    RingStress
        Radial and hoop stress from rotation alone [Pa].

    Raises
    ------
    ValueError
        If the radii are out of order, the speed is negative or the density is not above zero.

    Notes
    -----
    Adds to the stress from the fit (`ring_stress.ring_stress`), both being elastic.

    Examples
    --------
    >>> thin = spinning_ring_stress(1.0, 0.999999, 1.0, 100.0, 7850.0, 0.29)
    >>> round(thin.hoop / 1e6, 3)
    78.5

    References
    ----------
    Ugural & Fenster, Advanced Strength and Applied Elasticity, ch. 8 (from memory); derived again: it meets
    d(r s_r)/dr - s_h + rho omega2 r2 = 0 with s_r = 0 at both edges, and is checked in the tests by solving
    that equation numerically.
    """
    if inside_radius != 0.0:
        positive("inside_radius", inside_radius)
    smaller("inside_radius", inside_radius, "outside_radius", outside_radius)
    between("radius", radius, inside_radius, outside_radius)
    load = positive("density", density) * not_negative("angular_speed", angular_speed) ** 2 / 8.0
    ratio = poisson_ratio("poisson", poisson)
    inner, outer, here = inside_radius**2, outside_radius**2, radius**2
    hole = 0.0 if inside_radius == 0.0 else inner * outer / here
    return RingStress(
        radial=load * (3.0 + ratio) * (inner + outer - hole - here),
        hoop=load * ((3.0 + ratio) * (inner + outer + hole) - (1.0 + 3.0 * ratio) * here),
    )


def spinning_growth(
    radius: float,
    inside_radius: float,
    outside_radius: float,
    angular_speed: float,
    density: float,
    modulus: float,
    poisson: float,
) -> float:
    """How far a free spinning ring, or a solid disc, moves outward at a radius.

    Parameters
    ----------
    radius : float
        Where, from the inside to the outside radius, above zero [m].
    inside_radius, outside_radius : float
        Radii; an inside radius of exactly zero means a solid disc [m].
    angular_speed : float
        Angular speed [rad/s].
    density : float
        Density [kg/m3].
    modulus : float
        Young's modulus [Pa].
    poisson : float
        Poisson ratio [1].

    Returns
    -------
    float
        Radial move, outward positive; RADIAL, not on diameter [m].

    Raises
    ------
    ValueError
        As `spinning_ring_stress`, or if the modulus is not above zero.

    Examples
    --------
    >>> spinning_growth(0.7, 0.7, 0.8, 33.5, 7850.0, 205e9, 0.29) > 0.0
    True

    References
    ----------
    Hooke's law on `spinning_ring_stress`.
    """
    stress = spinning_ring_stress(radius, inside_radius, outside_radius, angular_speed, density, poisson)
    return radial_growth(radius, stress, modulus, poisson)


def rotation_loss(
    angular_speed: float,
    seat_radius: float,
    tread_radius: float,
    rim_inside_radius: float | None,
    *,
    tire_density: float,
    tire_modulus: float,
    tire_poisson: float,
    center_density: float,
    center_modulus: float,
    center_poisson: float,
) -> float:
    """Interference on DIAMETER that speed takes from the fit.

    Parameters
    ----------
    angular_speed : float
        Angular speed [rad/s].
    seat_radius, tread_radius : float
        Radii of the seat and of the tread [m].
    rim_inside_radius : float or None
        Inside radius of a free rim; None for a solid disc [m].
    tire_density, center_density : float
        Densities [kg/m3].
    tire_modulus, center_modulus : float
        Young's moduli [Pa].
    tire_poisson, center_poisson : float
        Poisson ratios [1].

    Returns
    -------
    float
        Loss on diameter; negative when a free rim grows more than the tire [m].

    Raises
    ------
    ValueError
        As `spinning_growth`.

    Notes
    -----
    A solid disc grows least, so it gives the greatest loss: the bound to use where the spokes hold the rim.
    The pressure at speed is that of the interference less this loss, since all of it is elastic.

    Examples
    --------
    >>> steel = dict(tire_density=7850.0, tire_modulus=205e9, tire_poisson=0.29,
    ...              center_density=7850.0, center_modulus=205e9, center_poisson=0.29)
    >>> loss = rotation_loss(26.8224 / 0.8001, 0.7112, 0.8001, None, **steel)
    >>> 0.02 < loss / 0.001524 < 0.03
    True

    References
    ----------
    Derived here: twice the growth of the tire's bore less twice that of the center's seat, each spinning
    free.
    """
    tire = spinning_growth(
        seat_radius, seat_radius, tread_radius, angular_speed, tire_density, tire_modulus, tire_poisson
    )
    inside = 0.0 if rim_inside_radius is None else positive("rim_inside_radius", rim_inside_radius)
    center = spinning_growth(
        seat_radius, inside, seat_radius, angular_speed, center_density, center_modulus, center_poisson
    )
    return 2.0 * (tire - center)
