"""Which slip a doubtful reading most likely is: every explanation is weighed, one is named.

An explanation says what the reading would have been without the slip. Its weight is how common the slip is, shared
among all readings that it could have come from, times how well what was meant lies where it was expected. What no
explanation fits stays a plain jump, which could have ended anywhere.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

# How common the slips are among themselves: judgement of people who read such books, not a measurement.
COMMON = {
    "mm-for-inches": 0.25,
    "sides-swapped": 0.25,
    "wrong-wheel": 0.20,
    "digits-transposed": 0.20,
    "fraction-lost": 0.20,
    "one-turn-out": 0.20,
    "hot-reading": 0.10,
    "method-changed": 5.00,
}
PLAIN = 0.15
TAIL = 4.0  # degrees of freedom


class Explanation(NamedTuple):
    """A slip, and what was meant: one value for each doubtful value. `width` where it could have been any size."""

    kind: str
    meant: tuple[float, ...]
    among: float = 1.0  # how many like it could be thought of
    says: str = ""  # what was meant, or whose it is, in words
    width: float = 0.0  # span of the sizes that the slip may have; meant values then lie where they were expected
    exchanged: bool = False  # with another reading of the same record


class Slip(NamedTuple):
    """The likeliest slip; `of` is None where it is a plain jump."""

    kind: str
    of: Explanation | None


def name_slip(
    values: Sequence[float],
    expected: Sequence[float],
    spreads: Sequence[float],
    explanations: Iterable[Explanation],
    plain: str,
    weight_of_plain: float = PLAIN,
) -> Slip:
    """The likeliest slip that made `values` of what was expected.

    >>> turn = Explanation("one-turn-out", (53.243,), 2)
    >>> name_slip([53.268], [53.2435], [0.001], [turn], "jump").kind
    'one-turn-out'
    >>> name_slip([53.290], [53.2435], [0.001], [turn._replace(meant=(53.265,))], "jump").kind
    'jump'
    """
    jump = math.fsum(v - e for v, e in zip(values, expected, strict=True)) / len(values)
    narrow = math.sqrt(2 * math.pi / math.fsum(1 / s**2 for s in spreads))  # how sharply the size of a jump is known
    left = [v - jump for v in values]
    sized = math.log(narrow / max(2 * abs(jump), narrow))
    best, name = math.log(weight_of_plain) + _fits(left, expected, spreads) + sized, Slip(plain, None)
    for one in explanations:
        weight = math.log(COMMON[one.kind] / one.among)
        if one.width:
            weight += math.log(min(narrow / one.width, 1.0)) + _fits(left, expected, spreads)
        else:
            weight += _fits(one.meant, expected, spreads)
        if weight > best:
            best, name = weight, Slip(one.kind, one)
    return name


def _fits(meant: Sequence[float], expected: Sequence[float], spreads: Sequence[float]) -> float:
    """Logarithm of how well values lie where they were expected: Student's t, since hands have longer tails."""
    squares = (((m - e) / s) ** 2 for m, e, s in zip(meant, expected, spreads, strict=True))
    return -(TAIL + 1) / 2 * math.fsum(math.log1p(square / TAIL) for square in squares)
