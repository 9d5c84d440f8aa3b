"""What a turning takes off, what it leaves, and diameters that match.

Cuts and thicknesses are RADIAL; diameters are diameters, and a cut counts twice on them. No match limit is
known here: each comes in as an argument. A plan puts diameters exactly AT a limit; in metres a difference of
two floats is then out in its last digit, in whole steps of a gauge (sixty-fourths, say) it is exact, and
nothing here minds which length is the unit. `least_metal_diameters` keeps exact rationals exact.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from axlebook.engineering._given import finite_values, not_negative, positive, same_length, smaller


@dataclass(frozen=True)
class WheelToTurn:
    """One wheel of a set.

    Attributes
    ----------
    axle : str
        Which axle it is on; two wheels share one.
    diameter : float
        Now, at the taping line [m].
    cut : float
        The least radial cut that makes it right, zero when none [m].
    turned : bool
        Whether it goes to the lathe at all.
    """

    axle: str
    diameter: float
    cut: float
    turned: bool = True

    def __post_init__(self) -> None:
        positive("diameter", self.diameter)
        smaller("twice the cut", 2.0 * not_negative("cut", self.cut), "diameter", self.diameter)
        if not self.turned and self.cut != 0.0:
            raise ValueError(f"cut must be zero for a wheel that is not turned, not {self.cut}.")


@dataclass(frozen=True)
class MatchLimits:
    """By how much diameters may differ; None where no such limit applies.

    Attributes
    ----------
    across_axle : float or None
        Between the two wheels of one axle [m].
    within_set : float or None
        Between any two wheels of the set [m].
    single_tire_to_opposite : float or None
        From the wheel opposite, when ONE wheel only is turned or new [m].
    single_pair_to_average : float or None
        Of each wheel from the set's average, when ONE axle only is turned or new [m].
    pair_counts_in_average : bool
        Whether that average is of all wheels or of the others.
    """

    across_axle: float | None = None
    within_set: float | None = None
    single_tire_to_opposite: float | None = None
    single_pair_to_average: float | None = None
    pair_counts_in_average: bool = True

    def __post_init__(self) -> None:
        for name in ("across_axle", "within_set", "single_tire_to_opposite", "single_pair_to_average"):
            if getattr(self, name) is not None:
                not_negative(name, getattr(self, name))


def flange_cut(thickness_gain: float, flange_angle: float) -> float:
    """The radial cut that gives a flange its thickness back.

    Parameters
    ----------
    thickness_gain : float
        One value, how much thicker the flange must read [m].
    flange_angle : float
        One value, of the flange's face from the AXLE's direction [rad].

    Returns
    -------
    float
        One value, radial [m].

    Raises
    ------
    ValueError
        If the gain is negative, or the angle not between 0 and a right angle.

    Notes
    -----
    gain x tan(angle); twice that on diameter: 5.5 times the gain at 70 degrees. For a straight face: real
    throats are curved, so a template's own cut, when there is one, is to be taken.

    Examples
    --------
    >>> round(2 * flange_cut(1.0, math.radians(70)), 2), round(2 * flange_cut(1.0, math.radians(75)), 2)
    (5.49, 7.46)

    References
    ----------
    Derived here: the profile is moved inward until the worn face is clear of it.
    """
    angle = positive("flange_angle", flange_angle)
    smaller("flange_angle", angle, "a right angle", math.pi / 2.0)
    return not_negative("thickness_gain", thickness_gain) * math.tan(angle)


def least_cut(
    flange: float,
    hollow: float = 0.0,
    flat_depth: float = 0.0,
    clean_up: float = 0.0,
    template: float | None = None,
) -> float:
    """The least radial cut that makes one wheel right.

    Parameters
    ----------
    flange : float
        One value, as `flange_cut` gives it [m].
    hollow, flat_depth : float, optional
        One value each [m].
    clean_up : float, optional
        One value, what the lathe needs beyond the deepest place [m].
    template : float, optional
        One value, the cut at the tread that a template laid on the worn profile asks for; it stands in place
        of `flange`, the larger or the smaller [m].

    Returns
    -------
    float
        One value, radial [m].

    Raises
    ------
    ValueError
        If one is negative or not finite.

    Notes
    -----
    The greatest of flange, hollow and flat, not their sum, and the clean-up once.

    Examples
    --------
    >>> round(least_cut(0.0055, 0.002, 0.001, 0.0005), 4)
    0.006
    >>> round(least_cut(0.0055, 0.002, 0.001, 0.0005, template=0.004), 4)
    0.0045

    References
    ----------
    Common practice, no source.
    """
    shape = not_negative("flange", flange) if template is None else not_negative("template", template)
    deepest = max(shape, not_negative("hollow", hollow), not_negative("flat_depth", flat_depth))
    return deepest + not_negative("clean_up", clean_up)


def common_diameter(diameters: Sequence[float], cuts: Sequence[float]) -> float:
    """The greatest diameter to which a whole set can be turned alike.

    Parameters
    ----------
    diameters : sequence of float
        One for each wheel, now [m].
    cuts : sequence of float
        One for each wheel, the least radial cut [m].

    Returns
    -------
    float
        One value [m].

    Raises
    ------
    ValueError
        If there is no wheel, their numbers differ, or one is impossible.

    Notes
    -----
    The least of diameter - 2 cut.

    Examples
    --------
    >>> round(common_diameter([1.600, 1.598], [0.004, 0.001]), 4)
    1.592

    References
    ----------
    Derived here.
    """
    same_length("diameters", diameters, "cuts", cuts)
    finite_values("diameters", diameters, 1)
    left = [
        positive("diameters", diameter) - 2.0 * not_negative("cuts", cut)
        for diameter, cut in zip(diameters, cuts, strict=True)
    ]
    return positive("the common diameter", min(left))


def least_metal_diameters(
    wheels: Mapping[str, WheelToTurn], limits: MatchLimits
) -> dict[str, float] | None:
    """The greatest diameter for every wheel at which all match limits are met.

    Parameters
    ----------
    wheels : mapping of str to WheelToTurn
        By name; all wheels of the set, turned or not.
    limits : MatchLimits
        Each exactly met is met.

    Returns
    -------
    dict of str to float or None
        The new diameter of each wheel [m]; None when the wheels that are not turned leave no way.

    Raises
    ------
    ValueError
        If there is no wheel, or an axle has more than two.

    Notes
    -----
    Every limit bounds one diameter by another, so that two answers may be put together wheel by wheel from
    the greater of each and are an answer again: there is one that is greatest for EVERY wheel, and it takes
    the least metal. It is found from above: start from diameter - 2 cut, and lower what breaks a limit.
    Wheels that are not turned are held to the same limits. With no other wheel in the set there is no average
    to be near.

    Examples
    --------
    >>> set_of_four = {
    ...     "L1": WheelToTurn("1", 1.600, 0.003), "R1": WheelToTurn("1", 1.600, 0.001),
    ...     "L2": WheelToTurn("2", 1.601, 0.001), "R2": WheelToTurn("2", 1.601, 0.001),
    ... }
    >>> plan = least_metal_diameters(set_of_four, MatchLimits(across_axle=0.002, within_set=0.004))
    >>> [round(diameter, 4) for diameter in plan.values()]
    [1.594, 1.596, 1.598, 1.598]

    References
    ----------
    Derived here; the tests try every plan of small sets.
    """
    if not wheels:
        raise ValueError("wheels must hold a wheel.")
    mates = _mates(wheels)
    highest = _lowered_to_limits(wheels, limits, mates)
    pair = [name for name, wheel in wheels.items() if wheel.turned]
    if limits.single_pair_to_average is not None and len(pair) == 2 and mates.get(pair[0]) == pair[1]:
        highest |= _near_average(wheels, limits, {name: highest[name] for name in pair})
    if any(highest[name] != wheel.diameter for name, wheel in wheels.items() if not wheel.turned):
        return None
    return highest if _is_within(highest, wheels, limits) else None


def _mates(wheels: Mapping[str, WheelToTurn]) -> dict[str, str]:
    """The wheel opposite each, where there is one."""
    mates: dict[str, str] = {}
    for name, wheel in wheels.items():
        others = [other for other, that in wheels.items() if that.axle == wheel.axle and other != name]
        if len(others) > 1:
            raise ValueError(f"axle {wheel.axle} must have two wheels, but has {len(others) + 1}.")
        if others:
            mates[name] = others[0]
    return mates


def _across(name: str, wheels: Mapping[str, WheelToTurn], limits: MatchLimits) -> float:
    """How far a wheel may stand above the one opposite; the single tire's limit is for its own axle only."""
    allowed = [] if limits.across_axle is None else [limits.across_axle]
    turned = [wheel.axle for wheel in wheels.values() if wheel.turned]
    if limits.single_tire_to_opposite is not None and turned == [wheels[name].axle]:
        allowed.append(limits.single_tire_to_opposite)
    return min(allowed, default=math.inf)


