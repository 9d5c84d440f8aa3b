"""How stiff a spoked center is: its rim as a free ring, its spokes as radial springs beside it.

Nomenclature: n spokes, L length and A section of a spoke, R radius of the seat, l arc of the seat between
two spokes, w width, I second moment of area, kappa shear factor. The answer is an estimate and never
stands alone: it is given with its bounds, the rim alone and the solid disc.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from axlebook.engineering._given import poisson_ratio, positive, smaller
from axlebook.engineering.shrink_fit import (
    CenterCompliance,
    ring_center_compliance,
    solid_center_compliance,
)

SHEAR_FACTOR = 5.0 / 6.0
"""Shear factor of a rectangular section [1]."""


@dataclass(frozen=True)
class SpokedCenter:
    """Measures of a spoked center.

    Parameters
    ----------
    seat_radius, rim_inside_radius : float
        Radii of the seat and of the inside of the rim [m].
    seat_width : float
        Width of the rim at the seat [m].
    spoke_count : int
        Number of spokes, three or more.
    spoke_length : float
        From hub to rim [m].
    spoke_area : float
        Section of one spoke, at its mean [m2].
    hub_width : float
        Length of the hub along the axle [m].
    modulus : float
        Young's modulus of the center [Pa].
    poisson : float
        Poisson ratio of the center [1].
    """

    seat_radius: float
    rim_inside_radius: float
    seat_width: float
    spoke_count: int
    spoke_length: float
    spoke_area: float
    hub_width: float
    modulus: float
    poisson: float

    def __post_init__(self) -> None:
        """Refuse measures that no center can have."""
        smaller(
            "rim_inside_radius",
            positive("rim_inside_radius", self.rim_inside_radius),
            "seat_radius",
            self.seat_radius,
        )
        smaller(
            "spoke_length",
            positive("spoke_length", self.spoke_length),
            "rim_inside_radius",
            self.rim_inside_radius,
        )
        for name in ("seat_width", "spoke_area", "hub_width", "modulus"):
            positive(name, getattr(self, name))
        poisson_ratio("poisson", self.poisson)
        if self.spoke_count < 3:
            raise ValueError(f"spoke_count must be 3 or more, not {self.spoke_count}.")


@dataclass(frozen=True)
class TireSection:
    """Measures of the tire that helps the rim to bridge the gap between two spokes.

    Parameters
    ----------
    thickness : float
        Tread radius less seat radius [m].
    width : float
        Width of the tire [m].
    modulus : float
        Young's modulus of the tire [Pa].
    poisson : float
        Poisson ratio of the tire [1].
    """

    thickness: float
    width: float
    modulus: float
    poisson: float

    def __post_init__(self) -> None:
        """Refuse measures that no tire can have."""
        for name in ("thickness", "width", "modulus"):
            positive(name, getattr(self, name))
        poisson_ratio("poisson", self.poisson)


def spoke_compliance(center: SpokedCenter, tire: TireSection) -> float:
    """How far the rim moves inward for each unit of force down one spoke.

    Parameters
    ----------
    center : SpokedCenter
        The center.
    tire : TireSection
        The tire on it.

    Returns
    -------
    float
        Mean inward move of the rim for each newton in every spoke [m/N].

    Raises
    ------
    ValueError
        From the measures themselves.

    Notes
    -----
    Three parts in series: the spoke as a column, its share of the hub as a solid disc, and the sag of rim
    and tire between two spokes. Rim and tire bend side by side, unjoined: the least they can do together.
    The arc is taken at the seat. Straight spokes; a spoke of I section counts with its own area.

    Examples
    --------
    >>> center = SpokedCenter(0.56, 0.50, 0.125, 14, 0.27, 0.0045, 0.18, 200e9, 0.29)
    >>> tire = TireSection(0.089, 0.14, 205e9, 0.29)
    >>> 3e-10 < spoke_compliance(center, tire) < 6e-10
    True

    References
    ----------
    Derived here. Column: L / (E A). Hub: n forces F are a pressure n F / (2 pi r w) on a disc, which moves
    r (1 - nu) / E for each unit: n (1 - nu) / (2 pi E w). Sag: the mean deflection of a clamped beam of span
    l under an even load F / l is F l^3 / (720 E I) in bending and, from the mean of q x (l - x) / (2 kappa
    G A), F l / (12 kappa G A) in shear. The same two numbers follow from the Fourier series of a thin ring
    under n equal forces (zeta(4) = pi^4 / 90, zeta(2) = pi^2 / 6).
    """
    return _column(center) + _hub_share(center) + _sag(center, tire)


def _column(center: SpokedCenter) -> float:
    """The spoke itself [m/N]."""
    return center.spoke_length / (center.modulus * center.spoke_area)


def _hub_share(center: SpokedCenter) -> float:
    """The hub, as a solid disc under all spokes at once [m/N]."""
    return center.spoke_count * (1.0 - center.poisson) / (2.0 * math.pi * center.modulus * center.hub_width)


def _sag(center: SpokedCenter, tire: TireSection) -> float:
    """Mean sag of rim and tire between two spokes [m/N]."""
    span = 2.0 * math.pi * center.seat_radius / center.spoke_count
    rim_thickness = center.seat_radius - center.rim_inside_radius
    bending = (
        center.modulus * center.seat_width * rim_thickness**3 + tire.modulus * tire.width * tire.thickness**3
    ) / 12.0
    shear = SHEAR_FACTOR * (
        center.modulus / (2.0 * (1.0 + center.poisson)) * center.seat_width * rim_thickness
        + tire.modulus / (2.0 * (1.0 + tire.poisson)) * tire.width * tire.thickness
    )
    return span**3 / (720.0 * bending) + span / (12.0 * shear)


def spoked_center_compliance(center: SpokedCenter, tire: TireSection) -> CenterCompliance:
    """Compliance of a spoked center with its bounds.

    Parameters
    ----------
    center : SpokedCenter
        The center.
    tire : TireSection
        The tire on it.

    Returns
    -------
    CenterCompliance
        Solid disc, spokes as modelled, rim alone [m/Pa].

    Raises
    ------
    ValueError
        From the measures themselves.

    Notes
    -----
    low <= likely <= high always: where stout spokes would come out stiffer than the disc they were cut from,
    the disc is the answer.

    Examples
    --------
    >>> center = SpokedCenter(0.56, 0.50, 0.125, 14, 0.27, 0.0045, 0.18, 200e9, 0.29)
    >>> bounds = spoked_center_compliance(center, TireSection(0.089, 0.14, 205e9, 0.29))
    >>> bounds.low < bounds.likely < bounds.high
    True

    References
    ----------
    Derived here: ring and spokes share the load, so their stiffnesses add. n forces F on the seat are a
    pressure n F / (2 pi b w), so the spokes' stiffness is n / (c_s 2 pi b w).
    """
    rim = ring_center_compliance(center.seat_radius, center.rim_inside_radius, center.modulus, center.poisson)
    disc = solid_center_compliance(center.seat_radius, center.modulus, center.poisson)
    seat_area = 2.0 * math.pi * center.seat_radius * center.seat_width
    spokes = center.spoke_count / (spoke_compliance(center, tire) * seat_area)
    return CenterCompliance(low=disc, likely=max(disc, 1.0 / (1.0 / rim + spokes)), high=rim)
