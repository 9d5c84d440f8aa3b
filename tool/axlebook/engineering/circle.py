"""The least-squares circle through points or radii, and the roundness about it.

Geometric: the sum of the squared distances from the circle itself is least, also where the points cover
only a part of it. The radius that belongs to a middle is the mean distance from it, which leaves two
unknowns; they are found by Gauss-Newton steps, damped (Levenberg and Marquardt) because an undamped one
runs away on a short arc.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from axlebook.engineering._given import finite_values, positive, same_length

_STEPS = 500
_FLATTEST = 1.0e6


class Circle(NamedTuple):
    """A circle fitted to points: its middle, its radius and the rms distance from it [m]."""

    x: float
    y: float
    radius: float
    residual: float


def least_squares_circle(xs: Sequence[float], ys: Sequence[float]) -> Circle:
    """The circle that the points lie nearest to.

    Parameters
    ----------
    xs, ys : sequence of float
        Coordinates of three or more points [m].

    Returns
    -------
    Circle
        Middle, radius and rms distance of the points from the circle [m].

    Raises
    ------
    ValueError
        If there are fewer than three points, their numbers differ, a value is not finite, or the points lie
        on a straight line or on one spot.

    Notes
    -----
    On a short arc the radius is poorly known however good the fit: its uncertainty grows with the inverse
    square of the arc.

    Examples
    --------
    >>> fit = least_squares_circle([1.0, 2.0, 5.0, 7.0, 9.0, 3.0], [7.0, 6.0, 8.0, 7.0, 5.0, 7.0])
    >>> round(fit.x, 4), round(fit.y, 4), round(fit.radius, 4)
    (4.7398, 2.9835, 4.7142)

    References
    ----------
    Gander, Golub & Strebel, BIT 34 (1994); the elimination of the radius is derived here.
    """
    points_x, points_y = finite_values("xs", xs, 3), finite_values("ys", ys, 3)
    same_length("xs", points_x, "ys", points_y)
    middle_x, middle_y = _mean(points_x), _mean(points_y)
    us, vs = [x - middle_x for x in points_x], [y - middle_y for y in points_y]
    scale = math.sqrt(_mean([u * u + v * v for u, v in zip(us, vs, strict=True)]))
    if scale <= 1e-12 * max(1.0, abs(middle_x), abs(middle_y)):
        raise ValueError("xs and ys must not all be one spot.")
    us, vs = [u / scale for u in us], [v / scale for v in vs]
    u, v = _settled(us, vs, _linear_middle(us, vs))
    distances = [math.hypot(a - u, b - v) for a, b in zip(us, vs, strict=True)]
    radius = _mean(distances)
    if radius > _FLATTEST:
        raise _straight()
    residual = math.sqrt(_mean([(distance - radius) ** 2 for distance in distances]))
    return Circle(middle_x + scale * u, middle_y + scale * v, scale * radius, scale * residual)


def _straight() -> ValueError:
    return ValueError("xs and ys must not lie on a straight line.")


def _mean(values: Sequence[float]) -> float:
    return math.fsum(values) / len(values)


def _linear_middle(us: Sequence[float], vs: Sequence[float]) -> tuple[float, float]:
    """The middle of the circle of least squared POWER (Kasa): a start, biased inward on an arc."""
    uu, vv = math.fsum(u * u for u in us), math.fsum(v * v for v in vs)
    uv = math.fsum(u * v for u, v in zip(us, vs, strict=True))
    squares = [u * u + v * v for u, v in zip(us, vs, strict=True)]
    right_u = math.fsum(u * s for u, s in zip(us, squares, strict=True)) / 2.0
    right_v = math.fsum(v * s for v, s in zip(vs, squares, strict=True)) / 2.0
    determinant = uu * vv - uv * uv
    if determinant <= 1e-14 * (uu + vv) ** 2:
        raise _straight()
    return (right_u * vv - right_v * uv) / determinant, (right_v * uu - right_u * uv) / determinant


def _settled(us: Sequence[float], vs: Sequence[float], start: tuple[float, float]) -> tuple[float, float]:
    """The middle with the least sum of squared distances from its own mean circle."""
    (u, v), damping, best = start, 1e-3, _misfit(us, vs, *start)
    for _ in range(_STEPS):
        step_u, step_v = _step(us, vs, u, v, damping)
        tried = _misfit(us, vs, u + step_u, v + step_v)
        if tried <= best:
            u, v, best, damping = u + step_u, v + step_v, tried, damping / 10.0
            if math.hypot(step_u, step_v) <= 1e-14 * (1.0 + math.hypot(u, v)):
                break
        elif damping > 1e12:
            break
        else:
            damping *= 10.0
    return u, v


def _misfit(us: Sequence[float], vs: Sequence[float], u: float, v: float) -> float:
    """Sum of the squared departures from the mean distance."""
    distances = [math.hypot(a - u, b - v) for a, b in zip(us, vs, strict=True)]
    radius = _mean(distances)
    return math.fsum((distance - radius) ** 2 for distance in distances)


def _step(us: Sequence[float], vs: Sequence[float], u: float, v: float, damping: float) -> tuple[float, float]:
    """One damped Gauss-Newton step of the middle."""
    distances = [math.hypot(a - u, b - v) or 1e-300 for a, b in zip(us, vs, strict=True)]
    toward_u = [(a - u) / d for a, d in zip(us, distances, strict=True)]
    toward_v = [(b - v) / d for b, d in zip(vs, distances, strict=True)]
    mean_u, mean_v = _mean(toward_u), _mean(toward_v)
    lean_u, lean_v = [a - mean_u for a in toward_u], [b - mean_v for b in toward_v]
    uu, vv = (math.fsum(a * a for a in lean) * (1.0 + damping) for lean in (lean_u, lean_v))
    uv = math.fsum(a * b for a, b in zip(lean_u, lean_v, strict=True))
    # the mean distance drops out of a product with what sums to nothing
    pull_u = math.fsum(a * d for a, d in zip(lean_u, distances, strict=True))
    pull_v = math.fsum(b * d for b, d in zip(lean_v, distances, strict=True))
    determinant = uu * vv - uv * uv
    if determinant <= 0.0:
        return 0.0, 0.0
    return (pull_u * vv - pull_v * uv) / determinant, (pull_v * uu - pull_u * uv) / determinant


def circle_through_radii(angles: Sequence[float], radii: Sequence[float]) -> Circle:
    """The least-squares circle through radii read from one axis.

    Parameters
    ----------
    angles : sequence of float
        Angle of each radius, three or more [rad].
    radii : sequence of float
        One radius for each angle [m].

    Returns
    -------
    Circle
        Its middle, seen from that axis, its radius and the rms distance [m].

    Raises
    ------
    ValueError
        As `least_squares_circle`, or if a radius is not above zero.

    Examples
    --------
    >>> quarter = math.pi / 2.0
    >>> fit = circle_through_radii([0.0, quarter, 2 * quarter, 3 * quarter], [0.7, 0.7, 0.7, 0.7])
    >>> round(fit.radius, 6)
    0.7

    References
    ----------
    As `least_squares_circle`.
    """
    same_length("angles", angles, "radii", radii)
    given = [positive(f"radii[{place}]", value) for place, value in enumerate(radii)]
    turned = list(zip(finite_values("angles", angles, 3), given, strict=True))
    return least_squares_circle(
        [radius * math.cos(angle) for angle, radius in turned],
        [radius * math.sin(angle) for angle, radius in turned],
    )


def roundness(angles: Sequence[float], radii: Sequence[float]) -> float:
    """Largest less smallest distance from the middle of the least-squares circle.

    Parameters
    ----------
    angles : sequence of float
        Angle of each radius, three or more [rad].
    radii : sequence of float
        One radius for each angle, read from one axis [m].

    Returns
    -------
    float
        Difference on RADIUS, not negative; the axis need not be the middle [m].

    Raises
    ------
    ValueError
        As `circle_through_radii`.

    Notes
    -----
    Sees odd lobes, which two-point diameters do not.

    Examples
    --------
    >>> lobes = [0.7 + 0.0001 * math.cos(3.0 * k * math.pi / 6.0) for k in range(12)]
    >>> round(roundness([k * math.pi / 6.0 for k in range(12)], lobes), 6)
    0.0002

    References
    ----------
    ISO 12181-1 (least squares reference circle), from memory.
    """
    fit = circle_through_radii(angles, radii)
    distances = [
        math.hypot(radius * math.cos(angle) - fit.x, radius * math.sin(angle) - fit.y)
        for angle, radius in zip(angles, radii, strict=True)
    ]
    return max(distances) - min(distances)
