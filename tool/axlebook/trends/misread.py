"""What a written measure would have been without a slip of the pen or the eye: digits, fractions, units."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from axlebook.quantities import NotAMeasure, Quantity, parse_measure

INCH = Fraction("0.0254")
DENOMINATORS = (2, 4, 8, 16, 32, 64)
FRACTION = re.compile(r"(?:(\d+)[ -]+)?(\d+)/(\d+)")
WHOLE_ONLY = re.compile(r"\d+ *(?:in\.?|\")")


def transposed(text: str) -> Iterator[tuple[str, Fraction]]:
    """Every text with two digits exchanged that is a measure, and its value.

    >>> [t for t, _ in transposed("53.24 in")]
    ['35.24 in', '52.34 in', '53.42 in']
    """
    places = [i for i, letter in enumerate(text) if letter.isdigit()]
    for one, two in pairwise(places):
        if text[one] != text[two]:
            letters = list(text)
            letters[one], letters[two] = letters[two], letters[one]
            changed = "".join(letters)
            if _is_on_a_rule(changed):
                yield from _read(changed)


def other_fraction(measure: Quantity) -> Iterator[tuple[str, Fraction]]:
    """The same text with another denominator, or with a digit more in its numerator.

    >>> from axlebook.quantities import parse_quantity
    >>> [t for t, _ in other_fraction(parse_quantity("2 3/4 in", "length"))][:3]
    ['2 3/8 in', '2 3/16 in', '2 3/32 in']
    """
    found = FRACTION.search(measure.text)
    if found is None:
        return
    above, below = found[2], int(found[3])
    pairs = [(above, d) for d in DENOMINATORS if d != below and d > int(above)]
    pairs += [(str(n), below) for n in range(11, min(below, 100), 2) if len(above) == 1 and above in str(n)]
    for numerator, denominator in pairs:
        start, end = found.span(2)[0], found.span(3)[1]
        yield from _read(f"{measure.text[:start]}{numerator}/{denominator}{measure.text[end:]}")


def whole_lost(measure: Quantity, expected: Fraction) -> Iterator[tuple[str, Fraction]]:
    """A bare fraction of an inch with the whole inches before it that bring it nearest to what was expected."""
    found = FRACTION.search(measure.text)
    if found is None or found[1] or measure.unit != "in":
        return
    inches = round((expected - measure.exact) / INCH)
    if inches >= 1:
        yield f"{inches} {measure.text.strip()}", measure.exact + inches * INCH


def space_lost(measure: Quantity) -> Iterator[tuple[str, Fraction]]:
    """A bare fraction of an inch whose first digits are the whole inches: the space between was left out.

    >>> from axlebook.quantities import parse_quantity
    >>> [t for t, _ in space_lost(parse_quantity("17/64 in", "length"))]
    ['1 7/64 in']
    """
    found = FRACTION.search(measure.text)
    if found is None or found[1] or measure.unit != "in":
        return
    start, end = found.span(2)
    for cut in range(1, len(found[2])):
        text = f"{measure.text[:start]}{found[2][:cut]} {found[2][cut:]}{measure.text[end:]}"
        if found[2][cut] != "0" and _is_on_a_rule(text):
            yield from _read(text)


def fraction_gone(measure: Quantity, expected: Fraction) -> bool:
    """Whether whole inches are written where inches and a fraction were expected."""
    return WHOLE_ONLY.fullmatch(measure.text.strip()) is not None and 0 < expected - measure.exact < INCH


def _is_on_a_rule(text: str) -> bool:
    """Whether a fraction is one that people read: halves to sixty-fourths in lowest terms; text without one is."""
    found = FRACTION.search(text)
    if found is None:
        return True
    above, below = int(found[2]), int(found[3])
    return below in DENOMINATORS and above % 2 == 1 and above < below


def _read(text: str) -> Iterator[tuple[str, Fraction]]:
    try:
        found = parse_measure(text)
    except NotAMeasure:
        return
    if isinstance(found, Quantity):
        yield text, found.exact
