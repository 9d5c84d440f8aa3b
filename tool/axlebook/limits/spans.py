"""A value as far as it is known, and one word and figure it is held against."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple


class Span(NamedTuple):
    """What is known of a value: low and high bounds, exact, None where open. A point has both alike."""

    low: Fraction | None
    high: Fraction | None

    def widened(self, by: Fraction) -> Span:
        """The span with `by` added on both sides."""
        low = None if self.low is None else self.low - by
        high = None if self.high is None else self.high + by
        return Span(low, high)


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
        low, high = span.low, span.high
        match self.word:
            case "under":
                return _decided(high is not None and high < value, low is not None and low >= value)
            case "at_most":
                return _decided(high is not None and high <= value, low is not None and low > value)
            case "over":
                return _decided(low is not None and low > value, high is not None and high <= value)
            case "at_least":
                return _decided(low is not None and low >= value, high is not None and high < value)
        raise ValueError(f"no such comparison: {self.word}")


def _decided(inside: bool, outside: bool) -> bool | None:
    return True if inside else False if outside else None
