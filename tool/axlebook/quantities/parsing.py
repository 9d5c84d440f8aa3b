"""Measured text to exact values. No float is ever made on the way; what is not understood is refused.

A number is read by one pattern, its unit by one look into a table; only what these two do not settle takes
the longer way: feet with inches, intervals, and at last the reason for a refusal.
"""

import re
from fractions import Fraction
from functools import lru_cache

from .diagnosis import NO_UNIT, refusal
from .measures import Interval, Measure, NotAMeasure, Quantity
from .units import EXAMPLES, LARGEST, SPELLINGS, UNITS, Unit, find_unit

_LONGEST_TEXT = 60
_MOST_DIGITS = 15
_LARGEST_POWER = 30

# sign, then whole number with fraction, or decimal with power of ten, then the rest of the line
_SINGLE = re.compile(
    r"([-+]?)"
    r"(?:(?:([0-9]+)(?: +|-))?([0-9]+) ?/ ?([0-9]+)"
    r"|([0-9]*)(?:\.([0-9]+))?(?<=[0-9])(?:[eE]([-+]?[0-9]{1,2}))?)"
    r" *(.*)"
)
_FEET = re.compile(r"([-+]?)([0-9]+) *(?:ft\.?|foot|feet|')(?: *|-)([0-9.].*)", re.IGNORECASE)
_ONE_SIDED = re.compile(r"(under|over|<|>) *(.+)", re.IGNORECASE)
_BETWEEN = re.compile(r"(.+?) +to +(.+)", re.IGNORECASE)

_VULGAR = "¼1/4 ½1/2 ¾3/4 ⅓1/3 ⅔2/3 ⅕1/5 ⅖2/5 ⅗3/5 ⅘4/5 ⅙1/6 ⅚5/6 ⅛1/8 ⅜3/8 ⅝5/8 ⅞7/8 ⅐1/7 ⅑1/9 ⅒1/10"
_JOIN = "\ue000"  # stands before a one-character fraction until it is known what it follows
_PLAIN = (
    dict.fromkeys((0xA0, *range(0x2000, 0x200B), 0x202F, 0x205F, 0x3000), " ")
    | dict.fromkeys(map(ord, "′’‘‛ʹ"), "'")
    | dict.fromkeys(map(ord, "″”“‟ʺ"), '"')
    | dict.fromkeys(map(ord, "−–‐‑‒—"), "-")
    | dict.fromkeys(map(ord, "⁄∕"), "/")
    | {ord("º"): "°", ord("℉"): "°F", ord("℃"): "°C"}
    | {ord(pair[0]): _JOIN + pair[1:] for pair in _VULGAR.split()}
)


def _plain(text: str) -> str:
    r"""Turn typographic spaces, quotes, dashes and fractions into those of a keyboard.

    >>> _plain("1½\u2009in"), _plain("4′ 8 1/2″"), _plain("2-½ in")
    ('1 1/2 in', '4\' 8 1/2"', '2-1/2 in')
    """
    plain = text
    if not text.isascii():
        plain = text.translate(_PLAIN).replace(f"-{_JOIN}", "-").replace(_JOIN, " ")
    return plain.replace("''", '"').strip()


@lru_cache(maxsize=1024)
def _last_digit(unit: str, decimals: int) -> Fraction:
    return UNITS[unit].factor * Fraction(10) ** -decimals


def _mixed(text: str, whole: str | None, top: str, bottom: str) -> tuple[int, int]:
    """Join a whole number and a fraction into numerator and denominator."""
    above, below = int(top), int(bottom)
    if below == 0:
        raise NotAMeasure(text, "a fraction cannot have 0 below the line.", "Read the instrument again.")
    if whole is None:
        return above, below
    if above >= below:
        raise NotAMeasure(
            text,
            f"beside a whole number, {top}/{bottom} is not less than 1.",
            "Write a fraction below 1 after the whole number, such as 2 7/16 in.",
        )
    return int(whole) * below + above, below


