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
        low, high, beside = span  # `beside`: on the figure, its bound is still no value that it may have
        if low is not None and low is high and not beside:
            return self._past(low, value)
        match self.word:
            case "under":
                return _decided(_below(high, value, beside), _above(low, value, True))
            case "at_most":
                return _decided(_below(high, value, True), _above(low, value, beside))
            case "over":
                return _decided(_above(low, value, beside), _below(high, value, True))
            case "at_least":
                return _decided(_above(low, value, True), _below(high, value, beside))
        raise ValueError(f"no such comparison: {self.word}")

    def _past(self, known: Fraction, value: Fraction) -> bool:
        """The same of a value known exactly, which most are: by one difference of whole numbers."""
        apart = known.numerator * value.denominator - value.numerator * known.denominator
        match self.word:
            case "under":
                return apart < 0
            case "at_most":
                return apart <= 0
            case "over":
                return apart > 0
            case "at_least":
                return apart >= 0
        raise ValueError(f"no such comparison: {self.word}")


def _below(high: Fraction | None, value: Fraction, on_it: bool) -> bool:
    return high is not None and (high <= value if on_it else high < value)


def _above(low: Fraction | None, value: Fraction, on_it: bool) -> bool:
    return low is not None and (low >= value if on_it else low > value)


def _decided(inside: bool, outside: bool) -> bool | None:
    return True if inside else False if outside else None
