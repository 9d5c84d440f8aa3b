"""One fit, worked through: from what was measured to pressure, stress, hold, growth, mass and loosening.

The formulas stand in their own modules; here they are put in a row, once, so that a fit from records and a
what-if of the same numbers give the same digits. All values are SI, diameters at 20 degC, interference on
diameter. The heating that the fit asks for is in `fitting_heat`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from axlebook.engineering import gauge
from axlebook.engineering._given import finite
from axlebook.engineering.braking import loosening_rise
from axlebook.engineering.grip import HIGH_FRICTION, LIKELY_FRICTION, LOW_FRICTION, axial_hold, slip_torque
from axlebook.engineering.heating import heating_energy
from axlebook.engineering.ring_stress import tire_bore_hoop, tire_tread_hoop, tread_growth
from axlebook.engineering.rotation import rotation_loss, wheel_angular_speed
from axlebook.engineering.shrink_fit import (
    CenterCompliance,
    contact_pressure,
    interference,
    ring_center_compliance,
    seat_share,
    solid_center_compliance,
    tire_compliance,
)
from axlebook.engineering.spoked_center import SpokedCenter, TireSection, spoked_center_compliance
from axlebook.engineering.tire_mass import tire_mass

STEEL_DENSITY = 7850.0
"""Density of steel [kg/m3]; from memory."""
STEEL_SPECIFIC_HEAT = 480.0
"""Specific heat of steel near 100 degC [J/(kg K)]; from memory."""
FLANGE_AREA, FLANGE_HEIGHT = 7.0e-4, 0.012
"""Section of a flange above the tread [m2], and of its centroid above the tread [m]: a guess for the mass only."""


class _InPlainWords(dict[str, str]):
    def __missing__(self, name: str) -> str:
        return "the " + name.replace("_", " ")


class Impossible(ValueError):  # noqa: N818 - the name is what the caller says
    """Measures that cannot be: a sentence in which each name in braces stands for an argument."""

    def __init__(self, sentence: str) -> None:
        super().__init__(sentence)
        self.sentence = sentence

    def named(self, names: dict[str, str]) -> str:
        """The sentence with the caller's own names; its own name in plain words where the caller has none."""
        return self.sentence.format_map(_InPlainWords(names))

    def __str__(self) -> str:
        return self.named({})


@dataclass(frozen=True)
class Metal:
    """What a material does: Young's modulus [Pa], Poisson ratio [1], expansion [1/K]."""

    modulus: float
    poisson: float
    expansion: float


@dataclass(frozen=True)
class Spokes:
    """The spokes of a center: how many, section of one [m2], and the hub's diameter and width [m]."""

    count: int
    area: float
    hub_diameter: float
    hub_width: float


@dataclass(frozen=True)
class Triple:
    """A figure with its bounds; None where nothing is known to work it out from."""

    low: float | None
    likely: float | None
    high: float | None


@dataclass(frozen=True)
class FitGiven:
    """All that a fit is worked out from.

    Parameters
    ----------
    center_diameter, bore : float
        Means at 20 degC [m].
    tread_diameter : float
        Of the tire before it goes on [m].
    tire_width, seat_width : float
        Along the axle [m].
    tire_metal, center_metal : Metal
        What each is made of.
    shim : float
        Thickness on the radius of a shim that runs full round [m].
    solid : bool
        Whether the center is a solid disc.
    rim_inside : float or None
        Inside diameter of a spoked center's rim; None when not known [m].
    spokes : Spokes or None
        None when not known.
    friction : tuple of float
        Low, likely, high [1].
    uncertainty, doubt : float
        Guard band of the interference from the readings, and what temperatures nobody read could move it by,
        each way [m].
    ridge_loss, speed : float or None
        Lost to ridges on diameter [m]; engine's speed [m/s]; None when left out.
    condemning_thickness : float or None
        Of the tire [m].
    flanged : bool
        Whether the tire has a flange.
    """

    center_diameter: float
    bore: float
    tread_diameter: float
    tire_width: float
    seat_width: float
    tire_metal: Metal
    center_metal: Metal
    shim: float = 0.0
    solid: bool = False
    rim_inside: float | None = None
    spokes: Spokes | None = None
    friction: tuple[float, float, float] = (LOW_FRICTION, LIKELY_FRICTION, HIGH_FRICTION)
    uncertainty: float = 0.0
    doubt: float = 0.0
    ridge_loss: float | None = None
    speed: float | None = None
    condemning_thickness: float | None = None
    flanged: bool = True

    def __post_init__(self) -> None:
        """Refuse what no tire and center can have, naming what was given."""
        _require_possible(self)

    @property
    def seat_radius(self) -> float:
        """Half of center and shim [m]."""
        return self.center_diameter / 2.0 + self.shim

    @property
    def interference(self) -> float:
        """On diameter [m]."""
        return interference(self.center_diameter, self.bore, self.shim)


