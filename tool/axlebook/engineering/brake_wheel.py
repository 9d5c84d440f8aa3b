"""One tire under the brake, worked through: what is left of its fit, the rise that loosens it, and how long that takes.

The formulas stand in `braking`, `rotation`, `spoked_center` and `transient`; here they are put in a row, for a tire
new, as it is, or worn to its limit. All values are SI, diameters at 20 degC, interference on diameter. Each figure is
an estimate of when the model has no grip left, on the lowest assumptions: never a time to hold a brake for.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from axlebook.engineering._given import positive
from axlebook.engineering.braking import (
    effective_interference,
    hot_interference,
    loosening_rise,
    lumped_rise,
    time_to_rise,
)
from axlebook.engineering.rotation import rotation_loss, wheel_angular_speed
from axlebook.engineering.spoked_center import SpokedCenter, TireSection, spoked_center_compliance
from axlebook.engineering.tire_mass import tire_mass
from axlebook.engineering.transient import Metal, Moment, Wheel, wheel_history

CONTACT_CONDUCTANCE = 1500.0
"""Contact conductance of the seat, the lowest that is told [W/(m2 K)]; from memory: 1 500 to 15 000."""
REFERENCE = 293.15
"""20 degC, at which diameters are told [K]."""
_STEPS, _LONGEST, _LAYERS = 24, 20, 8
# steps in the time that the tire alone takes; how many such times are followed at most; volumes a part
HOUR = 3600.0
"""The model is followed no longer: without loss to the air it means little after that [s]."""


@dataclass(frozen=True)
class Steel:
    """What a part is made of.

    Attributes
    ----------
    modulus, poisson, expansion, density, specific_heat, conductivity : float
        [Pa], [1], [1/K], [kg/m3], [J/(kg K)], [W/(m K)].
    """

    modulus: float
    poisson: float
    expansion: float
    density: float
    specific_heat: float
    conductivity: float

    @property
    def metal(self) -> Metal:
        """As far as heat is concerned."""
        return Metal(self.conductivity, self.density, self.specific_heat, self.expansion)


@dataclass(frozen=True)
class CenterForm:
    """Measures of a spoked center.

    Attributes
    ----------
    rim_inside_radius, rim_width, hub_radius, hub_width : float
        [m].
    spokes : int
        How many.
    spoke_thick, spoke_wide : float
        The two sides of a spoke's section [m].
    """

    rim_inside_radius: float
    rim_width: float
    hub_radius: float
    hub_width: float
    spokes: int
    spoke_thick: float
    spoke_wide: float


@dataclass(frozen=True)
class BrakeWheel:
    """A tired wheel under the brake.

    Attributes
    ----------
    seat_diameter : float
        Of the center, shims counted [m].
    tire_width : float
        [m].
    tire, center : Steel
        What the two are made of.
    interference : float
        As measured, on diameter [m].
    ridges, growth, uncertainty : float
        Taken off it: ridges that flatten, permanent growth of the bore, and what the readings may be out by [m].
    form : CenterForm or None
        None where it is not on record, or the center is no spoked one.
    """

    seat_diameter: float
    tire_width: float
    tire: Steel
    center: Steel
    interference: float
    ridges: float = 0.0
    growth: float = 0.0
    uncertainty: float = 0.0
    form: CenterForm | None = None

    @property
    def seat_radius(self) -> float:
        """Half the seat's diameter [m]."""
        return self.seat_diameter / 2.0


@dataclass(frozen=True)
class Loosened:
    """When the model has no grip left.

    Attributes
    ----------
    seconds : float or None
        Since the brake went on; None when not within the time that was followed [s].
    rise : float or None
        Of the tire's mean then, above the surroundings [K].
    followed : float
        How long it was followed [s].
    """

    seconds: float | None
    rise: float | None
    followed: float


def counted_interference(wheel: BrakeWheel, thickness: float, speed: float | None) -> float:
    """The interference that is counted on, after all that is taken off it.

    Parameters
    ----------
    wheel : BrakeWheel
        The wheel.
    thickness : float
        Of the tire for the loss at speed; the thickest gives the greatest [m].
    speed : float or None
        Of the engine; None leaves that loss out [m/s].

    Returns
    -------
    float
        On diameter; zero or below means that no grip can be shown [m].

    Raises
    ------
    ValueError
        If a loss is negative or a measure is not above zero.

    Notes
    -----
    The loss at speed is that of a solid center, the greatest there can be.

    Examples
    --------
    >>> steel = Steel(205e9, 0.29, 11.7e-6, 7850.0, 480.0, 45.0)
    >>> wheel = BrakeWheel(1.1176, 0.146, steel, steel, 0.0012, ridges=0.00003, uncertainty=0.00005)
    >>> round(counted_interference(wheel, 0.0762, None) * 1000, 3)
    1.12

    References
    ----------
    `braking.effective_interference`, `rotation.rotation_loss`.
    """
    lost = 0.0
    if speed is not None:
        tread = wheel.seat_radius + positive("thickness", thickness)
        lost = rotation_loss(
            wheel_angular_speed(speed, tread), wheel.seat_radius, tread, None,
            tire_density=wheel.tire.density, tire_modulus=wheel.tire.modulus, tire_poisson=wheel.tire.poisson,
            center_density=wheel.center.density, center_modulus=wheel.center.modulus,
            center_poisson=wheel.center.poisson,
        )  # fmt: skip
    return effective_interference(wheel.interference, wheel.ridges, max(0.0, lost), wheel.growth, wheel.uncertainty)


