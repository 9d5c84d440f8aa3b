"""Figures in the hand of the one who wrote the record: his unit, his way of fractions and decimals."""

from __future__ import annotations

import math
import re
from fractions import Fraction

from axlebook.quantities import NotAMeasure, Quantity, parse_measure

_NUMBER = re.compile(r"\s*([0-9][0-9 /.\-]*?)\s*([^0-9 /.\-].*)?$")
INCH = Fraction("0.0254")
MILLIMETER = Fraction("0.001")


def exact(text: str) -> Fraction | None:
    """The length in metres, None where the text is no single length."""
    try:
        found = parse_measure(text)
    except NotAMeasure:
        return None
    return found.exact if isinstance(found, Quantity) and found.dimension == "length" else None


def number_and_rest(text: str) -> tuple[str, str]:
    """The number of a written length and what follows it.

    >>> number_and_rest('2 27/32"'), number_and_rest("53.243 in")
    (('2 27/32', '"'), ('53.243', ' in'))
    """
    found = _NUMBER.match(text)
    if found is None:
        return text, ""
    return found[1], text[found.end(1) :]


def unit(text: str) -> Fraction:
    """The length of one unit of a written length."""
    return MILLIMETER if "mm" in text else INCH


def in_fractions(text: str) -> bool:
    """Whether a length is written in inches without a decimal point."""
    return "." not in number_and_rest(text)[0] and "mm" not in text


def like(text: str, target: float, step: float, toward: int = 0) -> str:
    """Write a length as `text` is written, on the instrument's division; `toward` +1 rounds up, -1 down.

    >>> like('1-1/16 in', 1.09 * 0.0254, 0.0254 / 64), like("53.243 in", 53.2612 * 0.0254, 0.0000254, 1)
    ('1-3/32 in', '53.262 in')
    """
    places = len(number_and_rest(text)[0].partition(".")[2])
    grid = step / float(unit(text))
    count = target / float(unit(text)) / grid
    steps = (
        round(count) if not toward else math.ceil(count - 1e-9) if toward > 0 else math.floor(count + 1e-9)
    )
    number = steps * Fraction(grid).limit_denominator(100000)
    rest = number_and_rest(text)[1]
    if in_fractions(text):
        return _fraction(number, "-" if "-" in text else " ") + rest
    if "mm" in text:
        decimals = 2 if (number * 10).denominator != 1 else 1 if number.denominator != 1 else 0
        return f"{float(number):.{decimals}f}{rest}"
    return f"{float(number):.{places or 3}f}{rest}"


def _fraction(number: Fraction, joint: str) -> str:
    whole, part = divmod(number, 1)
    if not part:
        return str(whole)
    return (f"{whole}{joint}" if whole else "") + f"{part.numerator}/{part.denominator}"
