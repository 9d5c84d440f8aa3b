"""Guards for the arguments of a formula.

A formula that is handed an impossible measurement must not answer at all: a negative width or a NaN
gives a number that looks like any other. Each guard gives back the value as a float, or raises a
ValueError whose sentence names the argument, so that the caller can name the reading.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

LARGEST, SMALLEST = 1e40, 1e-40
"""No measure of ours is larger, or above zero and smaller; fourth powers stay within a double [SI]."""


def finite(name: str, value: float) -> float:
    """The value as a float, when it is a number, not infinite and not absurdly large.

    Parameters
    ----------
    name : str
        What the argument is called.
    value : float
        One value [any unit].

    Returns
    -------
    float
        The same value [same unit].

    Raises
    ------
    ValueError
        If the value is NaN, infinite, or beyond 1e40 either way.

    Examples
    --------
    >>> finite("width", 0.14)
    0.14

    References
    ----------
    None: a guard, which states no fact of its own.
    """
    number = float(value)
    if -LARGEST <= number <= LARGEST:  # not a number is not
        return number
    if not math.isfinite(number):
        raise ValueError(f"{name} must be a finite number, not {number}.")
    raise ValueError(f"{name} is far too large to be a measure: {number}.")


def positive(name: str, value: float) -> float:
    """The value as a float, when it is above zero.

    Parameters
    ----------
    name : str
        What the argument is called.
    value : float
        One value [any unit].

    Returns
    -------
    float
        The same value [same unit].

    Raises
    ------
    ValueError
        If the value is zero, negative, NaN or infinite, or below 1e-40.

    Examples
    --------
    >>> positive("modulus", 0.0)
    Traceback (most recent call last):
    ValueError: modulus must be above zero, not 0.0.

    References
    ----------
    None: a guard, which states no fact of its own.
    """
    number = float(value)
    if SMALLEST <= number <= LARGEST:  # nearly always
        return number
    if finite(name, number) <= 0.0:
        raise ValueError(f"{name} must be above zero, not {number}.")
    raise ValueError(f"{name} is far too small to be a measure: {number}.")


def not_negative(name: str, value: float) -> float:
    """The value as a float, when it is zero or above.

    Parameters
    ----------
    name : str
        What the argument is called.
    value : float
        One value [any unit].

    Returns
    -------
    float
        The same value [same unit].

    Raises
    ------
    ValueError
        If the value is negative, NaN or infinite.

    Examples
    --------
    >>> not_negative("clearance", 0.0)
    0.0

    References
    ----------
    None: a guard, which states no fact of its own.
    """
    number = float(value)
    if 0.0 <= number <= LARGEST:  # nearly always
        return number
    raise ValueError(f"{name} must not be negative, but is {finite(name, number)}.")


def between(name: str, value: float, low: float, high: float) -> float:
    """The value as a float, when it lies between two ends, both allowed.

    Parameters
    ----------
    name : str
        What the argument is called.
    value, low, high : float
        One value and the two ends [any unit, the same].

    Returns
    -------
    float
        The same value [same unit].

    Raises
    ------
    ValueError
        If the value lies outside the ends, or is NaN.

    Examples
    --------
    >>> between("share", 0.9, 0.0, 1.0)
    0.9

    References
    ----------
    None: a guard, which states no fact of its own.
    """
    number = finite(name, value)
    if not low <= number <= high:
        raise ValueError(f"{name} must lie from {low} to {high}, but is {number}.")
    return number


def smaller(name: str, value: float, larger_name: str, larger: float) -> float:
    """The value as a float, when it is below another one.

    Parameters
    ----------
    name, larger_name : str
        What the two arguments are called.
    value, larger : float
        The value, and the one it must stay below [any unit, the same].

    Returns
    -------
    float
        The smaller value [same unit].

    Raises
    ------
    ValueError
        If the value is equal to the other or above it, or either is NaN or infinite.

    Examples
    --------
    >>> smaller("bore_radius", 0.72, "tread_radius", 0.70)
    Traceback (most recent call last):
    ValueError: bore_radius must be below tread_radius, but 0.72 is not below 0.7.

    References
    ----------
    None: a guard, which states no fact of its own.
    """
    number = finite(name, value)
    if not number < finite(larger_name, larger):
        raise ValueError(f"{name} must be below {larger_name}, but {number} is not below {float(larger)}.")
    return number


def above_absolute_zero(name: str, kelvin: float) -> float:
    """The absolute temperature as a float, when it is possible.

    Parameters
    ----------
    name : str
        What the argument is called.
    kelvin : float
        An absolute temperature, not a difference [K].

    Returns
    -------
    float
        The same temperature [K].

    Raises
    ------
    ValueError
        If the temperature is not above absolute zero, or is NaN or infinite.

    Examples
    --------
    >>> above_absolute_zero("tire_temperature", 293.15)
    293.15

    References
    ----------
    None: a guard, which states no fact of its own.
    """
    number = float(kelvin)
    if 0.0 < number <= LARGEST:  # nearly always
        return number
    raise ValueError(f"{name} must be above absolute zero, but is {finite(name, number)} K.")


def finite_values(name: str, values: Iterable[float], least: int) -> tuple[float, ...]:
    """The values as floats, when there are enough of them and each is finite.

    Parameters
    ----------
    name : str
        What the argument is called.
    values : iterable of float
        The values [any unit].
    least : int
        How many there must be.

    Returns
    -------
    tuple of float
        The same values [same unit].

    Raises
    ------
    ValueError
        If there are fewer, or one is NaN or infinite.

    Examples
    --------
    >>> finite_values("diameters", [1.0, 2], 2)
    (1.0, 2.0)

    References
    ----------
    None: a guard, which states no fact of its own.
    """
    numbers = tuple(map(float, values))
    for place, number in enumerate(numbers):
        if not -LARGEST <= number <= LARGEST:
            finite(f"{name}[{place}]", number)
    if len(numbers) < least:
        raise ValueError(f"{name} must hold {least} or more values, but holds {len(numbers)}.")
    return numbers


def same_length(name: str, values: Sequence[float], other_name: str, others: Sequence[float]) -> None:
    """Nothing, when the two sequences have the same length.

    Parameters
    ----------
    name, other_name : str
        What the two arguments are called.
    values, others : sequence of float
        The two sequences [any unit].

    Returns
    -------
    None

    Raises
    ------
    ValueError
        If their lengths differ.

    Examples
    --------
    >>> same_length("angles", (0.0, 1.0), "radii", (0.7, 0.7))

    References
    ----------
    None: a guard, which states no fact of its own.
    """
    if len(values) != len(others):
        raise ValueError(
            f"{name} and {other_name} must have the same length, but have {len(values)} and {len(others)}."
        )


def poisson_ratio(name: str, value: float) -> float:
    """The Poisson ratio as a float, when it is that of a metal.

    Parameters
    ----------
    name : str
        What the argument is called.
    value : float
        One value [1].

    Returns
    -------
    float
        The same value [1].

    Raises
    ------
    ValueError
        If it does not lie from 0 to 0.5.

    Examples
    --------
    >>> poisson_ratio("tire_poisson", 0.29)
    0.29

    References
    ----------
    None: a guard, which states no fact of its own.
    """
    return between(name, value, 0.0, 0.5)


def width_share(share: float) -> float:
    """The share of the width as a float, when it lies above 0 and up to 1.

    Parameters
    ----------
    share : float
        Seat width / tire width [1].

    Returns
    -------
    float
        The same value [1].

    Raises
    ------
    ValueError
        If it is not above 0, or above 1.

    Examples
    --------
    >>> width_share(1.0)
    1.0

    References
    ----------
    None: a guard, which states no fact of its own.
    """
    return between("share", positive("share", share), 0.0, 1.0)