def cold_center_rise(wheel: BrakeWheel, counted: float, center: float) -> float:
    """The rise of the tire's mean over its cold center at which the model has no grip left.

    Parameters
    ----------
    wheel : BrakeWheel
        The wheel.
    counted : float
        The interference counted on, at 20 degC [m].
    center : float
        Temperature of the center [K].

    Returns
    -------
    float
        A difference, zero when there is nothing to lose [K].

    Raises
    ------
    ValueError
        If a measure is not above zero.

    Notes
    -----
    Where tire and center expand unlike, the interference at the center's own temperature is what counts. The
    thickness does not come into it.

    Examples
    --------
    >>> steel = Steel(205e9, 0.29, 11.7e-6, 7850.0, 480.0, 45.0)
    >>> wheel = BrakeWheel(1.4, 0.146, steel, steel, 0.0015)
    >>> round(cold_center_rise(wheel, 0.0015, 293.15), 1)
    91.6

    References
    ----------
    `braking.hot_interference`, `braking.loosening_rise`.
    """
    beyond = center - REFERENCE
    grown = wheel.center.expansion * wheel.seat_diameter * beyond
    now = hot_interference(counted, wheel.seat_diameter, wheel.tire.expansion, beyond, grown)
    return loosening_rise(now, wheel.seat_diameter, wheel.tire.expansion)


def tire_capacity(wheel: BrakeWheel, thickness: float) -> float:
    """The heat that one kelvin takes in the tire, its flange left out.

    Parameters
    ----------
    wheel : BrakeWheel
        The wheel.
    thickness : float
        Of the tire [m].

    Returns
    -------
    float
        Mass times specific heat [J/K].

    Raises
    ------
    ValueError
        If a measure is not above zero.

    Examples
    --------
    >>> steel = Steel(205e9, 0.29, 11.7e-6, 7850.0, 480.0, 45.0)
    >>> wheel = BrakeWheel(1.1176, 0.1397, steel, steel, 0.0012)
    >>> round(tire_capacity(wheel, 0.0889) / 480.0)
    370

    References
    ----------
    `tire_mass.tire_mass`.
    """
    return _mass(wheel, thickness) * wheel.tire.specific_heat


def _mass(wheel: BrakeWheel, thickness: float) -> float:
    tread = wheel.seat_radius + positive("thickness", thickness)
    return tire_mass(wheel.tire.density, wheel.seat_radius, tread, wheel.tire_width)


def rise_of_stop(wheel: BrakeWheel, thickness: float, energy: float) -> float:
    """The rise of the tire's mean from one stop, when it keeps all the heat.

    Parameters
    ----------
    wheel : BrakeWheel
        The wheel.
    thickness : float
        Of the tire [m].
    energy : float
        Into this wheel [J].

    Returns
    -------
    float
        A difference [K].

    Raises
    ------
    ValueError
        If the energy is negative or a measure is not above zero.

    Examples
    --------
    >>> steel = Steel(205e9, 0.29, 11.7e-6, 7850.0, 480.0, 45.0)
    >>> wheel = BrakeWheel(1.1176, 0.1397, steel, steel, 0.0012)
    >>> round(rise_of_stop(wheel, 0.0889, 1.78e6), 1)
    10.0

    References
    ----------
    `braking.lumped_rise`.
    """
    return lumped_rise(energy, _mass(wheel, thickness), wheel.tire.specific_heat)


def lumped_time(wheel: BrakeWheel, thickness: float, power: float, rise: float) -> float | None:
    """How long a steady power takes to that rise, when the tire keeps all the heat.

    Parameters
    ----------
    wheel : BrakeWheel
        The wheel.
    thickness : float
        Of the tire [m].
    power : float
        Into this wheel [W].
    rise : float
        Of the tire's mean [K].

    Returns
    -------
    float or None
        [s]; None when there is no power.

    Raises
    ------
    ValueError
        If a measure is not above zero, or the power negative.

    Notes
    -----
    Proportional to the mass: half the thickness, about half the time.

    Examples
    --------
    >>> steel = Steel(205e9, 0.29, 11.7e-6, 7850.0, 480.0, 45.0)
    >>> wheel = BrakeWheel(1.1176, 0.1397, steel, steel, 0.0012)
    >>> round(lumped_time(wheel, 0.0889, 45e3, 91.6) / 60, 1)
    6.0

    References
    ----------
    `braking.time_to_rise` without losses.
    """
    if power == 0.0:
        return None
    return time_to_rise(power, _mass(wheel, thickness), wheel.tire.specific_heat, rise)


