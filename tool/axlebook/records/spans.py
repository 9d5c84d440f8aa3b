"""Sums and differences of spans, exact: what is open on one side stays open."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from axlebook.limits import Span

ZERO = Fraction(0)


def less(minuend: Span, subtrahend: Span) -> Span:
    """One span less another.

    >>> less(Span(Fraction(5), Fraction(6)), Span(Fraction(1), None))
    Span(low=None, high=Fraction(5, 1), left_out=False)
    """
    left_out = minuend.left_out or subtrahend.left_out
    return Span(_less(minuend.low, subtrahend.high), _less(minuend.high, subtrahend.low), left_out)


def _less(one: Fraction | None, other: Fraction | None) -> Fraction | None:
    return None if one is None or other is None else one - other


def total(spans: Sequence[Span]) -> Span:
    """The sum of spans."""
    left_out = any(s.left_out for s in spans)
    return Span(_all(sum_of, [s.low for s in spans]), _all(sum_of, [s.high for s in spans]), left_out)


def sum_of(values: Sequence[Fraction]) -> Fraction:
    """The sum of exact values, exact."""
    return sum(values, ZERO)


def _all(combine: Callable[[Sequence[Fraction]], Fraction], bounds: Sequence[Fraction | None]) -> Fraction | None:
    """Combine bounds; open when one of them is."""
    known = [bound for bound in bounds if bound is not None]
    return combine(known) if len(known) == len(bounds) else None


def mean(spans: Sequence[Span]) -> Span:
    """The mean of spans, one or more."""
    whole, many = total(spans), len(spans)
    low, high = (None if bound is None else bound / many for bound in (whole.low, whole.high))
    return Span(low, high, whole.left_out)


def size_of(span: Span) -> Span:
    """How far a difference is from nothing, whichever way.

    >>> size_of(Span(Fraction(-3), Fraction(1)))
    Span(low=Fraction(0, 1), high=Fraction(3, 1), left_out=False)
    """
    low, high = span.low, span.high
    if low is not None and low >= 0:
        return span
    if high is not None and high <= 0:
        return Span(-high, None if low is None else -low)
    return Span(ZERO, None if low is None or high is None else max(-low, high))


def spread(spans: Sequence[Span]) -> Span:
    """The largest less the smallest of some values: at least what is certain, at most what is possible."""
    lows, highs = [s.low for s in spans], [s.high for s in spans]
    most = max((low for low in lows if low is not None), default=None)
    certain = _less(most, min((high for high in highs if high is not None), default=None))
    return Span(max(certain or ZERO, ZERO), _less(_all(max, highs), _all(min, lows)))
