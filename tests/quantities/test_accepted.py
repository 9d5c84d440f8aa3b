"""Every accepted way of writing a measure, its value worked by hand from 1 in = 25.4 mm and the like."""

from fractions import Fraction

import pytest

from axlebook.quantities import (
    NotAMeasure,
    Quantity,
    parse_measure,
    parse_quantity,
    parse_temperature_difference,
)

IN_MM = [
    ("2 7/16 in", "61.9125"),
    ("2-7/16 in", "61.9125"),
    ("2 7/16in", "61.9125"),
    ("2 7 / 16 in", "61.9125"),
    ("39/16 in", "61.9125"),
    ("1½ in", "38.1"),
    ("1 ½ in", "38.1"),
    ("1-½ in", "38.1"),
    ("½ in", "12.7"),
    ("−½ in", "-12.7"),
    ("⅞ in", "22.225"),
    ("1 1⁄2 in", "38.1"),
    ('53 3/8"', "1355.725"),
    ('53 3/8 "', "1355.725"),
    ("53 3/8''", "1355.725"),
    ("53 3/8″", "1355.725"),
    ("53 3/8 in.", "1355.725"),
    ("53 3/8 inches", "1355.725"),
    ("53 3/8 IN", "1355.725"),
    ("53.375 in", "1355.725"),
    ("1355.725 mm", "1355.725"),
    ("1355.725mm", "1355.725"),
    ("135.5725 cm", "1355.725"),
    ("1.355725 m", "1355.725"),
    ("  53.375 in ", "1355.725"),
    ("53 3/8 in", "1355.725"),
    ("53.375\u2009in", "1355.725"),
    ("53\u202f3/8\u202fin", "1355.725"),
    (".375 in", "9.525"),
    ("0.375 inch", "9.525"),
    ("+.002 in", "0.0508"),
    ("-.002 in", "-0.0508"),
    ("\u2212.002 in", "-0.0508"),
    ("2 thou", "0.0508"),
    ("50.8 µm", "0.0508"),
    ("50.8 μm", "0.0508"),
    ("4 ft 8 1/2 in", "1435.1"),
    ("4 ft. 8 1/2 in.", "1435.1"),
    ("4 feet 8-1/2 inches", "1435.1"),
    ("4 ft 8.5 in", "1435.1"),
    ("4' 8 1/2\"", "1435.1"),
    ("4'-8 1/2\"", "1435.1"),
    ("4'8½\"", "1435.1"),
    ("4′ 8 1/2″", "1435.1"),
    ("4’ 8 1/2”", "1435.1"),
    ("-4 ft 8 1/2 in", "-1435.1"),
    ("4 ft", "1219.2"),
    ("1 mile", "1609344"),
    ("2 miles", "3218688"),
    ("1.5e2 mm", "150"),
    ("61.91 mm", "61.91"),
    ("0 in", "0"),
]


@pytest.mark.parametrize(("text", "millimeters"), IN_MM)
def test_a_length_is_read_exactly(text: str, millimeters: str) -> None:
    read = parse_quantity(text, "length")
    assert read.exact * 1000 == Fraction(millimeters)
    assert read.text == text


OTHERS = [
    ("350 degF", "temperature", "degF", Fraction(26989, 60)),  # 809.67 * 5/9
    ("350 °F", "temperature", "degF", Fraction(26989, 60)),
    ("350°F", "temperature", "degF", Fraction(26989, 60)),
    ("350 ºF", "temperature", "degF", Fraction(26989, 60)),
    ("350 ℉", "temperature", "degF", Fraction(26989, 60)),
    ("350 deg F", "temperature", "degF", Fraction(26989, 60)),
    ("350 DEGF", "temperature", "degF", Fraction(26989, 60)),
    ("68 degF", "temperature", "degF", Fraction("293.15")),
    ("20 degC", "temperature", "degC", Fraction("293.15")),
    ("-40 degC", "temperature", "degC", Fraction("233.15")),
    ("-40 degF", "temperature", "degF", Fraction("233.15")),
    ("293.15 K", "temperature", "K", Fraction("293.15")),
    ("-459.67 degF", "temperature", "degF", Fraction(0)),
    ("143000 lb", "mass", "lb", Fraction("64863.70891")),
    ("143000 lbs.", "mass", "lb", Fraction("64863.70891")),
    ("22.5 t", "mass", "t", Fraction(22500)),
    ("1 long ton", "mass", "long ton", Fraction("1016.0469088")),
    ("2  short  tons", "mass", "short ton", Fraction("1814.36948")),
    ("25 mph", "speed", "mph", Fraction("11.176")),
    ("36 km/h", "speed", "km/h", Fraction(10)),
    ("90 min", "time", "min", Fraction(5400)),
    ("2 days", "time", "day", Fraction(172800)),
    ("120 deg", "angle", "deg", Fraction(120)),
    ("120°", "angle", "deg", Fraction(120)),
    ("205 GPa", "pressure", "GPa", Fraction(205 * 10**9)),
    ("800 N/mm²", "pressure", "MPa", Fraction(800 * 10**6)),
    ("6.5e-6 1/degF", "expansion", "1/degF", Fraction("0.0000117")),
    ("11.7e-6 /K", "expansion", "1/K", Fraction("0.0000117")),
    ("11.7E-6 per degC", "expansion", "1/K", Fraction("0.0000117")),
    ("15 percent", "ratio", "percent", Fraction(15, 100)),
    ("15%", "ratio", "percent", Fraction(15, 100)),
    ("14 spokes", "count", "spoke", Fraction(14)),
    ("2 leaves", "count", "leaf", Fraction(2)),
    ("31 service days", "count", "service day", Fraction(31)),
    ("15 years", "count", "year", Fraction(15)),
]


