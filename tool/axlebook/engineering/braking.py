"""Braking heat, and when it takes the grip away.

Every figure is an estimate of when the model has no grip left, on the lowest assumptions that it is given.
It is not an operating instruction and no permission to hold a brake. The rise at which a tire comes loose
depends on the fit alone and does not change with wear; but a thin tire gets there about twice as fast.
"""

from __future__ import annotations

from axlebook.engineering._given import between, finite, not_negative, positive, smaller
from axlebook.engineering.heating import diameter_growth, heating_energy, heating_time

STANDARD_GRAVITY = 9.80665
"""Standard acceleration of free fall, CGPM 1901 [m/s2]."""


def grade_power(
    mass: float,
    gradient: float,
    speed: float,
    resistance: float = 0.0,
    gravity: float = STANDARD_GRAVITY,
) -> float:
    """The power that brakes must take up to hold a speed down a grade.

    Parameters
    ----------
    mass : float
        One value, all that the brakes hold [kg].
    gradient : float
        One value, fall over length of track: 21 per mille is 0.021 [1].
    speed : float
        One value [m/s].
    resistance : float, optional
        One value, what the train's own resistance holds [N].
    gravity : float, optional
        One value [m/s2].

    Returns
    -------
    float
        One value, zero when the resistance holds it alone [W].

    Raises
    ------
    ValueError
        If the mass or the gravity is not above zero, the speed or the resistance is negative, or the gradient
        is not between 0 and 1.

    Notes
    -----
    (mass gravity gradient - resistance) speed. With the fall taken over the length measured along the level
    in place of along the track the answer is too high by half the gradient's square, .02 % at 21 per mille.

    Examples
    --------
    >>> round(grade_power(22500.0, 0.021, 70 / 3.6) / 1000, 1)
    90.1

    References
    ----------
    Derived here. The European specification for freight wagons, Commission Regulation (EU) No 321/2013,
    thermal capacity, takes 45 kW for each wheel of this axle.
    """
    pull = positive("mass", mass) * positive("gravity", gravity) * between("gradient", gradient, 0.0, 1.0)
    left = pull - not_negative("resistance", resistance)
    return max(0.0, left) * not_negative("speed", speed)


def stop_energy(
    mass: float,
    speed: float,
    final_speed: float = 0.0,
    rotating_mass: float = 0.0,
    descent: float = 0.0,
    gravity: float = STANDARD_GRAVITY,
) -> float:
    """The energy that brakes take up when a train is slowed or stopped.

    Parameters
    ----------
    mass : float
        One value [kg].
    speed : float
        One value, before [m/s].
    final_speed : float, optional
        One value, after [m/s].
    rotating_mass : float, optional
        One value, what turns, as if it were at the tread: moment of inertia over radius squared [kg].
    descent : float, optional
        One value, how far it comes down meanwhile; negative uphill [m].
    gravity : float, optional
        One value [m/s2].

    Returns
    -------
    float
        One value, zero when the hill does it all [J].

    Raises
    ------
    ValueError
        If the mass is not above zero, a speed or the rotating mass is negative, or the final speed is the
        higher.

    Notes
    -----
    (mass + rotating_mass)(speed^2 - final_speed^2)/2 + mass gravity descent.

    Examples
    --------
    >>> round(stop_energy(10000.0, 20.0) / 1e6, 1)
    2.0

    References
    ----------
    V. B. Bhandari, Design of Machine Elements, example 12.3.
    """
    before, after = not_negative("speed", speed), not_negative("final_speed", final_speed)
    if after > before:
        raise ValueError(f"final_speed must not be above speed, but {after} is above {before}.")
    moving = positive("mass", mass) + not_negative("rotating_mass", rotating_mass)
    fall = mass * positive("gravity", gravity) * finite("descent", descent)
    return max(0.0, moving * (before**2 - after**2) / 2.0 + fall)