@dataclass(frozen=True)
class Grip:
    """What the tire does on its center at one thickness.

    Parameters
    ----------
    thickness, tread_diameter : float
        Of the tire [m].
    pressure, bore_hoop, tread_hoop : Triple
        Rim alone, spokes as modelled, solid disc [Pa].
    growth : Triple
        Of the tread on diameter [m].
    axial_hold : Triple
        Low, likely, high [N].
    slip_torque : Triple
        Low, likely, high [N m].
    mass : float
        Of the tire, an estimate [kg].
    loosening_heat : float
        Into the tire, losses left out, until the lowest loosening rise [J].
    """

    thickness: float
    tread_diameter: float
    pressure: Triple
    bore_hoop: Triple
    tread_hoop: Triple
    growth: Triple
    axial_hold: Triple
    slip_torque: Triple
    mass: float
    loosening_heat: float


@dataclass(frozen=True)
class FitSums:
    """A fit worked through.

    Parameters
    ----------
    given : FitGiven
        What it was worked out from.
    interference, band : float
        On diameter, and how far it is good, each way [m].
    speed_loss : float or None
        Interference lost at speed, on the stiffest center [m].
    left : float
        Interference on the lowest assumptions: less band, ridges and speed; not below zero [m].
    loosening_rise : float
        Of the tire over a cold center, for the interference as measured, a difference [K].
    lowest_loosening_rise : float
        The same on the lowest assumptions [K].
    new, worn : Grip
        As given, and at the condemning thickness; None when that is not known.
    """

    given: FitGiven
    interference: float
    band: float
    speed_loss: float | None
    left: float
    loosening_rise: float
    lowest_loosening_rise: float
    new: Grip
    worn: Grip | None


_ABOVE_ZERO = ("center_diameter", "bore", "tread_diameter", "tire_width", "seat_width")
_MAYBE_ABOVE_ZERO = ("rim_inside", "condemning_thickness")
_NOT_NEGATIVE = ("shim", "uncertainty", "doubt", "ridge_loss", "speed")


def _require_possible(given: FitGiven) -> None:
    for name in (*_ABOVE_ZERO, *_MAYBE_ABOVE_ZERO, *_NOT_NEGATIVE):
        value = getattr(given, name)
        if value is None:
            continue
        finite(name, value)
        if value < 0.0 or (value == 0.0 and name not in _NOT_NEGATIVE):
            raise Impossible(f"{{{name}}} must {'not be negative' if value else 'be more than zero'}.")
    _require_metal("tire", given.tire_metal)
    _require_metal("center", given.center_metal)
    if any(not 0.0 <= value <= 2.0 for value in given.friction):
        raise Impossible("{friction} is a coefficient of friction, from 0 to 2.")
    _require_order(given)
    if given.spokes is not None:
        _require_spokes(given, given.spokes)


