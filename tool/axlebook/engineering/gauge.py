"""The gauge of a pair: back to back from the registers, over the flanges, through a frog.

Nomenclature: B back to back, L distance between the two registers, s from a register's seat to the flange
back, w width of the tire, b seat radius, c tread radius, p contact pressure.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from typing import NamedTuple

from axlebook.engineering._given import (
    finite,
    finite_values,
    not_negative,
    poisson_ratio,
    positive,
    smaller,
    width_share,
)


class Sense(Enum):
    """Which way the flange back stands from the register's seat."""

    INWARD = "inward"
    """Toward the other wheel."""
    OUTWARD = "outward"
    """Away from the other wheel."""


@dataclass(frozen=True)
class FlangeBack:
    """Where a flange back stands, seen from the register that its tire seats against.

    Parameters
    ----------
    distance : float
        From the register's seat to the flange back, not negative [m].
    sense : Sense
        Which way; never left to a sign.
    """

    distance: float
    sense: Sense

    def __post_init__(self) -> None:
        """Refuse a distance with a sign of its own."""
        not_negative("distance", self.distance)

    @property
    def inward(self) -> float:
        """The distance toward the other wheel, negative when outward [m]."""
        return self.distance if self.sense is Sense.INWARD else -self.distance


class Tolerance(NamedTuple):
    """What several tolerances add up to [m]: all at once, and as independent errors."""

    worst_case: float
    root_sum_square: float


class FrogMargins(NamedTuple):
    """What is left when a pair runs through a frog [m]; negative where metal meets metal."""

    guard_check: float
    guard_face: float


def back_to_back(register_distance: float, left: FlangeBack, right: FlangeBack) -> float:
    """Back to back of a pair from its registers.

    Parameters
    ----------
    register_distance : float
        Between the seats of the two registers [m].
    left, right : FlangeBack
        Where each flange back stands from its register.

    Returns
    -------
    float
        Back to back [m].

    Raises
    ------
    ValueError
        If the register distance or what is left of it is not above zero.

    Notes
    -----
    Tires hard against their registers all round. A tire that pulled off while cooling (see
    `register_pull_off`) moves its flange back by as much.

    Examples
    --------
    >>> inch = 0.0254
    >>> inward = FlangeBack(0.75 * inch, Sense.INWARD)
    >>> round(back_to_back(54.875 * inch, inward, inward) / inch, 6)
    53.375

    References
    ----------
    Derived here: B = L - (s1 + s2), s positive inward.
    """
    distance = positive("register_distance", register_distance)
    return positive("the back to back left", distance - left.inward - right.inward)


def stacked_tolerance(tolerances: Sequence[float]) -> Tolerance:
    """What the tolerances of a stack of lengths add up to.

    Parameters
    ----------
    tolerances : sequence of float
        Plus or minus of each length, one or more, signs ignored [m].

    Returns
    -------
    Tolerance
        Worst case and root of the sum of squares, plus or minus [m].

    Raises
    ------
    ValueError
        If there is none or one is not finite.

    Notes
    -----
    The second only for errors that do not share a cause: two tires turned on one machine with one gauge do.

    Examples
    --------
    >>> stacked_tolerance([0.0003, 0.0004])
    Tolerance(worst_case=0.0007, root_sum_square=0.0005)

    References
    ----------
    Sum of |t|, and root of the sum of t2; common practice.
    """
    given = finite_values("tolerances", tolerances, 1)
    return Tolerance(math.fsum(abs(value) for value in given), math.hypot(*given))


def over_flanges(back_to_back: float, left_flange: float, right_flange: float) -> float:
    """Distance between the active faces of the two flanges.

    Parameters
    ----------
    back_to_back : float
        Back to back [m].
    left_flange, right_flange : float
        Thickness of each flange at the gauge line [m].

    Returns
    -------
    float
        Over the flanges [m].

    Raises
    ------
    ValueError
        If a measure is not above zero.

    Examples
    --------
    >>> round(over_flanges(1.357, 0.029, 0.030), 6)
    1.416

    References
    ----------
    Definition.
    """
    flanges = positive("left_flange", left_flange) + positive("right_flange", right_flange)
    return positive("back_to_back", back_to_back) + flanges


def wheel_check(back_to_back: float, flange: float) -> float:
    """Distance from the back of one flange to the active face of the other.

    Parameters
    ----------
    back_to_back : float
        Back to back [m].
    flange : float
        Thickness of the OTHER wheel's flange at the gauge line [m].

    Returns
    -------
    float
        Wheel check [m].

    Raises
    ------
    ValueError
        If a measure is not above zero.

    Examples
    --------
    >>> round(wheel_check(1.357, 0.030), 6)
    1.387

    References
    ----------
    Definition.
    """
    return positive("back_to_back", back_to_back) + positive("flange", flange)


