"""What a pen could have written: digits exchanged, fractions lost and misread."""

from __future__ import annotations

from fractions import Fraction

from axlebook.quantities import parse_quantity
from axlebook.trends.misread import fraction_gone, other_fraction, transposed, whole_lost

INCH = Fraction("0.0254")


def test_two_adjoining_digits_are_exchanged_across_the_point_too() -> None:
    assert [text for text, _ in transposed("53.427 in")] == ["35.427 in", "54.327 in", "53.247 in", "53.472 in"]


def test_two_like_digits_make_nothing_new() -> None:
    assert list(transposed("55 mm")) == []


def test_an_exchange_that_no_rule_shows_is_left_out() -> None:
    # 3/23, 31/32 for 13/32 stays, 1 3/32 to 3 1/32
    assert [text for text, _ in transposed("1 3/32 in")] == ["3 1/32 in"]
    assert ("31/32 in", Fraction(31, 32) * INCH) in list(transposed("13/32 in"))


def test_the_whole_inches_that_bring_a_bare_fraction_nearest_are_found() -> None:
    measure = parse_quantity("17/64 in", "length")
    assert list(whole_lost(measure, Fraction("53.28") * INCH)) == [("53 17/64 in", (53 + Fraction(17, 64)) * INCH)]


def test_a_fraction_with_its_inches_has_lost_none() -> None:
    assert list(whole_lost(parse_quantity("1 1/2 in", "length"), Fraction("2.5") * INCH)) == []


def test_whole_inches_where_a_fraction_was_expected() -> None:
    assert fraction_gone(parse_quantity("1 in", "length"), Fraction("1.2") * INCH)
    assert fraction_gone(parse_quantity('1"', "length"), Fraction("1.2") * INCH)
    assert not fraction_gone(parse_quantity("1 in", "length"), Fraction("2.2") * INCH)
    assert not fraction_gone(parse_quantity("1.2 in", "length"), Fraction("1.3") * INCH)


def test_another_denominator_or_a_digit_more() -> None:
    found = {text for text, _ in other_fraction(parse_quantity("3/4 in", "length"))}
    assert "3/8 in" in found
    found = {text for text, _ in other_fraction(parse_quantity("2 1/16 in", "length"))}
    assert {"2 11/16 in", "2 1/8 in", "2 13/16 in"} <= found


def test_millimetres_have_no_other_fraction() -> None:
    assert list(other_fraction(parse_quantity("83.5 mm", "length"))) == []