def _require_metal(part: str, metal: Metal) -> None:
    if not metal.modulus > 0.0:
        raise Impossible(f"{{{part}_modulus}} must be more than zero.")
    if not -1.0 < metal.poisson < 0.5:
        raise Impossible(f"{{{part}_poisson}} is a Poisson ratio: above -1 and below 0.5.")
    if not metal.expansion > 0.0:
        raise Impossible(f"{{{part}_expansion}} must be more than zero: metal grows when it is heated.")


def _require_order(given: FitGiven) -> None:
    if given.rim_inside is not None and given.rim_inside >= given.center_diameter:
        raise Impossible("{rim_inside} must be less than {center_diameter}: a rim cannot be thicker than its radius.")
    if given.bore >= given.tread_diameter:
        raise Impossible("{bore} must be less than {tread_diameter}: nothing would be left of the tire.")
    if given.center_diameter + 2.0 * given.shim >= given.tread_diameter:
        raise Impossible("{center_diameter} must be less than {tread_diameter}.")
    if given.interference <= 0.0:
        raise Impossible(
            "there is no interference: at 68 degF {bore} is not less than {center_diameter}"
            + (" with its {shim}." if given.shim else ".")
        )
    if given.condemning_thickness is not None and given.condemning_thickness >= given.tread_diameter:
        raise Impossible("{condemning_thickness} is larger than {tread_diameter}.")
    if given.condemning_thickness and (given.bore + 2.0 * given.condemning_thickness) / 2.0 <= given.seat_radius:
        raise Impossible("{condemning_thickness}: of so thin a tire nothing would be left around the center.")


def _require_spokes(given: FitGiven, spokes: Spokes) -> None:
    if spokes.count < 3:
        raise Impossible("{spokes} must be 3 or more.")
    if not spokes.area > 0.0:
        raise Impossible("{spoke_section} must be more than zero both ways.")
    if not (spokes.hub_diameter > 0.0 and spokes.hub_width > 0.0):
        raise Impossible("{hub} must be more than zero.")
    if given.rim_inside is not None and spokes.hub_diameter >= given.rim_inside:
        raise Impossible("{hub} must be less than {rim_inside}: there would be no room for spokes.")


def center_compliance_of(given: FitGiven, thickness: float) -> tuple[float, float | None, float | None]:
    """Compliance of the center: stiffest, as modelled, softest.

    Parameters
    ----------
    given : FitGiven
        The fit.
    thickness : float
        Of the tire, which helps to bridge the spokes [m].

    Returns
    -------
    tuple of (float, float or None, float or None)
        Solid disc; spokes as modelled, or the disc where the center is one; rim alone [m/Pa]. None where the
        geometry is not known.

    Raises
    ------
    ValueError
        From the measures themselves.

    Examples
    --------
    >>> steel = Metal(205e9, 0.29, 11.7e-6)
    >>> solid = FitGiven(1.1176, 1.1164, 1.27, 0.146, 0.14, steel, steel, solid=True)
    >>> low, likely, high = center_compliance_of(solid, 0.0768)
    >>> low == likely == high
    True

    References
    ----------
    `shrink_fit`, `spoked_center`.
    """
    metal, radius = given.center_metal, given.seat_radius - given.shim
    disc = solid_center_compliance(radius, metal.modulus, metal.poisson)
    if given.solid:
        return disc, disc, disc
    if given.rim_inside is None:
        return disc, None, None
    if given.spokes is None:
        rim = ring_center_compliance(radius, given.rim_inside / 2.0, metal.modulus, metal.poisson)
        return disc, None, rim
    found = _spoked(given, given.spokes, given.rim_inside, thickness)
    return found.low, found.likely, found.high


def _spoked(given: FitGiven, spokes: Spokes, rim_inside: float, thickness: float) -> CenterCompliance:
    metal, tire = given.center_metal, given.tire_metal
    center = SpokedCenter(
        given.seat_radius - given.shim, rim_inside / 2.0, given.seat_width, spokes.count,
        (rim_inside - spokes.hub_diameter) / 2.0, spokes.area, spokes.hub_width, metal.modulus, metal.poisson,
    )  # fmt: skip
    return spoked_center_compliance(center, TireSection(thickness, given.tire_width, tire.modulus, tire.poisson))


