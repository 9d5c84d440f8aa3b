"""Text to exact number with unit and resolution, and back; the one pint registry."""

from .diagnosis import NO_UNIT
from .measures import Interval, Measure, NotAMeasure, Quantity
from .parsing import find_measure, parse_measure, parse_quantity, parse_temperature_difference
from .registry import registry
from .rendering import both_ways, digits_apart, render_fraction, render_value, si
from .units import EXAMPLES, UNITS, Unit, find_unit

__all__ = [
    "EXAMPLES",
    "NO_UNIT",
    "UNITS",
    "Interval",
    "Measure",
    "NotAMeasure",
    "Quantity",
    "Unit",
    "both_ways",
    "digits_apart",
    "find_measure",
    "find_unit",
    "parse_measure",
    "parse_quantity",
    "parse_temperature_difference",
    "registry",
    "render_fraction",
    "render_value",
    "si",
]
