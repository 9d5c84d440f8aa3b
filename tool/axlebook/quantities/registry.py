"""The one pint registry, made from our own table of factors, and only when a formula asks for it."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from .units import UNITS, Unit

if TYPE_CHECKING:
    from fractions import Fraction

    import pint

_BASES = {
    "length": "m",
    "mass": "kg",
    "force": "kg * m / s ** 2",
    "pressure": "kg / m / s ** 2",
    "temperature": "K",
    "speed": "m / s",
    "time": "s",
    "power": "kg * m ** 2 / s ** 3",
    "angle": "deg",
}
_FUNDAMENTAL = {"m": "length", "kg": "mass", "s": "time", "K": "temperature", "deg": "angle"}


def _exactly(number: Fraction) -> str:
    return f"{number.numerator} / {number.denominator}" if number.denominator != 1 else str(number.numerator)


def _definition(unit: Unit) -> str | None:
    """Write one unit's line; None for what pint makes itself: degree differences, units with a stroke."""
    name = unit.name.replace(" ", "_")
    if unit.dimension in ("count", "hardness"):
        return f"{name} = [{name}]"
    if unit.name in _FUNDAMENTAL:
        return f"{name} = [{_FUNDAMENTAL[unit.name]}]"
    if unit.dimension == "ratio":
        return f"{name} = {_exactly(unit.factor)}"
    if unit.dimension == "temperature_difference":
        plain = UNITS[unit.name.removeprefix("delta_")]
        return None if plain.offset else f"{name} = {plain.name}"
    if unit.dimension not in _BASES or "/" in name:
        return None
    line = f"{name} = {_exactly(unit.factor)} * {_BASES[unit.dimension]}"
    # pint adds its offset after the factor, in the base unit
    return f"{line}; offset: {_exactly(unit.offset * unit.factor)}" if unit.offset else line


def definitions() -> list[str]:
    """Write the table of units in pint's definition language."""
    return [line for unit in UNITS.values() if (line := _definition(unit))]


@cache
def registry() -> pint.UnitRegistry[Any]:
    """Make the registry, once: only our units, exact rationals throughout."""
    from fractions import Fraction

    import pint

    made: pint.UnitRegistry[Any] = pint.UnitRegistry(None, non_int_type=Fraction)
    made.load_definitions(definitions())
    return made