def heat_wheel(wheel: BrakeWheel, thickness: float) -> Wheel | None:
    """The wheel as the model of heat in time takes it.

    Parameters
    ----------
    wheel : BrakeWheel
        The wheel.
    thickness : float
        Of the tire [m].

    Returns
    -------
    Wheel or None
        None where the form of the center is not known.

    Raises
    ------
    ValueError
        If the measures leave no room for spokes, or one is not above zero.

    Notes
    -----
    The hub counts as a solid cylinder of its diameter and width, axle included.

    Examples
    --------
    >>> steel = Steel(205e9, 0.29, 11.7e-6, 7850.0, 480.0, 45.0)
    >>> heat_wheel(BrakeWheel(1.1176, 0.1397, steel, steel, 0.0012), 0.0889) is None
    True

    References
    ----------
    `spoked_center.spoked_center_compliance` for the share of the rim.
    """
    form = wheel.form
    if form is None:
        return None
    center, tire = wheel.center, wheel.tire
    area = form.spoke_thick * form.spoke_wide
    bounds = spoked_center_compliance(
        SpokedCenter(
            wheel.seat_radius, form.rim_inside_radius, form.rim_width, form.spokes,
            form.rim_inside_radius - form.hub_radius, area, form.hub_width, center.modulus, center.poisson,
        ),
        TireSection(thickness, wheel.tire_width, tire.modulus, tire.poisson),
    )  # fmt: skip
    likely = bounds.low if bounds.likely is None else bounds.likely
    hub = math.pi * form.hub_radius**2 * form.hub_width * center.density * center.specific_heat
    return Wheel(
        wheel.seat_radius + thickness, wheel.seat_radius, form.rim_inside_radius, form.hub_radius, wheel.tire_width,
        min(form.rim_width, wheel.tire_width), form.spokes, area, 2.0 * (form.spoke_thick + form.spoke_wide), hub,
        tire.metal, center.metal, likely / bounds.high,
    )  # fmt: skip


def loosened_in_time(
    wheel: BrakeWheel,
    thickness: float,
    power: float,
    counted: float,
    cold_rise: float,
    conductance: float = CONTACT_CONDUCTANCE,
) -> Loosened | None:
    """When the model of heat in time has no grip left: the center warms, and takes heat away.

    Parameters
    ----------
    wheel : BrakeWheel
        The wheel.
    thickness : float
        Of the tire [m].
    power : float
        Into this wheel, steady [W].
    counted : float
        The interference counted on [m].
    cold_rise : float
        With a cold center; sets how long it is followed [K].
    conductance : float, optional
        Of the contact [W/(m2 K)].

    Returns
    -------
    Loosened or None
        None where the form of the center is not known, or there is no power.

    Raises
    ------
    ValueError
        As `transient.wheel_history`.

    Notes
    -----
    No heat is lost to air or shoe. Followed for an hour, or twice as long as the tire alone would take.

    Examples
    --------
    >>> steel = Steel(205e9, 0.29, 11.7e-6, 7850.0, 480.0, 45.0)
    >>> form = CenterForm(0.4636, 0.1397, 0.19, 0.1397, 14, 0.083, 0.051)
    >>> wheel = BrakeWheel(1.1176, 0.146, steel, steel, 0.0012, form=form)
    >>> alone = lumped_time(wheel, 0.0762, 45e3, 91.8)
    >>> found = loosened_in_time(wheel, 0.0762, 45e3, 0.0012, 91.8)
    >>> found.seconds > alone and found.rise > 91.8
    True

    References
    ----------
    `transient.wheel_history`.
    """
    model, alone = heat_wheel(wheel, thickness), lumped_time(wheel, thickness, power, cold_rise)
    if model is None or alone is None:
        return None
    if alone <= 0.0:
        return Loosened(0.0, 0.0, 0.0)
    followed = max(2.0 * alone, min(_LONGEST * alone, HOUR))
    course = wheel_history(model, [(followed, power)], conductance, counted, step=alone / _STEPS, layers=_LAYERS)
    found = _first_loose(course)
    return Loosened(None, None, followed) if found is None else Loosened(*found, followed)


def _first_loose(course: Sequence[Moment]) -> tuple[float, float] | None:
    """Time and rise of the tire's mean when the interference is first gone, straight between two moments."""
    for before, after in pairwise(course):
        if after.interference <= 0.0:
            part = before.interference / (before.interference - after.interference)
            seconds = before.seconds + part * (after.seconds - before.seconds)
            return seconds, before.tire + part * (after.tire - before.tire)
    return None


__all__ = [
    "BrakeWheel", "CenterForm", "Loosened", "Steel", "cold_center_rise", "counted_interference", "heat_wheel",
    "loosened_in_time", "lumped_time", "rise_of_stop", "tire_capacity",
]  # fmt: skip