def _lowered_to_limits(
    wheels: Mapping[str, WheelToTurn], limits: MatchLimits, mates: Mapping[str, str]
) -> dict[str, float]:
    """The greatest diameters that the limits between two wheels allow.

    One pass is enough: the least wheel is never lowered, and a ceiling common to all keeps mates as near.
    """
    own = {name: wheel.diameter - 2 * wheel.cut for name, wheel in wheels.items()}  # 2: a rational stays one
    highest = {
        name: min(value, own[mates[name]] + _across(name, wheels, limits)) if name in mates else value
        for name, value in own.items()
    }
    if limits.within_set is not None:
        top = min(highest.values()) + limits.within_set
        highest = {name: min(value, top) for name, value in highest.items()}
    return highest


def _near_average(
    wheels: Mapping[str, WheelToTurn], limits: MatchLimits, pair: Mapping[str, float]
) -> dict[str, float]:
    """The one turned pair, lowered until neither wheel stands too high, nor the lower one too low.

    In the average, n wheels, S the sum of the others, L the limit: (n - 1) d - mate <= S + n L for each, so
    that both may be (S + n L)/(n - 2), and over a lower mate one may be (S + n L + mate)/(n - 1). The lower
    wheel is near enough when the higher is at most (n - 1) lower - S + n L.
    """
    limit, count = limits.single_pair_to_average or 0, len(wheels)
    others = sum(wheel.diameter for name, wheel in wheels.items() if name not in pair)
    if count == len(pair):
        return dict(pair)
    if not limits.pair_counts_in_average:
        ceiling = others / (count - 2) + limit
        return {name: min(value, ceiling) for name, value in pair.items()}
    lower, higher = sorted(pair, key=pair.__getitem__)
    low = min(pair[lower], (others + count * limit) / (count - 2))
    above = (others + count * limit + low) / (count - 1)
    high = min(pair[higher], above, (count - 1) * low - others + count * limit)
    return {lower: low, higher: max(low, high)}


