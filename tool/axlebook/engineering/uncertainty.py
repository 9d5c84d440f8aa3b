"""Uncertainty of a reading, of a fit, and what may be decided with it.

Nomenclature: y value, u standard uncertainty, U expanded uncertainty, k coverage factor, s standard
deviation, n number of readings, c sensitivity, r correlation, g guard band.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

from axlebook.engineering._given import (
    between,
    finite,
    finite_values,
    not_negative,
    positive,
    same_length,
)

Decision = Literal["within", "outside", "undecided"]

ONE_SIDED_95 = 1.645
"""Guard band in standard uncertainties: one chance in twenty of a wrong decision [1]."""


def repeat_uncertainty(readings: Sequence[float]) -> float:
    """Standard uncertainty of the mean of repeated readings.

    Parameters
    ----------
    readings : sequence of float
        Two or more readings of the same thing [any unit].

    Returns
    -------
    float
        s / sqrt(n), with n - 1 degrees of freedom [same unit].

    Raises
    ------
    ValueError
        If there are fewer than two, or one is not finite.

    Examples
    --------
    >>> repeat_uncertainty([1.0, 2.0, 3.0, 4.0, 5.0]) == (2.5 / 5.0) ** 0.5
    True

    References
    ----------
    JCGM 100:2008, 4.2.3 equation (5).
    """
    given = finite_values("readings", readings, 2)
    mean = math.fsum(given) / len(given)
    return math.sqrt(math.fsum((value - mean) ** 2 for value in given) / (len(given) - 1) / len(given))


def rectangular_uncertainty(half_width: float) -> float:
    """Standard uncertainty of a value that lies anywhere between two bounds.

    Parameters
    ----------
    half_width : float
        Half the distance between the bounds [any unit].

    Returns
    -------
    float
        Half width / sqrt(3) [same unit].

    Raises
    ------
    ValueError
        If the half width is negative.

    Examples
    --------
    >>> round(rectangular_uncertainty(15.0), 3)
    8.66

    References
    ----------
    JCGM 100:2008, 4.3.7 equation (7).
    """
    return not_negative("half_width", half_width) / math.sqrt(3.0)


def resolution_uncertainty(resolution: float) -> float:
    """Standard uncertainty from reading to the nearest division.

    Parameters
    ----------
    resolution : float
        Smallest step that was read [any unit].

    Returns
    -------
    float
        Resolution / sqrt(12) [same unit].

    Raises
    ------
    ValueError
        If the resolution is negative.

    Examples
    --------
    >>> round(resolution_uncertainty(1.0), 4)
    0.2887

    References
    ----------
    JCGM 100:2008, F.2.2.1.
    """
    return rectangular_uncertainty(not_negative("resolution", resolution) / 2.0)


def instrument_uncertainty(expanded: float, coverage: float) -> float:
    """Standard uncertainty of an instrument from its certificate.

    Parameters
    ----------
    expanded : float
        Expanded uncertainty U on the certificate [any unit].
    coverage : float
        Coverage factor k stated with it [1].

    Returns
    -------
    float
        U / k [same unit].

    Raises
    ------
    ValueError
        If U is negative or k is not above zero.

    Examples
    --------
    >>> instrument_uncertainty(45.0, 2.0)
    22.5

    References
    ----------
    JCGM 100:2008, 4.3.3.
    """
    return not_negative("expanded", expanded) / positive("coverage", coverage)


def combined_standard_uncertainty(
    uncertainties: Sequence[float],
    sensitivities: Sequence[float] | None = None,
    correlation: Sequence[Sequence[float]] | None = None,
) -> float:
    """Standard uncertainty of a result from those of its inputs.

    Parameters
    ----------
    uncertainties : sequence of float
        Standard uncertainty of each input, one or more [each its own unit].
    sensitivities : sequence of float or None
        How much the result moves for each unit of each input; None means 1 for all.
    correlation : sequence of sequences of float or None
        Correlation of every input with every other, symmetric, ones on the diagonal; None means none.

    Returns
    -------
    float
        Standard uncertainty of the result, not negative [unit of the result].

    Raises
    ------
    ValueError
        If an uncertainty is negative, the lengths differ, or the correlations cannot be.

    Notes
    -----
    First order. Two inputs with correlation 1 add up, or cancel when their sensitivities differ in sign.

    Examples
    --------
    >>> combined_standard_uncertainty([3.0, 4.0])
    5.0
    >>> combined_standard_uncertainty([3.0, 3.0], [1.0, -1.0], [[1.0, 1.0], [1.0, 1.0]])
    0.0

    References
    ----------
    JCGM 100:2008, 5.1.2 equation (10) and 5.2.2 equation (16).
    """
    given = [not_negative(f"uncertainties[{place}]", value) for place, value in enumerate(uncertainties)]
    finite_values("uncertainties", given, 1)
    factors = finite_values(
        "sensitivities", [1.0] * len(given) if sensitivities is None else sensitivities, 1
    )
    same_length("uncertainties", given, "sensitivities", factors)
    moves = [factor * value for factor, value in zip(factors, given, strict=True)]
    if correlation is None:
        return math.hypot(*moves)
    _require_correlation(correlation, len(moves))
    places = range(len(moves))
    variance = math.fsum(moves[i] * moves[j] * correlation[i][j] for i in places for j in places)
    if variance < -1e-12 * math.fsum(move * move for move in moves):
        raise ValueError("correlation must leave no negative variance.")
    return math.sqrt(max(0.0, variance))


def _require_correlation(correlation: Sequence[Sequence[float]], count: int) -> None:
    """Refuse a matrix that is not one of correlations."""
    if len(correlation) != count or any(len(row) != count for row in correlation):
        raise ValueError(f"correlation must have {count} rows of {count} values.")
    for i, row in enumerate(correlation):
        for j, value in enumerate(row):
            between(f"correlation[{i}][{j}]", value, -1.0, 1.0)
            if value != correlation[j][i] or (i == j and value != 1.0):
                raise ValueError("correlation must be symmetric with ones on its diagonal.")


def effective_degrees_of_freedom(contributions: Sequence[float], freedoms: Sequence[float]) -> float:
    """How many degrees of freedom a combined uncertainty is worth.

    Parameters
    ----------
    contributions : sequence of float
        Sensitivity times standard uncertainty of each input, one or more [unit of the result].
    freedoms : sequence of float
        Degrees of freedom of each; infinite where the uncertainty itself is taken as exact [1].

    Returns
    -------
    float
        Degrees of freedom, infinite when all are [1].

    Raises
    ------
    ValueError
        If the lengths differ, a value is NaN, or a number of degrees is not above zero.

    Notes
    -----
    For inputs that are independent. Cut to a whole number before a table of t is entered.

    Examples
    --------
    >>> effective_degrees_of_freedom([1.0, 1.0], [10.0, 10.0])
    20.0

    References
    ----------
    JCGM 100:2008, G.4.1 equation (G.2b), Welch and Satterthwaite.
    """
    given = finite_values("contributions", contributions, 1)
    same_length("contributions", given, "freedoms", freedoms)
    if not all(freedom > 0.0 for freedom in freedoms):
        raise ValueError("freedoms must each be above zero.")
    share = math.fsum(move**4 / freedom for move, freedom in zip(given, freedoms, strict=True))
    return math.inf if share == 0.0 else math.fsum(move**2 for move in given) ** 2 / share


def interference_temperature_uncertainty(
    center_diameter: float,
    bore_diameter: float,
    *,
    center_offset: float,
    bore_offset: float,
    expansion: float,
    expansion_uncertainty: float,
    center_temperature_uncertainty: float,
    bore_temperature_uncertainty: float,
) -> float:
    """Standard uncertainty of an interference from temperatures and expansion.

    Parameters
    ----------
    center_diameter, bore_diameter : float
        The two diameters [m].
    center_offset, bore_offset : float
        Temperature of each part less 20 degC, a DIFFERENCE [K].
    expansion : float
        Coefficient of expansion, the SAME for both parts [1/K].
    expansion_uncertainty : float
        Its standard uncertainty, shared by both parts [1/K].
    center_temperature_uncertainty, bore_temperature_uncertainty : float
        Standard uncertainties of the two temperatures, independent [K].

    Returns
    -------
    float
        Standard uncertainty on diameter [m].

    Raises
    ------
    ValueError
        If a diameter is not above zero, an uncertainty negative, or an offset not finite.

    Notes
    -----
    For instruments that read true length. Because the coefficient is shared, its error cancels when both
    parts stand at one temperature, however far from 20 degC; treating the two as independent would not.

    Examples
    --------
    >>> same = dict(expansion=11.7e-6, expansion_uncertainty=0.6e-6)
    >>> near = dict(center_temperature_uncertainty=0.0, bore_temperature_uncertainty=0.0)
    >>> cold = interference_temperature_uncertainty(
    ...     1.4224, 1.4224, center_offset=-15.0, bore_offset=-15.0, **same, **near)
    >>> cold
    0.0

    References
    ----------
    JCGM 100:2008, 5.2 and F.1.2.3; derived here: delta = D_c (1 - alpha th_c) - D_b (1 - alpha th_b), so
    d delta / d alpha = D_b th_b - D_c th_c and d delta / d th = -+ alpha D.
    """
    center, bore = positive("center_diameter", center_diameter), positive("bore_diameter", bore_diameter)
    shared = bore * finite("bore_offset", bore_offset) - center * finite("center_offset", center_offset)
    rate = not_negative("expansion", expansion)
    return combined_standard_uncertainty(
        [expansion_uncertainty, center_temperature_uncertainty, bore_temperature_uncertainty],
        [shared, rate * center, rate * bore],
    )


def guard_banded_decision(
    value: float,
    uncertainty: float,
    *,
    lower: float | None = None,
    upper: float | None = None,
    guard: float = ONE_SIDED_95,
) -> Decision:
    """What may be said of a reading against its limits, its uncertainty counted.

    Parameters
    ----------
    value : float
        The reading [any unit].
    uncertainty : float
        Its standard uncertainty [same unit].
    lower, upper : float or None
        The limits; None where there is none, but not both [same unit].
    guard : float
        Guard band in standard uncertainties [1].

    Returns
    -------
    str
        "within" when it stays inside every limit by the guard band or more, "outside" when it is beyond one
        by more than that, else "undecided".

    Raises
    ------
    ValueError
        If there is no limit, they are out of order, or an uncertainty or guard is negative.

    Notes
    -----
    With no uncertainty a reading exactly on a limit is within. Written limits are compared exactly, as
    rationals, elsewhere; this works in floats.

    Examples
    --------
    >>> guard_banded_decision(10.0, 0.1, upper=10.2)
    'within'
    >>> guard_banded_decision(10.1, 0.1, upper=10.2)
    'undecided'

    References
    ----------
    JCGM 106:2012, 8.3 (guard bands); 1.645 is a one-sided 95 percent.
    """
    low, high = _limits(lower, upper)
    reading = finite("value", value)
    band = not_negative("guard", guard) * not_negative("uncertainty", uncertainty)
    if reading < low - band or reading > high + band:
        return "outside"
    return "within" if low + band <= reading <= high - band else "undecided"


def _limits(lower: float | None, upper: float | None) -> tuple[float, float]:
    """The two limits, infinite where there is none."""
    if lower is None and upper is None:
        raise ValueError("lower or upper must be given.")
    low = -math.inf if lower is None else finite("lower", lower)
    high = math.inf if upper is None else finite("upper", upper)
    if low > high:
        raise ValueError(f"lower must not be above upper, but {low} is above {high}.")
    return low, high


def conformance_probability(
    value: float, uncertainty: float, *, lower: float | None = None, upper: float | None = None
) -> float:
    """Chance that the true value lies within the limits.

    Parameters
    ----------
    value : float
        The reading [any unit].
    uncertainty : float
        Its standard uncertainty, above zero [same unit].
    lower, upper : float or None
        The limits; None where there is none, but not both [same unit].

    Returns
    -------
    float
        From 0 to 1 [1].

    Raises
    ------
    ValueError
        If there is no limit, they are out of order, or the uncertainty is not above zero.

    Notes
    -----
    Normal distribution, nothing known beforehand of the true value.

    Examples
    --------
    >>> round(conformance_probability(0.0, 1.0, upper=1.645), 3)
    0.95

    References
    ----------
    JCGM 106:2012, 7.3 and 7.4.
    """
    low, high = _limits(lower, upper)
    reach = positive("uncertainty", uncertainty) * math.sqrt(2.0)
    reading = finite("value", value)
    below_high, below_low = math.erf((high - reading) / reach), math.erf((low - reading) / reach)
    return (below_high - below_low) / 2.0
