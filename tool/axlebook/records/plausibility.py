"""How far off a reading must be before it is asked about: the ledger's own figures, or those of this tool."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from . import fields
from .book import Book

# The one place where these stand; `plausibility` in ledger.yaml puts a railway's own in their stead. Practice of
# this tool, no source: at four times the scatter a sound reading is named once in some hundred thousand.
PLAIN = 4.2
WITH_MARK = 3.7
LEAST = 1.6
SECOND = 3.5
FLANGE_ANGLE = 60.0
# Share of a size as new that a reading may lie above it: a stamp and a drawing are rounded, and a tire is rolled with
# something over. Practice of this tool, no source.
ROUNDED = {
    "journal_diameter": Fraction("0.005"),
    "tire_thickness": Fraction("0.05"),
    "tire_width": Fraction("0.05"),
    "tread_diameter": Fraction("0.02"),
}


class Practice(NamedTuple):
    """Times the spread at which a reading is doubted."""

    plain: float  # a jump that nothing explains
    with_mark: float  # one that bears the mark of a known slip
    least: float  # and at least so many times the combined standard uncertainty of two readings
    second: float  # two people at one place on one day
    flange_angle: float  # the flattest flange: how much its thickness may rise while the tread wears [deg]


def practice_of(book: Book) -> Practice:
    """The figures in force."""
    told = fields.inner(book.ledger.tree, "plausibility")
    found = {key: fields.number(told, key) for key in ("factor", "factor_with_mark", "least", "factor_of_two_readers")}
    angle = fields.quantity(told, "flange_angle")
    return Practice(
        float(found["factor"] or PLAIN),
        float(found["factor_with_mark"] or WITH_MARK),
        float(found["least"] or LEAST),
        float(found["factor_of_two_readers"] or SECOND),
        float(angle.number) if angle is not None else FLANGE_ANGLE,
    )