def _is_within(
    diameters: Mapping[str, float], wheels: Mapping[str, WheelToTurn], limits: MatchLimits
) -> bool:
    """Whether the pair that was lowered has not fallen out at the lower side of a limit."""
    turned = [name for name, wheel in wheels.items() if wheel.turned]
    if any(diameters[name] <= 0.0 for name in turned):
        return False
    if len(turned) != 2 or limits.single_pair_to_average is None or len(wheels) == 2:
        return True
    if wheels[turned[0]].axle != wheels[turned[1]].axle:
        return True
    others = [value for name, value in diameters.items() if name not in turned]
    low = min(diameters[name] for name in turned)
    counted = list(diameters.values()) if limits.pair_counts_in_average else others
    near = sum(counted) / len(counted) - low <= limits.single_pair_to_average
    return near and (limits.within_set is None or max(others) - low <= limits.within_set)


def metal_taken(wheels: Mapping[str, WheelToTurn], diameters: Mapping[str, float]) -> dict[str, float]:
    """The radial cut that brings each wheel to its new diameter.

    Parameters
    ----------
    wheels : mapping of str to WheelToTurn
        By name.
    diameters : mapping of str to float
        The new diameter of each [m].

    Returns
    -------
    dict of str to float
        One for each wheel, radial [m].

    Raises
    ------
    ValueError
        If a wheel has no new diameter, or one that leaves less taken off than its least cut.

    Notes
    -----
    Half the change in diameter.

    Examples
    --------
    >>> metal_taken({"L1": WheelToTurn("1", 64.0, 0.25)}, {"L1": 63.0})
    {'L1': 0.5}

    References
    ----------
    Derived here.
    """
    taken = {}
    for name, wheel in wheels.items():
        if name not in diameters:
            raise ValueError(f"diameters must hold wheel {name}.")
        if diameters[name] > wheel.diameter - 2.0 * wheel.cut:
            raise ValueError(f"diameters must leave {name} its least cut, but {diameters[name]} does not.")
        taken[name] = (wheel.diameter - diameters[name]) / 2.0
    return taken


def thickness_left(thickness: float, cut: float) -> float:
    """A tire's thickness after a cut.

    Parameters
    ----------
    thickness : float
        One value, now [m].
    cut : float
        One value, radial [m].

    Returns
    -------
    float
        One value [m].

    Raises
    ------
    ValueError
        If the thickness is not above zero, the cut is negative, or nothing would be left.

    Notes
    -----
    thickness - cut: the whole radial cut comes off the thickness, and twice of it off the diameter.

    Examples
    --------
    >>> thickness_left(2.75, 0.25)
    2.5

    References
    ----------
    Derived here.
    """
    whole = positive("thickness", thickness)
    return whole - smaller("cut", not_negative("cut", cut), "thickness", whole)


def turnings_left(thickness: float, least_thickness: float, cut: float, wear: float = 0.0) -> int:
    """How many more turnings a tire has in it.

    Parameters
    ----------
    thickness : float
        One value, now [m].
    least_thickness : float
        One value, that may be reached but not passed [m].
    cut : float
        One value, radial, of each turning [m].
    wear : float, optional
        One value, of the tread between two turnings, radial [m].

    Returns
    -------
    int
        Whole turnings after which the tire is no thinner than the least; zero when it is at it already.

    Raises
    ------
    ValueError
        If a thickness or the cut is not above zero, or the wear is negative.

    Notes
    -----
    The first turning comes before the first wear. Whether the tire then lasts to the next is another matter.
    Figures are taken as the decimals that they print as, so that ten cuts of 0.1 fit into 1.0.

    Examples
    --------
    >>> turnings_left(2.5, 1.5, 0.1), turnings_left(2.5, 1.5, 0.25, 0.125), turnings_left(1.4, 1.5, 0.1)
    (10, 3, 0)

    References
    ----------
    Derived here: whole n with n cut + (n - 1) wear at most what there is.
    """
    whole, least, each, between = (
        Fraction(repr(value))
        for value in (
            positive("thickness", thickness),
            positive("least_thickness", least_thickness),
            positive("cut", cut),
            not_negative("wear", wear),
        )
    )
    return max(0, (whole - least + between) // (each + between))
