"""The mass of a tire from its section."""

from __future__ import annotations

import math
from collections.abc import Iterable

from axlebook.engineering._given import finite, not_negative, positive, smaller


def revolved_mass(density: float, pieces: Iterable[tuple[float, float]]) -> float:
    """Mass of a ring made by turning a section about an axis.

    Parameters
    ----------
    density : float
        Density [kg/m3].
    pieces : iterable of (float, float)
        For each piece of the section its area [m2] and the radius of its centroid [m]; a negative area is
        taken away.

    Returns
    -------
    float
        Mass [kg].

    Raises
    ------
    ValueError
        If the density or a radius is not above zero, or the areas leave nothing.

    Examples
    --------
    >>> round(revolved_mass(7850.0, [(0.100 * 0.050, 0.375), (-0.060 * 0.030, 0.365)]), 1)
    60.1

    References
    ----------
    Pappus's theorem: volume is 2 pi times area times centroid radius.
    """
    moment = sum(finite("area", area) * positive("centroid_radius", radius) for area, radius in pieces)
    return positive("density", density) * 2.0 * math.pi * positive("the section's moment", moment)


def tire_mass(
    density: float,
    bore_radius: float,
    tread_radius: float,
    width: float,
    flange_area: float = 0.0,
    flange_radius: float | None = None,
) -> float:
    """Mass of a tire: a cylinder and its flange.

    Parameters
    ----------
    density : float
        Density [kg/m3].
    bore_radius, tread_radius : float
        Radii of bore and tread [m].
    width : float
        Width of the tire, flange side included [m].
    flange_area : float
        Section of the flange above the tread, zero for a plain tire [m2].
    flange_radius : float or None
        Radius of that section's centroid; needed when there is a flange [m].

    Returns
    -------
    float
        Mass [kg].

    Raises
    ------
    ValueError
        If the radii are out of order, a measure is not above zero, or a flange has no radius.

    Notes
    -----
    The coning of the tread, the lip and the bevels are left out: a percent or so.

    Examples
    --------
    >>> round(tire_mass(7850.0, 0.5588, 0.6477, 0.1397))
    370

    References
    ----------
    Derived here: rho pi (c2 - b2) w, and Pappus's theorem for the flange.
    """
    smaller("bore_radius", positive("bore_radius", bore_radius), "tread_radius", tread_radius)
    ring = math.pi * (tread_radius**2 - bore_radius**2) * positive("width", width)
    mass = positive("density", density) * ring
    if not_negative("flange_area", flange_area) == 0.0:
        return mass
    if flange_radius is None:
        raise ValueError("flange_radius must be given when flange_area is not zero.")
    smaller("tread_radius", tread_radius, "flange_radius", flange_radius)
    return mass + revolved_mass(density, [(flange_area, flange_radius)])