def heat_into_wheel(power: float, wheels: int, share: float) -> float:
    """The part of a braking power, or energy, that goes into one wheel.

    Parameters
    ----------
    power : float
        One value, of all brakes [W], or an energy [J].
    wheels : int
        How many wheels are braked.
    share : float
        One value, of the heat into the wheel and not into the shoe [1].

    Returns
    -------
    float
        One value [as given].

    Raises
    ------
    ValueError
        If the power is negative, there is no wheel, or the share is not between 0 and 1.

    Notes
    -----
    power share / wheels, all braked alike. The share is the railway's to record; about 0.9 is told of iron
    shoes.

    Examples
    --------
    >>> round(heat_into_wheel(90e3, 2, 0.9))
    40500

    References
    ----------
    Derived here; the share of 0.9 is from memory.
    """
    if wheels < 1:
        raise ValueError(f"wheels must be one or more, not {wheels}.")
    return not_negative("power", power) * between("share", share, 0.0, 1.0) / wheels


def lumped_rise(energy: float, mass: float, specific_heat: float) -> float:
    """The rise of a mass's mean when it takes up an energy and loses none.

    Parameters
    ----------
    energy : float
        One value [J].
    mass : float
        One value, of the tire alone for the lowest assumption [kg].
    specific_heat : float
        One value [J/(kg K)].

    Returns
    -------
    float
        One value, a difference [K].

    Raises
    ------
    ValueError
        If the energy is negative, or the mass or the specific heat not above zero.

    Notes
    -----
    energy / (mass specific_heat). The tread is hotter than that for some minutes.

    Examples
    --------
    >>> round(lumped_rise(2.0e6, 464.0, 480.0), 2)
    8.98

    References
    ----------
    OpenStax, College Physics, example 14.2.
    """
    return not_negative("energy", energy) / heating_energy(mass, specific_heat, 1.0)


def time_to_rise(
    power: float, mass: float, specific_heat: float, rise: float, loss: float = 0.0
) -> float | None:
    """How long a stated power into one tire takes to raise its mean.

    Parameters
    ----------
    power : float
        One value, into this wheel [W].
    mass : float
        One value, of the tire [kg].
    specific_heat : float
        One value [J/(kg K)].
    rise : float
        One value, above the surroundings [K].
    loss : float, optional
        One value, surface coefficient times area [W/K].

    Returns
    -------
    float or None
        One value [s]; None when the losses hold it below that rise for good.

    Raises
    ------
    ValueError
        As `heating.heating_time`.

    Notes
    -----
    Half the mass, half the time.

    Examples
    --------
    >>> round(time_to_rise(45e3, 464.0, 480.0, 91.6) / 60, 1)
    7.6

    References
    ----------
    As `heating.heating_time`.
    """
    return heating_time(power, mass, specific_heat, rise, loss)


def loosening_rise(interference: float, diameter: float, expansion: float) -> float:
    """The rise of a tire's mean over a COLD center at which no interference is left.

    Parameters
    ----------
    interference : float
        One value, on diameter, after its losses [m].
    diameter : float
        One value, of the seat, not of the tread [m].
    expansion : float
        One value [1/K].

    Returns
    -------
    float
        One value, a difference; zero when there is no interference to lose [K].

    Raises
    ------
    ValueError
        If the diameter or the expansion is not above zero, or anything not finite.

    Notes
    -----
    interference / (expansion diameter). Neither thickness nor pressure comes into it.

    Examples
    --------
    >>> round(loosening_rise(0.0015, 1.4, 11.7e-6), 1)
    91.6

    References
    ----------
    Derived here: the free bore has grown by the interference.
    """
    tight = max(0.0, finite("interference", interference))
    return tight / (positive("expansion", expansion) * positive("diameter", diameter))