def _decimal(text: str, digits: str, decimals: str | None, power: str | None) -> tuple[int, int, int]:
    """Read a decimal into numerator, denominator and the place of its last digit."""
    after = decimals or ""
    place = len(after)
    if power is None:
        return int(digits + after), 10**place, place
    place -= int(power)
    if abs(place) > _LARGEST_POWER:
        raise NotAMeasure(text, "the power of ten is out of all measure.", "Write the number out.")
    return int(digits + after) * 10 ** max(-place, 0), 10 ** max(place, 0), place


def _too_many_digits(line: str) -> bool:
    """Count the digits; the bounds of an interval each have their own."""
    return any(sum(map(str.isdigit, part)) > _MOST_DIGITS for part in line.split(" to "))


def _quantity(text: str, number: Fraction, unit: Unit, resolution: Fraction | None) -> Quantity:
    """Build a quantity, refusing sizes that nothing on a railway has."""
    dimension, offset, factor = unit.dimension, unit.offset, unit.factor
    # In whole numbers, because this is where most of the reading's time would go: rationals that are
    # multiplied and compared take four times as long.
    below = number.denominator * offset.denominator
    above = number.numerator * offset.denominator + offset.numerator * number.denominator
    exact = Fraction(above * factor.numerator, below * factor.denominator)
    largest = unit.largest or LARGEST[dimension]
    too_large = abs(exact.numerator) > largest * exact.denominator
    if too_large or (above < 0 and dimension == "temperature"):
        raise NotAMeasure(
            text, f"no {dimension.replace('_', ' ')} here is of that size.", "Check the number and its unit."
        )
    return Quantity(text, number, unit.name, dimension, exact, resolution)


def _single(text: str, line: str) -> Quantity | None:
    """Read one number with one unit; None when the line is something else."""
    match = _SINGLE.fullmatch(line)
    if match is None:
        return None
    sign, whole, top, bottom, digits, decimals, power, unit_text = match.groups()
    unit = SPELLINGS.get(unit_text) or find_unit(unit_text)
    if unit is None:
        return None
    resolution = None
    if top is not None:
        above, below = _mixed(text, whole, top, bottom)
    else:
        above, below, place = _decimal(text, digits, decimals, power)
        if decimals or not unit.fractional:
            resolution = _last_digit(unit.name, place)
    return _quantity(text, Fraction(-above if sign == "-" else above, below), unit, resolution)


def _feet_and_inches(text: str, line: str) -> Quantity | None:
    """Read feet with inches, as inches; None when the line is something else."""
    match = _FEET.fullmatch(line)
    if match is None:
        return None
    sign, feet, rest = match.groups()
    inches = _single(text, rest)
    if inches is None or inches.unit != "in":
        return None
    if inches.number >= 12:
        raise NotAMeasure(text, "beside feet, inches are fewer than 12.", "Write it such as 4 ft 8 1/2 in.")
    number = int(feet) * 12 + inches.number
    return _quantity(text, -number if sign == "-" else number, UNITS["in"], inches.resolution)


def _one(text: str, line: str) -> Quantity | None:
    return _single(text, line) or _feet_and_inches(text, line)


def _bound(text: str, part: str) -> Quantity | None:
    """Read one bound of an interval; a refusal shows the whole text."""
    try:
        return _one(part, part)
    except NotAMeasure as refused:
        raise NotAMeasure(text, refused.reason, refused.hint) from None


def _interval(text: str, line: str) -> Interval | None:
    """Read `under`, `over` or `a to b`; None when the line is something else."""
    if match := _ONE_SIDED.fullmatch(line):
        word, rest = match.groups()
        bound = _bound(text, rest)
        if bound is None:
            return None
        return Interval(text, None, bound) if word.lower() in ("under", "<") else Interval(text, bound, None)
    match = _BETWEEN.fullmatch(line)
    if match is None:
        return None
    first, second = match.groups()
    high = _bound(text, second)
    if high is None:
        return None
    low = _bound(text, first)
    if low is None and _FEET.fullmatch(second) is None:
        low = _bound(text, f"{first} {high.unit}")  # `350 to 375 degF` says its unit once
    if low is None:
        return None
    if low.kind != high.kind or low.exact >= high.exact:
        raise NotAMeasure(
            text, "the first value must be the smaller of two alike.", "Write it such as 350 to 375 degF."
        )
    return Interval(text, low, high)


