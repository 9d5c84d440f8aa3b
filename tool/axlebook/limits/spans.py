"""A value as far as it is known, and one word and figure it is held against."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple


class Span(NamedTuple):
    """What is known of a value: low and high bounds, exact, None where open. A point has both alike.

    `left_out`: its one bound is not among the values it may have, as in `under 1 3/8 in`.
    """

    low: Fraction | None
    high: Fraction | None
    left_out: bool = False

    def widened(self, by: Fraction) -> Span:
        """The span with `by` added on both sides."""
        low = None if self.low is None else self.low - by
        high = None if self.high is None else self.high + by
        return Span(low, high, self.left_out)


def point(value: Fraction) -> Span:
    """The span of a value known exactly."""
    return Span(value, value)


SEEN, NOT_SEEN = point(Fraction(1)), point(Fraction(0))  # an observation, as a value to judge


class Bound(NamedTuple):
    """One word and figure of a condition: `under 53 in`. `value` None: the figure comes from the limit's table."""

    word: str  # under, at_most, over, at_least
    value: Fraction | None
    text: str

    def holds(self, span: Span, value: Fraction) -> bool | None:
        """Whether the span lies wholly in the bound (True), wholly out of it (False), or neither (None)."""
        low, high = _apart(span.low, value), _apart(span.high, value)
        beside = span.left_out  # on the figure, its bound is still no value that it may have
        match self.word:
            case "under":
                return _decided(_below(high, beside), _above(low, True))
            case "at_most":
                return _decided(_below(high, True), _above(low, beside))
            case "over":
                return _decided(_above(low, beside), _below(high, True))
            case "at_least":
                return _decided(_above(low, True), _below(high, beside))
        raise ValueError(f"no such comparison: {self.word}")


def _apart(end: Fraction | None, value: Fraction) -> int | None:
    """Which way an end lies from a figure, by one difference of whole numbers: below, on it or above."""
    return None if end is None else end.numerator * value.denominator - value.numerator * end.denominator


def _below(apart: int | None, on_it: bool) -> bool:
    return apart is not None and (apart <= 0 if on_it else apart < 0)


def _above(apart: int | None, on_it: bool) -> bool:
    return apart is not None and (apart >= 0 if on_it else apart > 0)


def _decided(inside: bool, outside: bool) -> bool | None:
    return True if inside else False if outside else None