def grip_at(given: FitGiven, tread_diameter: float, lowest_rise: float) -> Grip:
    """What the tire does on its center with a tread of some diameter.

    Parameters
    ----------
    given : FitGiven
        The fit.
    tread_diameter : float
        Of the tire, new or worn [m].
    lowest_rise : float
        Loosening rise on the lowest assumptions, a difference [K].

    Returns
    -------
    Grip
        With bounds.

    Raises
    ------
    ValueError
        From the measures themselves.

    Notes
    -----
    A worn tire presses less, is stressed a little more at its bore, and takes less heat to loosen.

    Examples
    --------
    >>> steel = Metal(205e9, 0.29, 11.7e-6)
    >>> fit = FitGiven(1.1176, 1.1164, 1.27, 0.146, 0.14, steel, steel, solid=True)
    >>> new, worn = grip_at(fit, 1.27, 90.0), grip_at(fit, 1.20, 90.0)
    >>> worn.pressure.high < new.pressure.high and worn.bore_hoop.high > new.bore_hoop.high
    True

    References
    ----------
    `shrink_fit`, `ring_stress`, `grip`, `tire_mass`.
    """
    seat, tread = given.seat_radius, tread_diameter / 2.0
    share = seat_share(given.seat_width, given.tire_width)
    metal = given.tire_metal
    tire = tire_compliance(seat, tread, metal.modulus, metal.poisson, share)
    stiff, likely, soft = center_compliance_of(given, tread - seat)
    pressure = Triple(*(_pressure(given.interference, tire, center) for center in (soft, likely, stiff)))
    width = min(given.seat_width, given.tire_width)
    mass = mass_of(given, tread_diameter)
    return Grip(
        thickness=(tread_diameter - given.bore) / 2.0,
        tread_diameter=tread_diameter,
        pressure=pressure,
        bore_hoop=_each(pressure, lambda p, _: tire_bore_hoop(p, seat, tread, share), given.friction),
        tread_hoop=_each(pressure, lambda p, _: tire_tread_hoop(p, seat, tread, share), given.friction),
        growth=_each(pressure, lambda p, _: tread_growth(p, seat, tread, metal.modulus, share), given.friction),
        axial_hold=_each(pressure, lambda p, mu: axial_hold(p, mu, seat, width), given.friction),
        slip_torque=_each(pressure, lambda p, mu: slip_torque(p, mu, seat, width), given.friction),
        mass=mass,
        loosening_heat=heating_energy(mass, STEEL_SPECIFIC_HEAT, lowest_rise),
    )


def _pressure(interference: float, tire: float, center: float | None) -> float | None:
    return None if center is None else contact_pressure(interference, tire, center)


def _each(pressure: Triple, formula: Callable[[float, float], float], friction: tuple[float, float, float]) -> Triple:
    ends = zip((pressure.low, pressure.likely, pressure.high), friction, strict=True)
    return Triple(*(None if p is None else formula(p, mu) for p, mu in ends))


def mass_of(given: FitGiven, tread_diameter: float) -> float:
    """Mass of the tire, its flange guessed.

    Parameters
    ----------
    given : FitGiven
        The fit.
    tread_diameter : float
        Of the tire, new or worn [m].

    Returns
    -------
    float
        An estimate [kg].

    Raises
    ------
    ValueError
        If the radii are out of order.

    Examples
    --------
    >>> steel = Metal(205e9, 0.29, 11.7e-6)
    >>> plain = FitGiven(1.1176, 1.1164, 1.27, 0.146, 0.14, steel, steel, solid=True, flanged=False)
    >>> round(mass_of(plain, 1.27))
    330

    References
    ----------
    `tire_mass`; the flange's section is a guess.
    """
    area = FLANGE_AREA if given.flanged else 0.0
    tread = tread_diameter / 2.0
    return tire_mass(STEEL_DENSITY, given.bore / 2.0, tread, given.tire_width, area, tread + FLANGE_HEIGHT)


