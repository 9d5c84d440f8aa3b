"""Feelers and crayons give intervals: under, over, from one to another."""

from fractions import Fraction

import pytest

from axlebook.quantities import Interval, NotAMeasure, parse_measure


def interval(text: str) -> Interval:
    """Read an interval."""
    read = parse_measure(text)
    assert isinstance(read, Interval)
    return read


@pytest.mark.parametrize(
    "text", ["under 0.0015 in", "Under .0015 in", "< 0.0015 in", "<0.0015in", "under 1.5 thou"]
)
def test_under_has_no_lower_bound_and_leaves_its_upper_out(text: str) -> None:
    read = interval(text)
    assert (read.low, read.low_exact, read.high_exact) == (None, None, Fraction("0.0000381"))
    assert read.is_open
    assert read.dimension == read.kind == "length"


@pytest.mark.parametrize("text", ["over 350 degF", "> 350 °F", "OVER 350 degF"])
def test_over_has_no_upper_bound_and_leaves_its_lower_out(text: str) -> None:
    read = interval(text)
    assert (read.high, read.high_exact, read.low_exact) == (None, None, Fraction(26989, 60))
    assert read.is_open
    assert (read.dimension, read.unit) == ("temperature", "degF")


@pytest.mark.parametrize("text", ["350 to 375 degF", "350 degF to 375 degF", "350°F  to  375°F"])
def test_from_one_to_another_includes_both(text: str) -> None:
    read = interval(text)
    assert (read.low_exact, read.high_exact) == (Fraction(26989, 60), Fraction(83467, 180))
    assert not read.is_open
    assert read.text == text


def test_bounds_may_differ_in_unit_and_form() -> None:
    assert interval("10 mm to 1/2 in").high_exact == Fraction("0.0127")
    assert interval("1/2 to 3/4 in").low_exact == Fraction("0.0127")
    assert interval("4 ft 8 1/2 in to 4 ft 9 in").low_exact == Fraction("1.4351")
    assert interval("-.002 to .002 in").low_exact == Fraction("-0.0000508")


@pytest.mark.parametrize(
    "text",
    [
        "375 to 350 degF",
        "350 to 350 degF",
        "350 degF to 2 in",
        "3 spokes to 4 pieces",
        "4 to 4 ft 8 in",
        "350 to degF",
        "to 350 degF",
        "350 to 375",
        "under 350",
        "under",
        "under 350 to 375 degF",
        "under over 3 in",
        "300 to 350 to 375 degF",
        "under 1,5 in",
        "under 1/0 in",
    ],
)
def test_what_is_no_interval_is_refused(text: str) -> None:
    with pytest.raises(NotAMeasure) as caught:
        parse_measure(text)
    assert caught.value.text == text
