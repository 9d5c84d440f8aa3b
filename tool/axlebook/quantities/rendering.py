"""Exact values to text: never a bare number, never two different values that look the same."""

from fractions import Fraction

from .measures import Interval, Measure, Quantity
from .parsing import parse_quantity, parse_temperature_difference
from .units import UNITS, Unit

_EXACT_PLACES = 6  # a sixty-fourth of an inch has six decimals


def _exact_places(number: Fraction, most: int) -> int | None:
    """Count the decimals that write a number exactly; None when more than `most` would be needed."""
    return next((places for places in range(most + 1) if not 10**places % number.denominator), None)


def _decimal(number: Fraction, places: int) -> str:
    """Write a number with so many decimals, rounded half to even, exactly."""
    scaled = round(number * 10**places)
    digits = f"{abs(scaled):0{places + 1}d}"
    text = f"{digits[:-places]}.{digits[-places:]}" if places else digits
    return f"-{text}" if scaled < 0 else text


def _with_unit(number: Fraction, places: int, unit: Unit) -> str:
    return f"{_decimal(number, places)} {unit.shown(number)}"


def _unit_of(dimension: str, unit: str) -> Unit:
    found = UNITS[unit]
    if found.dimension != dimension:
        raise ValueError(f"{unit} is a unit of {found.dimension}, not of {dimension}")
    return found


def render_value(exact: Fraction, dimension: str, unit: str, places: int | None = None) -> str:
    """Write a value in a unit: the shortest exact decimal where it is short, else rounded.

    Parameters
    ----------
    exact
        one value [SI base of the dimension]
    places
        decimals at most; as usual for the unit where None, and then up to six if they make it exact

    Examples
    --------
    >>> render_value(Fraction("0.0333375"), "length", "in")
    '1.3125 in'
    >>> render_value(Fraction(1, 3), "length", "mm"), render_value(Fraction("293.15"), "temperature", "degF")
    ('333.333 mm', '68 degF')
    """
    known = _unit_of(dimension, unit)
    number = known.from_base(exact)
    most = max(known.places, _EXACT_PLACES) if places is None else places
    needed = _exact_places(number, most)
    rounded = known.places if places is None else places
    return _with_unit(number, rounded if needed is None else needed, known)


def render_fraction(exact_m: Fraction, denominator: int = 64, *, feet: bool = False) -> str | None:
    """Write a length as inches and a fraction, None where it does not lie on that grid.

    >>> render_fraction(Fraction("0.0333375")), render_fraction(Fraction("1.4351"), feet=True)
    ('1 5/16 in', '4 ft 8 1/2 in')
    >>> render_fraction(Fraction("0.0333376")) is None
    True
    """
    inches = abs(UNITS["in"].from_base(exact_m))
    if denominator % inches.denominator:
        return None
    words = []
    if feet and inches >= 12:
        words.append(f"{inches // 12} ft")
        inches %= 12
    whole = inches // 1
    part = inches - whole
    amount = [str(whole)] if whole else []
    amount += [f"{part.numerator}/{part.denominator}"] if part else []
    if amount or not words:
        words.append(f"{' '.join(amount) or '0'} in")
    return ("-" if exact_m < 0 else "") + " ".join(words)


def _counterpart(quantity: Quantity) -> str:
    """Name the unit that shows a quantity in the other system; empty where none does."""
    if quantity.unit == "psi" and abs(quantity.number) < 1000:
        return "kPa"  # a brake cylinder's pressure, not a steel's strength
    return UNITS[quantity.unit].counterpart


def _in_other_system(quantity: Quantity) -> str:
    name = _counterpart(quantity)
    if not name:
        return ""
    # one decimal more than usual where that makes it exact: 0.0015 in is 0.0381 mm
    unit = UNITS[name]
    number = unit.from_base(quantity.exact)
    needed = _exact_places(number, unit.places + 1)
    return _with_unit(number, unit.places if needed is None else needed, unit)


def both_ways(measure: Measure) -> str:
    """Write a measure as it was written, and beside it in the other system.

    >>> from axlebook.quantities import parse_measure
    >>> both_ways(parse_measure("53 3/8 in")), both_ways(parse_measure("87 mm"))
    ('53 3/8 in (1355.725 mm)', '87 mm (3.4252 in)')
    >>> both_ways(parse_measure("350 to 375 degF")), both_ways(parse_measure("14 spokes"))
    ('350 to 375 degF (176.7 degC to 190.6 degC)', '14 spokes')
    """
    written = measure.text.strip()
    of = _in_other_system(measure) if isinstance(measure, Quantity) else _interval_in_other_system(measure)
    return f"{written} ({of})" if of else written


def _interval_in_other_system(interval: Interval) -> str:
    low, high = (_in_other_system(bound) if bound else "" for bound in (interval.low, interval.high))
    if low and high:
        return f"{low} to {high}"
    return f"over {low}" if low else f"under {high}" if high else ""


def digits_apart(first: Fraction, second: Fraction, unit: str) -> tuple[str, str]:
    """Write two values in one unit with decimals enough to differ visibly, unless they are equal.

    >>> digits_apart(Fraction("1.36"), Fraction("1.3600001"), "mm")
    ('1360.0000 mm', '1360.0001 mm')
    >>> digits_apart(Fraction("1.36"), Fraction("1.36"), "mm")
    ('1360 mm', '1360 mm')
    """
    known = UNITS[unit]
    numbers = known.from_base(first), known.from_base(second)
    needed = [_exact_places(number, known.places) for number in numbers]
    places = max(known.places if count is None else count for count in needed)
    while numbers[0] != numbers[1] and _decimal(numbers[0], places) == _decimal(numbers[1], places):
        places += 1  # ends: once the difference reaches one unit of the last place, the texts differ
    return _with_unit(numbers[0], places, known), _with_unit(numbers[1], places, known)


def si(value: str | Quantity, dimension: str) -> float:
    """Give a value in SI base as the nearest float, for the formulas.

    >>> si("53 3/8 in", "length"), si("50 degF", "temperature_difference")
    (1.355725, 27.77777777777778)
    """
    if isinstance(value, str):
        return float(parse_quantity(value, dimension).exact)
    if dimension == "temperature_difference" and value.dimension == "temperature":
        value = parse_temperature_difference(value.text)
    if value.dimension != dimension:
        raise ValueError(f"{value.text} is a {value.dimension}, not a {dimension}")
    return float(value.exact)
