"""Values to text: exact where short, both systems side by side, different values never looking the same."""

from fractions import Fraction

import pytest

from axlebook.quantities import (
    both_ways,
    digits_apart,
    parse_measure,
    parse_quantity,
    render_fraction,
    render_value,
    si,
)


@pytest.mark.parametrize(
    ("text", "unit", "shown"),
    [
        ("1 5/16 in", "in", "1.3125 in"),
        ("1 1/64 in", "in", "1.015625 in"),
        ("1/3 in", "in", "0.3333 in"),
        ("2/3 in", "in", "0.6667 in"),
        ("-2/3 in", "in", "-0.6667 in"),
        ("53 3/8 in", "mm", "1355.725 mm"),
        ("20 degC", "degF", "68 degF"),
        ("1 degF", "degC", "-17.2 degC"),
        ("14 spokes", "spoke", "14 spokes"),
        ("1 spokes", "spoke", "1 spoke"),
        ("2 leaf", "leaf", "2 leaves"),
        ("90 delta_degF", "delta_degC", "50 degC difference"),
        ("-0.00001 mm", "m", "0.000000 m"),  # a rounded zero has no sign
    ],
)
def test_a_value_is_exact_where_short_and_rounded_where_not(text: str, unit: str, shown: str) -> None:
    read = parse_quantity(text)
    assert render_value(read.exact, read.dimension, unit) == shown


def test_the_places_asked_for_are_kept() -> None:
    third = parse_quantity("1/3 in").exact
    assert render_value(third, "length", "in", 2) == "0.33 in"
    assert render_value(third, "length", "in", 0) == "0 in"
    assert render_value(parse_quantity("1.5 in").exact, "length", "in", 3) == "1.5 in"


def test_halves_are_rounded_to_even_without_floats() -> None:
    assert render_value(Fraction("0.00025"), "length", "mm", 1) == "0.2 mm"
    assert render_value(Fraction("0.00035"), "length", "mm", 1) == "0.4 mm"


def test_a_unit_of_another_dimension_is_a_mistake_of_the_caller() -> None:
    with pytest.raises(ValueError, match="psi is a unit of pressure, not of length"):
        render_value(Fraction(1), "length", "psi")


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("1.3125 in", "1 5/16 in"),
        ("0.5 in", "1/2 in"),
        ("3 in", "3 in"),
        ("0 in", "0 in"),
        ("-1.5 in", "-1 1/2 in"),
        ("12.7 mm", "1/2 in"),
        ("1/64 in", "1/64 in"),
        ("1/128 in", None),
        ("0.51 in", None),
    ],
)
def test_a_length_on_the_grid_is_written_as_a_fraction(text: str, shown: str | None) -> None:
    assert render_fraction(parse_quantity(text).exact) == shown


def test_a_gauge_is_written_in_feet_and_inches() -> None:
    assert render_fraction(Fraction("1.4351"), feet=True) == "4 ft 8 1/2 in"
    assert render_fraction(Fraction("0.9144"), feet=True) == "3 ft"
    assert render_fraction(Fraction("0.2794"), feet=True) == "11 in"
    assert render_fraction(Fraction("0.0333375"), 8) is None


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("53 3/8 in", "53 3/8 in (1355.725 mm)"),
        ("2 7/16 in", "2 7/16 in (61.9125 mm)"),
        ("87 mm", "87 mm (3.4252 in)"),  # 87 / 25.4 = 3.42519..
        ("25.4 mm", "25.4 mm (1 in)"),
        ("350 degF", "350 degF (176.7 degC)"),  # 318 / 1.8 = 176.67
        ("20 degC", "20 degC (68 degF)"),
        ("22.5 t", "22.5 t (49604 lb)"),  # 22500 / 0.45359237 = 49604.0
        ("75000 psi", "75000 psi (517.11 MPa)"),  # 75 * 6.894757
        ("50 psi", "50 psi (344.7 kPa)"),
        ("25 mph", "25 mph (40.2 km/h)"),
        ("under 0.0015 in", "under 0.0015 in (under 0.0381 mm)"),
        ("over 350 degF", "over 350 degF (over 176.7 degC)"),
        ("350 to 375 degF", "350 to 375 degF (176.7 degC to 190.6 degC)"),
        ("14 spokes", "14 spokes"),
        ("over 14 spokes", "over 14 spokes"),
        ("120 deg", "120 deg"),
        ("  3 in\n", "3 in (76.2 mm)"),
    ],
)
def test_a_measure_is_shown_as_written_and_in_the_other_system(text: str, shown: str) -> None:
    assert both_ways(parse_measure(text)) == shown


def test_two_values_that_differ_look_different() -> None:
    limit, reading = Fraction("1.36"), Fraction("1.36000001")
    assert digits_apart(limit, reading, "mm") == ("1360.00000 mm", "1360.00001 mm")
    assert digits_apart(limit, Fraction("1.361"), "mm") == ("1360 mm", "1361 mm")


def test_two_equal_values_look_equal() -> None:
    assert digits_apart(Fraction(1, 3), Fraction(1, 3), "mm") == ("333.333 mm", "333.333 mm")


def test_two_temperatures_are_told_apart_too() -> None:
    assert digits_apart(Fraction("293.15"), Fraction("293.1501"), "degC") == ("20.0000 degC", "20.0001 degC")


def test_the_formulas_get_si_floats() -> None:
    assert si("53 3/8 in", "length") == 1.355725
    assert si(parse_quantity("90 degF"), "temperature_difference") == 50.0
    assert si(parse_quantity("68 degF"), "temperature") == 293.15
    with pytest.raises(ValueError, match="is a length, not a mass"):
        si(parse_quantity("1 in"), "mass")