def loosening_rise_with_warm_center(
    interference: float, diameter: float, expansion: float, center_share: float
) -> float | None:
    """The rise of a tire's mean at which no interference is left when the center warms with it.

    Parameters
    ----------
    interference : float
        One value, on diameter, after its losses [m].
    diameter : float
        One value, of the seat [m].
    expansion : float
        One value, of both parts [1/K].
    center_share : float
        One value, the center's free growth over the tire's [1].

    Returns
    -------
    float or None
        One value, a difference [K]; None when the center grows as much, so that heat does not loosen it.

    Raises
    ------
    ValueError
        If the share is negative or above 1, the diameter or the expansion not above zero, or anything not
        finite.

    Notes
    -----
    interference / [expansion diameter (1 - center_share)]. A share of 0 is the cold center and the lowest
    assumption; a share taken for granted is not.

    Examples
    --------
    >>> round(loosening_rise_with_warm_center(0.0015, 1.4, 11.7e-6, 0.25), 1)
    122.1

    References
    ----------
    Derived here from `hot_interference` with center_growth = share x tire's growth.
    """
    share = between("center_share", center_share, 0.0, 1.0)
    rise = loosening_rise(interference, diameter, expansion)
    return None if share == 1.0 else rise / (1.0 - share)


def solid_center_growth(diameter: float, expansion: float, disk_rise: float) -> float:
    """The free growth of a solid center, on diameter.

    Parameters
    ----------
    diameter : float
        One value, of the seat [m].
    expansion : float
        One value, of the center [1/K].
    disk_rise : float
        One value, of the disk's area mean, above 20 degC [K].

    Returns
    -------
    float
        One value on diameter [m].

    Raises
    ------
    ValueError
        If the diameter or the expansion is not above zero, or anything not finite.

    Notes
    -----
    expansion diameter rise.

    Examples
    --------
    >>> round(solid_center_growth(1.4, 11.7e-6, 20.0) * 1000, 3)
    0.328

    References
    ----------
    Derived here: `heating.bore_growth` with no hole.
    """
    return diameter_growth(diameter, expansion, disk_rise)


def spoked_center_growth(
    seat_radius: float,
    rim_thickness: float,
    hub_radius: float,
    expansion: float,
    ring_share: float,
    rim_rise: float,
    spoke_rise: float,
    hub_rise: float,
) -> float:
    """The free growth of a spoked center, on diameter, when its parts are unlike warm.

    Parameters
    ----------
    seat_radius, rim_thickness, hub_radius : float
        One value each, radial; the spokes fill what is left between [m].
    expansion : float
        One value, of the center [1/K].
    ring_share : float
        One value, the rim's stiffness as a free ring over that of rim and spokes together [1].
    rim_rise, spoke_rise, hub_rise : float
        One value each, means above 20 degC [K].

    Returns
    -------
    float
        One value on DIAMETER [m].

    Raises
    ------
    ValueError
        If hub and rim leave no room for spokes, the share is not between 0 and 1, or anything impossible.

    Notes
    -----
    Twice u, u = share expansion R T_rim + (1 - share) expansion (r_hub T_hub + L T_spoke + t_rim T_rim).
    A warm rim on cold spokes is held back by them.

    Examples
    --------
    >>> round(spoked_center_growth(0.70, 0.06, 0.18, 11.7e-6, 0.4, 20.0, 5.0, 0.0) * 1000, 3)
    0.18

    References
    ----------
    Derived here: ring and spokes are two springs in parallel, each with its own free length.
    """
    radius, rim = positive("seat_radius", seat_radius), positive("rim_thickness", rim_thickness)
    hub = positive("hub_radius", hub_radius)
    smaller("hub_radius", hub, "seat_radius - rim_thickness", radius - rim)
    share = between("ring_share", ring_share, 0.0, 1.0)
    warm_rim = finite("rim_rise", rim_rise)
    ring = radius * warm_rim
    column = hub * finite("hub_rise", hub_rise)
    column += (radius - rim - hub) * finite("spoke_rise", spoke_rise) + rim * warm_rim
    return 2.0 * positive("expansion", expansion) * (share * ring + (1.0 - share) * column)


