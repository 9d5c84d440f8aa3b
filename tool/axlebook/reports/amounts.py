"""Worked-out amounts as a reader sees them: both systems, the ledger's own first, no more digits than they deserve.

What is printed here is rounded for the eye; the figures of a JSON report are not.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import floor, log10

from axlebook.quantities import UNITS, render_value

_POUND_FOOT = 1.3558179483314004  # N m, from the exact pound-force and foot
_BTU = 1055.05585262  # J, International Table


def significant(value: float, digits: int = 3) -> str:
    """A number with so many significant digits, no power of ten, thousands apart.

    >>> significant(2913.4), significant(0.01234), significant(20.05), significant(1234567.0)
    ('2910', '0.0123', '20.1', '1,230,000')
    """
    if value == 0.0:
        return "0"
    places = digits - 1 - floor(log10(abs(value)))
    rounded = round(value, places)
    text = f"{rounded:,.{max(places, 0)}f}"
    return text.replace(",", "") if len(text.lstrip("-")) == 5 else text


def _in(value: float, unit: str, digits: int) -> str:
    return f"{significant(float(UNITS[unit].from_base(Fraction(value))), digits)} {unit}"


def _padded(text: str, places: int) -> str:
    """A written decimal with so many places."""
    whole, _, rest = text.partition(".")
    return f"{whole}.{rest.ljust(places, '0')}"


@dataclass(frozen=True)
class Amounts:
    """Renders amounts; `metric` puts the metric system first, `single` leaves the other out."""

    metric: bool = False
    single: bool = False

    def _both(self, inch: str, metric: str) -> str:
        first, second = (metric, inch) if self.metric else (inch, metric)
        return first if self.single else f"{first} ({second})"

    def _two(self, value: float, inch: str, metric: str, digits: int = 3) -> str:
        return self._both(_in(value, inch, digits), _in(value, metric, digits))

    def length(self, metres: float | Fraction, inch_places: int = 4) -> str:
        """A length: .0001 in and 0.001 mm."""
        exact = Fraction(metres)
        return self._both(
            render_value(exact, "length", "in", inch_places), render_value(exact, "length", "mm", inch_places - 1)
        )

    def worked_to(self, *metres: float | Fraction) -> list[str]:
        """Lengths that stand side by side to be worked to: alike in decimals, so 43.960 in beside 43.952 in."""
        columns = []
        for unit, places in (("in", 4), ("mm", 3)):
            found = [render_value(Fraction(one), "length", unit, places).removesuffix(f" {unit}") for one in metres]
            most = max(places - 1, *(len(text.partition(".")[2]) for text in found))
            columns.append([f"{_padded(text, most)} {unit}" for text in found])
        return [self._both(inch, metric) for inch, metric in zip(*columns, strict=True)]

    def length_one(self, metres: float, inch_places: int = 3) -> str:
        """A length in the first system only, every digit written out: for a table to work from."""
        value, unit, places = metres / 0.0254, "in", inch_places
        if self.metric:
            value, unit, places = metres * 1000.0, "mm", inch_places - 1
        return f"{value:.{places}f} {unit}"

    def stress(self, pascals: float) -> str:
        """A pressure or stress."""
        return self._two(pascals, "psi", "MPa")

    def modulus(self, pascals: float) -> str:
        """A modulus of elasticity."""
        return self._two(pascals, "psi", "GPa")

    def temperature(self, kelvin: float) -> str:
        """A temperature, to the degree."""
        exact = Fraction(kelvin)
        fahrenheit, celsius = (render_value(exact, "temperature", unit, 0) for unit in ("degF", "degC"))
        return self._both(fahrenheit, celsius)

    def rise(self, kelvin: float) -> str:
        """A DIFFERENCE of temperatures: no zero point is taken off."""
        return self._both(f"{kelvin * 1.8:.0f} degF", f"{kelvin:.0f} degC")

    def mass(self, kilograms: float) -> str:
        """A mass."""
        return self._two(kilograms, "lb", "kg")

    def force(self, newtons: float) -> str:
        """A force."""
        return self._two(newtons, "lbf", "kN")

    def torque(self, newton_metres: float) -> str:
        """A torque."""
        return self._both(
            f"{significant(newton_metres / _POUND_FOOT)} lbf ft", f"{significant(newton_metres / 1000.0)} kN m"
        )

    def heat(self, joules: float) -> str:
        """An amount of heat."""
        return self._both(f"{significant(joules / _BTU)} Btu", f"{significant(joules / 1e6)} MJ")

    def span(self, least: str, most: str) -> str:
        """From one amount to another."""
        return f"{least} to {most}"


def minutes(seconds: float) -> str:
    """A time to the minute, or to the half minute below ten.

    >>> minutes(95.0), minutes(1234.0)
    ('1.5 min', '21 min')
    """
    found = seconds / 60.0
    return f"{round(found * 2) / 2:g} min" if found < 10 else f"{found:.0f} min"


def percent(share: float) -> str:
    """A share in percent."""
    return f"{100.0 * share:.0f} percent"