def parse_measure(text: str) -> Measure:
    """Read a measured text.

    Raises
    ------
    NotAMeasure
        The text is no number with a unit, nor an interval between two.

    Examples
    --------
    >>> parse_measure("53 3/8 in") == parse_measure("53.375 in") == parse_measure("1355.725 mm")
    True
    >>> parse_measure("53.250 in").resolution, parse_measure("53 1/4 in").resolution
    (Fraction(127, 5000000), None)
    >>> parse_measure("under 0.0015 in").high.number
    Fraction(3, 2000)
    >>> parse_measure("1,5 in")  # doctest: +ELLIPSIS
    Traceback (most recent call last):
        ...
    axlebook.quantities.measures.NotAMeasure: read '1,5 in': ... Write 1.5 in.
    """
    measure = _measure(text)
    if measure is None:
        raise refusal(text, _plain(text))
    return measure


def find_measure(text: str) -> Measure | None:
    """Read a measured text; None where it is none: why it is none takes longer to say than all the rest.

    >>> find_measure("53 3/8 in") == parse_measure("53 3/8 in"), find_measure("53 3/8")
    (True, None)
    """
    try:
        return _measure(text)
    except NotAMeasure:
        return None


@lru_cache(maxsize=2**17)
def _measure(text: str) -> Measure | None:
    if len(text) > _LONGEST_TEXT:
        raise NotAMeasure(text, f"it is longer than {_LONGEST_TEXT} characters.", "Write the value alone.")
    line = _plain(text)
    if len(line) > _MOST_DIGITS and _too_many_digits(line):
        raise NotAMeasure(text, "no instrument shows so many digits.", "Write the digits that were read.")
    return _single(text, line) or _interval(text, line) or _feet_and_inches(text, line)


def parse_quantity(text: str, dimension: str | None = None) -> Quantity:
    """Read one value, not an interval, of the dimension asked for where one is.

    Raises
    ------
    NotAMeasure
        The text is no measure, is an interval, or is of another dimension.
    """
    if dimension == "temperature_difference":
        return parse_temperature_difference(text)
    try:
        measure = _one_value(text)
    except NotAMeasure as refused:
        if refused.reason == NO_UNIT and dimension in EXAMPLES:
            raise NotAMeasure(text, NO_UNIT, _with_unit(text.strip(), dimension)) from None
        raise
    if dimension is not None and measure.dimension != dimension:
        raise _other_dimension(text, dimension, measure.dimension)
    return measure


def _one_value(text: str) -> Quantity:
    measure = parse_measure(text)
    if isinstance(measure, Interval):
        raise NotAMeasure(text, "one value is asked for, not an interval.", "Write one value with its unit.")
    return measure


def _with_unit(number: str, dimension: str) -> str:
    """The number with the units that a dimension is told in: `15 mph or 15 km/h`."""
    unit = UNITS[_one_value(EXAMPLES[dimension]).unit]
    told = " or ".join(f"{number} {name}" for name in (unit.name, unit.counterpart) if name)
    return f"Write the unit after it, such as {told}."


def _other_dimension(text: str, wanted: str, found: str) -> NotAMeasure:
    wanted_words, found_words = wanted.replace("_", " "), found.replace("_", " ")
    return NotAMeasure(
        text,
        f"a {wanted_words} is asked for, and this is a {found_words}.",
        f"Write it such as {EXAMPLES.get(wanted, 'a number and its unit')}.",
    )


def parse_temperature_difference(text: str) -> Quantity:
    """Read `50 degF` as a difference of two temperatures: no zero point is taken off.

    >>> parse_temperature_difference("90 degF").exact
    Fraction(50, 1)
    """
    measure = _one_value(text)
    if measure.dimension == "temperature_difference":
        return measure
    if measure.dimension != "temperature":
        raise _other_dimension(text, "temperature_difference", measure.dimension)
    return _quantity(text, measure.number, UNITS[f"delta_{measure.unit}"], measure.resolution)