def hot_interference(
    interference: float, diameter: float, expansion: float, tire_rise: float, center_growth: float = 0.0
) -> float:
    """The interference that heat has left.

    Parameters
    ----------
    interference : float
        One value, on diameter at 20 degC, after its losses [m].
    diameter : float
        One value, of the seat [m].
    expansion : float
        One value, of the tire [1/K].
    tire_rise : float
        One value, the tire's area mean above 20 degC [K].
    center_growth : float, optional
        One value, the center's free growth on diameter [m].

    Returns
    -------
    float
        One value on diameter; negative is a clearance, and then there is no pressure at all [m].

    Raises
    ------
    ValueError
        If the diameter or the expansion is not above zero, or anything not finite.

    Notes
    -----
    interference - expansion diameter tire_rise + center_growth.

    Examples
    --------
    >>> round(hot_interference(0.0015, 1.4, 11.7e-6, 60.0, 0.0002) * 1000, 3)
    0.717

    References
    ----------
    Derived here from free growth of both parts.
    """
    growth = diameter_growth(diameter, expansion, tire_rise)
    return finite("interference", interference) - growth + finite("center_growth", center_growth)


def effective_interference(
    measured: float,
    ridges: float = 0.0,
    speed: float = 0.0,
    permanent_growth: float = 0.0,
    uncertainty: float = 0.0,
) -> float:
    """The interference that can be counted on: what was measured, less its losses and its uncertainty.

    Parameters
    ----------
    measured : float
        One value, MEASURED on diameter at 20 degC, not the nominal one [m].
    ridges : float, optional
        One value, what turned ridges lose as they flatten, on diameter [m].
    speed : float, optional
        One value, what rotation loses, on diameter [m].
    permanent_growth : float, optional
        One value, the bore's measured permanent stretch, on diameter [m].
    uncertainty : float, optional
        One value, the expanded uncertainty of what was measured [m].

    Returns
    -------
    float
        One value on diameter; zero or below means no grip can be shown [m].

    Raises
    ------
    ValueError
        If a loss or the uncertainty is negative, or anything not finite.

    Notes
    -----
    measured - ridges - speed - permanent_growth - uncertainty.

    Examples
    --------
    >>> round(effective_interference(0.0015, 0.00002, 0.00003, 0.0, 0.00005) * 1000, 3)
    1.4

    References
    ----------
    Derived here.
    """
    losses = not_negative("ridges", ridges) + not_negative("speed", speed)
    losses += not_negative("permanent_growth", permanent_growth)
    return finite("measured", measured) - losses - not_negative("uncertainty", uncertainty)


def kelvin_difference(fahrenheit_difference: float) -> float:
    """A temperature DIFFERENCE told in degF, in kelvin.

    Parameters
    ----------
    fahrenheit_difference : float
        One value, a difference [degF].

    Returns
    -------
    float
        One value, a difference [K].

    Raises
    ------
    ValueError
        If it is not finite.

    Notes
    -----
    Five ninths, and no 32: a rise of 180 degF is a rise of 100 K.

    Examples
    --------
    >>> kelvin_difference(180.0)
    100.0

    References
    ----------
    NIST Special Publication 811, appendix B.9, temperature interval (from memory).
    """
    return finite("fahrenheit_difference", fahrenheit_difference) * 5.0 / 9.0


def fahrenheit_difference(kelvin_difference: float) -> float:
    """A temperature DIFFERENCE in kelvin, told in degF.

    Parameters
    ----------
    kelvin_difference : float
        One value, a difference [K].

    Returns
    -------
    float
        One value, a difference [degF].

    Raises
    ------
    ValueError
        If it is not finite.

    Notes
    -----
    Nine fifths, and no 32.

    Examples
    --------
    >>> fahrenheit_difference(100.0)
    180.0

    References
    ----------
    As `kelvin_difference`.
    """
    return finite("kelvin_difference", kelvin_difference) * 9.0 / 5.0