def frog_margins(
    back_to_back: float, left_flange: float, right_flange: float, guard_check: float, guard_face: float
) -> FrogMargins:
    """What is left when a pair runs through a frog.

    Parameters
    ----------
    back_to_back : float
        Back to back [m].
    left_flange, right_flange : float
        Thickness of each flange at the gauge line [m].
    guard_check : float
        From the guarding face of the guard rail to the gauge line of the frog, as measured [m].
    guard_face : float
        From the guarding face of the guard rail to that of the frog's wing, as measured [m].

    Returns
    -------
    FrogMargins
        Guard check less the wider wheel check: negative, and a flange can strike the point. Back to back less
        guard face: negative, and the pair binds between guard rail and wing [m].

    Raises
    ------
    ValueError
        If a measure is not above zero.

    Notes
    -----
    The thicker flange decides, since either wheel may run on the frog's side. Wear of the flange backs and
    the load's bending of the axle are the caller's to add.

    Examples
    --------
    >>> margins = frog_margins(1.357, 0.029, 0.030, guard_check=1.391, guard_face=1.353)
    >>> round(margins.guard_check, 6), round(margins.guard_face, 6)
    (0.004, 0.004)

    References
    ----------
    Derived here: the guard rail holds the near wheel by its back, so the far flange's face stands one wheel
    check away from it and must not pass the gauge line; and both backs must straddle the two guarding faces.
    """
    widest = max(wheel_check(back_to_back, left_flange), wheel_check(back_to_back, right_flange))
    return FrogMargins(
        guard_check=positive("guard_check", guard_check) - widest,
        guard_face=back_to_back - positive("guard_face", guard_face),
    )


def register_pull_off(
    width: float,
    grip_temperature_drop: float,
    expansion: float,
    *,
    pressure: float,
    seat_radius: float,
    tread_radius: float,
    modulus: float,
    poisson: float,
    share: float = 1.0,
) -> float:
    """How far a tire may draw off its register after it has gripped.

    Parameters
    ----------
    width : float
        Width of the tire between register and far edge of the grip [m].
    grip_temperature_drop : float
        Temperature at which it grips less that at which it is cold, a DIFFERENCE [K].
    expansion : float
        Coefficient of expansion [1/K].
    pressure : float
        Contact pressure when cold [Pa].
    seat_radius, tread_radius : float
        Radii of bore and tread [m].
    modulus : float
        Young's modulus of the tire [Pa].
    poisson : float
        Poisson ratio of the tire [1].
    share : float
        Seat width / tire width [1].

    Returns
    -------
    float
        At most this much, when the far edge grips first and holds [m].

    Raises
    ------
    ValueError
        If a measure is not above zero, the radii are out of order, or a drop or pressure is negative.

    Notes
    -----
    A bound, not a forecast: clamps until cold, and feelers at three or more places, tell what it did.

    Examples
    --------
    >>> pull = register_pull_off(0.14, 90.0, 11.7e-6, pressure=20e6, seat_radius=0.7112,
    ...     tread_radius=0.8001, modulus=205e9, poisson=0.29)
    >>> round(pull * 1e3, 3)
    0.177

    References
    ----------
    Derived here: cooling shortens the tire by w alpha dT; the hoop tension by w nu (s_r + s_h) / E, and
    s_r + s_h = 2 p b2 / (c2 - b2) at every radius (Lame).
    """
    smaller("seat_radius", positive("seat_radius", seat_radius), "tread_radius", tread_radius)
    cooling = not_negative("expansion", expansion) * not_negative(
        "grip_temperature_drop", grip_temperature_drop
    )
    load = not_negative("pressure", pressure) * width_share(share)
    wall = (tread_radius - seat_radius) * (tread_radius + seat_radius)
    sum_of_stresses = 2.0 * load * seat_radius**2 / wall
    squeeze = poisson_ratio("poisson", poisson) * sum_of_stresses / positive("modulus", modulus)
    return positive("width", width) * (cooling + squeeze)


def variation(readings: Sequence[float]) -> float:
    """Largest less smallest of readings taken round an axle, or across a set.

    Parameters
    ----------
    readings : sequence of float
        Two or more: back to back at marked places, or tread diameters of wheels that must match [m].

    Returns
    -------
    float
        Difference, not negative [m].

    Raises
    ------
    ValueError
        If there are fewer than two, or one is not finite.

    Examples
    --------
    >>> round(variation([1.3570, 1.3573, 1.3571]), 6)
    0.0003

    References
    ----------
    Definition.
    """
    given = finite_values("readings", readings, 2)
    return max(given) - min(given)


def mismatch(left_diameter: float, right_diameter: float) -> float:
    """Tread diameter of the left wheel less that of the right.

    Parameters
    ----------
    left_diameter, right_diameter : float
        Tread diameters [m].

    Returns
    -------
    float
        Positive when the left is larger [m].

    Raises
    ------
    ValueError
        If a diameter is not above zero.

    Examples
    --------
    >>> round(mismatch(1.2954, 1.2950), 6)
    0.0004

    References
    ----------
    Definition.
    """
    return positive("left_diameter", left_diameter) - positive("right_diameter", right_diameter)


def off_center(left_to_datum: float, right_to_datum: float) -> float:
    """How far a pair stands off the middle of its axle.

    Parameters
    ----------
    left_to_datum, right_to_datum : float
        From each flange back to the same kind of datum on its own side of the axle [m].

    Returns
    -------
    float
        Positive when the pair stands too far to the right [m].

    Raises
    ------
    ValueError
        If a distance is not finite.

    Notes
    -----
    Distances counted outward from flange back to datum.

    Examples
    --------
    >>> round(off_center(0.102, 0.100), 6)
    0.001

    References
    ----------
    Derived here: half the difference.
    """
    return (finite("left_to_datum", left_to_datum) - finite("right_to_datum", right_to_datum)) / 2.0