@pytest.mark.parametrize(("text", "dimension", "unit", "exact"), OTHERS)
def test_other_measures_are_read_exactly(text: str, dimension: str, unit: str, exact: Fraction) -> None:
    read = parse_quantity(text, dimension)
    assert (read.dimension, read.unit, read.exact) == (dimension, unit, exact)


RESOLUTIONS = [
    ("53.250 in", Fraction("0.0000254")),  # 0.001 in
    ("53.25 in", Fraction("0.000254")),
    ("53 1/4 in", None),
    ("53 1/64 in", None),
    ("53 in", None),  # a whole number of inches may be 53 0/64
    ("4 ft 8 1/2 in", None),
    ("4 ft 8.5 in", Fraction("0.00254")),
    ("87 mm", Fraction("0.001")),
    ("87.0 mm", Fraction("0.0001")),
    ("1.20e2 mm", Fraction("0.001")),
    ("350 degF", Fraction(5, 9)),  # one degree, as a difference
    ("20.5 degC", Fraction(1, 10)),
    ("143000 lb", Fraction("0.45359237")),
]


@pytest.mark.parametrize(("text", "resolution"), RESOLUTIONS)
def test_a_decimal_shows_its_resolution_and_a_fraction_none(text: str, resolution: Fraction | None) -> None:
    assert parse_quantity(text).resolution == resolution


def test_feet_and_inches_are_one_number_of_inches() -> None:
    read = parse_quantity("4 ft 8 1/2 in")
    assert (read.number, read.unit) == (Fraction(113, 2), "in")


def test_a_temperature_difference_has_no_zero_point() -> None:
    assert parse_temperature_difference("90 degF").exact == 50
    assert parse_temperature_difference("50 degC").exact == 50
    assert parse_temperature_difference("50 K").exact == 50
    assert parse_temperature_difference("90 delta_degF").exact == 50
    assert parse_temperature_difference("90 degF difference").exact == 50
    assert parse_quantity("90 degF", "temperature_difference").unit == "delta_degF"
    assert parse_temperature_difference("90 degF").resolution == Fraction(5, 9)


def test_a_difference_is_no_temperature() -> None:
    with pytest.raises(NotAMeasure, match="a temperature is asked for"):
        parse_quantity("90 delta_degF", "temperature")
    with pytest.raises(NotAMeasure, match="a temperature difference is asked for"):
        parse_temperature_difference("90 mm")


def test_quantities_compare_by_what_they_measure() -> None:
    fraction, decimal, metric = (parse_quantity(text) for text in ("53 3/8 in", "53.375 in", "1355.725 mm"))
    assert fraction == decimal == metric
    assert len({fraction, decimal, metric}) == 1
    assert parse_quantity("53.374 in") < fraction < parse_quantity("1355.726 mm")
    assert fraction <= metric
    assert fraction >= metric
    assert not fraction > metric


@pytest.mark.parametrize(
    ("one", "other"), [("1 in", "1 lb"), ("3 spokes", "3 pieces"), ("1 K", "1 K difference")]
)
def test_unlike_quantities_are_not_equal_and_have_no_order(one: str, other: str) -> None:
    first, second = parse_quantity(one), parse_quantity(other)
    assert first != second
    with pytest.raises(TypeError, match="no order"):
        _ = first < second


def test_a_quantity_is_no_number() -> None:
    read = parse_quantity("1 in")
    assert read != 1
    with pytest.raises(TypeError):
        _ = read < 2


def test_the_same_text_is_read_once() -> None:
    assert parse_measure("51.012 in") is parse_measure("51.012 in")


def test_a_read_value_cannot_be_altered() -> None:
    read = parse_measure("51.012 in")
    assert isinstance(read, Quantity)
    with pytest.raises(AttributeError):
        read.number = Fraction(1)  # type: ignore[misc]
