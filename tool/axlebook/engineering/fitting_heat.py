"""The heating that one fit asks for: how hot, under which ceiling, how much clearance, and how long it lasts.

Everything counts from the temperature of the CENTER when the tire goes on. Temperatures are absolute [K].
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from axlebook.engineering._given import above_absolute_zero
from axlebook.engineering.fitting import STEEL_DENSITY, STEEL_SPECIFIC_HEAT, FitSums
from axlebook.engineering.heating import (
    circumference_growth,
    cooling_time,
    diameter_growth,
    grip_temperature,
    soak_time,
)

LEAST_CLEARANCE, MOST_CLEARANCE = 0.0005, 0.001
"""Clearance wanted while fitting, as a share of the diameter [1]; from memory."""
AIR_LOSS = (25.0, 10.0)
"""What a hot tire loses to still air, much and little [W/(m2 K)]; from memory."""
BORE_LOSS = (1000.0, 100.0)
"""What its bore loses to the center it hangs over, much (it touches) and little (even gap) [W/(m2 K)]; from memory."""
CONDUCTIVITY = 45.0
"""Of tire steel [W/(m K)]; from memory."""


@dataclass(frozen=True)
class FittingHeat:
    """How hot, and what that gives.

    Parameters
    ----------
    center_temperature : float
        When the tire goes on [K].
    least_clearance, most_clearance : float
        Wanted on diameter [m].
    least, most : float
        Mean temperatures of the tire that give them [K].
    least_for_largest : float
        The least when the interference is as large as its guard band allows [K].
    ceiling : float or None
        Of the tire, None when not known [K].
    upto : float
        The top of the band, not above the ceiling [K].
    clearance_at_top : float
        What the top of the band gives on diameter; negative when it does not go on [m].
    clearance_on_file, temperature_on_file : float or None
        The least clearance that a limit or practice on file asks on diameter [m], and the mean temperature that
        gives it [K]; None where none is on file.
    grip : float
        Mean temperature at which bore and center meet [K].
    growth, round_growth : float
        Of the bore from the center's temperature to the least: on diameter, and on the circumference [m].
    hanging, over_center : tuple of float, or None
        Time from the top of the band until it grips, least and most [s]: in air, and over the center. None where
        it would not grip by cooling to the center's temperature (metals unlike, center far from 20 degC).
    soak : float
        Heat off, until the tire's thickness is even [s].
    """

    center_temperature: float
    least_clearance: float
    most_clearance: float
    least: float
    most: float
    least_for_largest: float
    ceiling: float | None
    upto: float
    clearance_at_top: float
    clearance_on_file: float | None
    temperature_on_file: float | None
    grip: float
    growth: float
    round_growth: float
    hanging: tuple[float, float] | None
    over_center: tuple[float, float] | None
    soak: float

    @property
    def ceiling_stops_it(self) -> bool:
        """Whether even the least clearance asks for more than the tire may have."""
        return self.ceiling is not None and self.least > self.ceiling

    @property
    def ceiling_cuts_it(self) -> bool:
        """Whether the band passes the ceiling."""
        return self.ceiling is not None and self.most > self.ceiling


def fitting_heat(
    sums: FitSums, center_temperature: float, ceiling: float | None = None, on_file: float | None = None
) -> FittingHeat:
    """The heating that a fit asks for.

    Parameters
    ----------
    sums : FitSums
        The fit.
    center_temperature : float
        Of the center when the tire goes on [K].
    ceiling : float or None
        The tire's heat ceiling [K].
    on_file : float or None
        Least clearance on diameter that the railway asks [m].

    Returns
    -------
    FittingHeat
        Band, clearance, growth and times.

    Raises
    ------
    ValueError
        If a temperature is not above absolute zero.

    Notes
    -----
    The tire's temperature is its area mean: a hot tread does not open the bore. The times are for the tire
    alone: the center warms a little, and where the tire touches it, it grips sooner.

    Examples
    --------
    >>> from axlebook.engineering.fitting import FitGiven, Metal, fit_sums
    >>> steel = Metal(205e9, 0.29, 11.7e-6)
    >>> sums = fit_sums(FitGiven(1.1176, 1.1164, 1.27, 0.146, 0.14, steel, steel, solid=True))
    >>> heat = fitting_heat(sums, 293.15)
    >>> round(heat.least - 273.15), round(heat.most - 273.15), round(heat.grip - 273.15)
    (155, 197, 112)

    References
    ----------
    `heating`; a clearance is asked for as if the interference were larger by it.
    """
    given, center = sums.given, above_absolute_zero("center_temperature", center_temperature)
    diameter, tight = 2.0 * given.seat_radius, sums.interference
    expansion, own = given.tire_metal.expansion, given.center_metal.expansion

    def meeting(clearance: float) -> float:
        return grip_temperature(tight + clearance, given.bore, expansion, center, own)

    small, large = LEAST_CLEARANCE * diameter, MOST_CLEARANCE * diameter
    least, most, grip = meeting(small), meeting(large), meeting(0.0)
    upto = most if ceiling is None else min(most, above_absolute_zero("ceiling", ceiling))
    return FittingHeat(
        center_temperature=center,
        least_clearance=small,
        most_clearance=large,
        least=least,
        most=most,
        least_for_largest=meeting(small + sums.band),
        ceiling=ceiling,
        upto=upto,
        clearance_at_top=diameter_growth(given.bore, expansion, upto - grip),
        clearance_on_file=on_file,
        temperature_on_file=None if on_file is None else meeting(on_file),
        grip=grip,
        growth=diameter_growth(given.bore, expansion, least - center),
        round_growth=circumference_growth(given.bore, expansion, least - center),
        hanging=_window(sums, AIR_LOSS, (0.0, 0.0), upto, grip, center),
        over_center=_window(sums, AIR_LOSS, BORE_LOSS, upto, grip, center),
        soak=_soak(sums),
    )


def _window(
    sums: FitSums, air: tuple[float, float], bore: tuple[float, float], top: float, grip: float, cold: float
) -> tuple[float, float] | None:
    """Least and most time from the top of the band until it grips [s]."""
    faces, inside = _surfaces(sums)
    found = []
    for in_air, at_bore in zip(air, bore, strict=True):
        loss = in_air * faces + (at_bore or in_air) * inside
        found.append(cooling_time(sums.new.mass, STEEL_SPECIFIC_HEAT, loss, top, grip, cold))
    quick, slow = found
    return None if quick is None or slow is None else (quick, slow)


def _surfaces(sums: FitSums) -> tuple[float, float]:
    """Faces and tread of the tire, and its bore [m2]."""
    given = sums.given
    inner, outer = given.bore / 2.0, given.tread_diameter / 2.0
    faces = 2.0 * math.pi * (outer**2 - inner**2) + 2.0 * math.pi * outer * given.tire_width
    return faces, 2.0 * math.pi * inner * given.tire_width


def _soak(sums: FitSums) -> float:
    thickness = sums.new.thickness
    return soak_time(thickness, CONDUCTIVITY / (STEEL_DENSITY * STEEL_SPECIFIC_HEAT))