def fit_sums(given: FitGiven) -> FitSums:
    """A fit worked through, new and at its condemning thickness.

    Parameters
    ----------
    given : FitGiven
        What was measured and assumed, all in SI [m, Pa, 1/K].

    Returns
    -------
    FitSums
        All of it.

    Raises
    ------
    Impossible
        If there is no interference, or the measures cannot be.

    Notes
    -----
    The loosening rise depends on the fit alone: it is the same new and worn.

    Examples
    --------
    >>> steel = Metal(205e9, 0.29, 11.7e-6)
    >>> sums = fit_sums(FitGiven(1.1176, 1.1164, 1.27, 0.146, 0.14, steel, steel, solid=True))
    >>> round(sums.interference * 1e3, 6), round(sums.loosening_rise, 1)
    (1.2, 91.8)

    References
    ----------
    `shrink_fit`, `ring_stress`, `grip`, `braking`.
    """
    tight, band = given.interference, given.uncertainty + given.doubt
    at_speed = _speed_loss(given)
    left = max(0.0, tight - band - (given.ridge_loss or 0.0) - max(0.0, at_speed or 0.0))
    diameter, expansion = 2.0 * given.seat_radius, given.tire_metal.expansion
    lowest = loosening_rise(left, diameter, expansion)
    worn = None
    if given.condemning_thickness is not None:
        worn = grip_at(given, given.bore + 2.0 * given.condemning_thickness, lowest)
    return FitSums(
        given=given,
        interference=tight,
        band=band,
        speed_loss=at_speed,
        left=left,
        loosening_rise=loosening_rise(tight, diameter, expansion),
        lowest_loosening_rise=lowest,
        new=grip_at(given, given.tread_diameter, lowest),
        worn=worn,
    )


def _speed_loss(given: FitGiven) -> float | None:
    """Interference lost at speed on the stiffest center, the greatest it can be."""
    if given.speed is None:
        return None
    tread = given.tread_diameter / 2.0
    return rotation_loss(
        wheel_angular_speed(given.speed, tread), given.seat_radius, tread, None,
        tire_density=STEEL_DENSITY, tire_modulus=given.tire_metal.modulus, tire_poisson=given.tire_metal.poisson,
        center_density=STEEL_DENSITY, center_modulus=given.center_metal.modulus,
        center_poisson=given.center_metal.poisson,
    )  # fmt: skip


def register_pull_of(sums: FitSums, drop: float) -> float:
    """How far the tire may draw off its register while it cools from its grip.

    Parameters
    ----------
    sums : FitSums
        The fit.
    drop : float
        Grip temperature less the cold one, a difference [K].

    Returns
    -------
    float
        At most this much [m].

    Raises
    ------
    ValueError
        If the drop is negative.

    Examples
    --------
    >>> steel = Metal(205e9, 0.29, 11.7e-6)
    >>> sums = fit_sums(FitGiven(1.1176, 1.1164, 1.27, 0.146, 0.14, steel, steel, solid=True))
    >>> 0.0001 < register_pull_of(sums, 92.0) < 0.0003
    True

    References
    ----------
    `gauge.register_pull_off`.
    """
    given = sums.given
    return gauge.register_pull_off(
        given.tire_width, drop, given.tire_metal.expansion, pressure=sums.new.pressure.high or 0.0,
        seat_radius=given.seat_radius, tread_radius=given.tread_diameter / 2.0, modulus=given.tire_metal.modulus,
        poisson=given.tire_metal.poisson, share=seat_share(given.seat_width, given.tire_width),
    )  # fmt: skip


__all__ = [
    "FitGiven", "FitSums", "Grip", "Impossible", "Metal", "Spokes", "Triple", "center_compliance_of", "fit_sums",
    "grip_at", "mass_of", "register_pull_of",
]  # fmt: skip
