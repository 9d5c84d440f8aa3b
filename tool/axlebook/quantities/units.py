"""The one table of units: every factor exact, from which all else here is made.

A value in SI base is `(number + offset) * factor`. The base of each dimension is m, kg, N, Pa, K (temperature
and difference), m/s, s, W, degree of angle, 1/K, and 1 for ratios and counts. Years and months are counts,
because a calendar year has no fixed length; counts of different things never compare (see `Quantity.kind`).

References
----------
NIST Special Publication 811 (2008), appendix B.8: the factors printed in bold are exact by definition; the
inch, the pound and standard gravity are such, and what follows from them is built up here.
"""

from fractions import Fraction
from typing import NamedTuple

_ZERO = Fraction(0)


class Unit(NamedTuple):
    """One unit: `(number + offset) * factor` is the value in the SI base of its dimension."""

    name: str
    dimension: str
    factor: Fraction
    aliases: tuple[str, ...] = ()
    offset: Fraction = _ZERO
    places: int = 3  # decimals shown where a value in this unit has no short exact decimal
    singular: str = ""  # how it is shown after 1; the name where empty
    plural: str = ""  # how it is shown after other numbers; as the singular where empty
    counterpart: str = ""  # the unit of the other system that a reader expects beside it
    fractional: bool = False  # whole numbers of it are usually a fraction that came out even
    largest: int | None = None  # in SI base; the bound of its dimension where None

    def to_base(self, number: Fraction) -> Fraction:
        """Turn a number of this unit into the SI base."""
        return (number + self.offset if self.offset else number) * self.factor

    def from_base(self, exact: Fraction) -> Fraction:
        """Turn a value in the SI base into a number of this unit."""
        number = exact / self.factor
        return number - self.offset if self.offset else number

    def shown(self, number: Fraction) -> str:
        """Name the unit as it is written after a number."""
        singular = self.singular or self.name
        return singular if number.denominator == 1 == abs(number.numerator) else self.plural or singular


_INCH = Fraction("0.0254")
_FOOT = 12 * _INCH
_MILE = 5280 * _FOOT
_POUND = Fraction("0.45359237")
_POUND_FORCE = _POUND * Fraction("9.80665")
_PSI = _POUND_FORCE / _INCH**2
_HOUR = Fraction(3600)
_FAHRENHEIT = Fraction(5, 9)
_LIFETIME = 10**10  # an engine's distance run in all its life is a length too

_TABLE = (
    # length, base m
    Unit("in", "length", _INCH, ('"', "inch", "inches", "ins"), places=4, counterpart="mm", fractional=True),
    Unit("ft", "length", _FOOT, ("'", "foot", "feet"), places=4, counterpart="mm", fractional=True),
    Unit("thou", "length", _INCH / 1000, ("thousandth", "thousandths"), places=1, counterpart="mm"),
    Unit("mile", "length", _MILE, ("miles", "mi"), places=1, plural="miles", counterpart="km",
         largest=_LIFETIME),
    Unit("µm", "length", Fraction(1, 10**6), ("μm", "um", "micron", "microns"), places=1, counterpart="in"),
    Unit("mm", "length", Fraction(1, 1000), ("millimeter", "millimeters", "millimetre", "millimetres"),
         counterpart="in"),
    Unit("cm", "length", Fraction(1, 100), ("centimeter", "centimeters", "centimetre", "centimetres"),
         places=4, counterpart="in"),
    Unit("m", "length", Fraction(1), ("meter", "meters", "metre", "metres"), places=6, counterpart="in"),
    Unit("km", "length", Fraction(1000), ("kilometer", "kilometers", "kilometre", "kilometres"),
         places=1, counterpart="mile", largest=_LIFETIME),
    # mass, base kg
    Unit("lb", "mass", _POUND, ("lbs", "pound", "pounds"), places=0, counterpart="kg"),
    Unit("oz", "mass", _POUND / 16, ("ounce", "ounces"), places=2, counterpart="kg"),
    Unit("long ton", "mass", 2240 * _POUND, ("long tons",), plural="long tons", counterpart="t"),
    Unit("short ton", "mass", 2000 * _POUND, ("short tons",), plural="short tons", counterpart="t"),
    Unit("kg", "mass", Fraction(1), ("kilogram", "kilograms"), places=1, counterpart="lb"),
    Unit("t", "mass", Fraction(1000), ("tonne", "tonnes", "metric ton", "metric tons"), counterpart="lb"),
    # force, base N
    Unit("lbf", "force", _POUND_FORCE, ("pound-force", "pounds-force"), places=0, counterpart="kN"),
    Unit("N", "force", Fraction(1), ("newton", "newtons"), places=0, counterpart="lbf"),
    Unit("kN", "force", Fraction(1000), ("kilonewton", "kilonewtons"), places=2, counterpart="lbf"),
    Unit("short tonf", "force", 2000 * _POUND_FORCE, ("short ton-force", "short tons-force"),
         counterpart="kN"),
    Unit("long tonf", "force", 2240 * _POUND_FORCE, ("long ton-force", "long tons-force"), counterpart="kN"),
    # pressure and stress, base Pa
    Unit("psi", "pressure", _PSI, ("lbf/in2", "lbf/in²", "lb/in2", "lb/in²", "lb/sq in", "lbf/sq in"),
         places=1, counterpart="MPa"),
    Unit("ksi", "pressure", 1000 * _PSI, (), places=2, counterpart="MPa"),
    Unit("Pa", "pressure", Fraction(1), ("pascal", "pascals"), places=0, counterpart="psi"),
    Unit("kPa", "pressure", Fraction(1000), (), places=1, counterpart="psi"),
    Unit("MPa", "pressure", Fraction(10**6), ("N/mm2", "N/mm²", "N/mm^2"), places=2, counterpart="psi"),
    Unit("GPa", "pressure", Fraction(10**9), (), places=3, counterpart="psi"),
    Unit("bar", "pressure", Fraction(10**5), ("bars",), places=2, counterpart="psi"),
    # temperature, base K
    Unit("degF", "temperature", _FAHRENHEIT,
         ("deg F", "deg. F", "°F", "° F", "degrees F", "degrees Fahrenheit", "degree Fahrenheit"),
         offset=Fraction("459.67"), places=1, counterpart="degC"),
    Unit("degC", "temperature", Fraction(1),
         ("deg C", "deg. C", "°C", "° C", "degrees C", "degrees Celsius", "degree Celsius"),
         offset=Fraction("273.15"), places=1, counterpart="degF"),
    Unit("K", "temperature", Fraction(1), ("kelvin", "kelvins"), places=1, counterpart="degF"),
    # a difference of two temperatures has no zero point of its own, base K
    Unit("delta_degF", "temperature_difference", _FAHRENHEIT, ("degF difference",), places=1,
         singular="degF difference", counterpart="delta_degC"),
    Unit("delta_degC", "temperature_difference", Fraction(1), ("degC difference",), places=1,
         singular="degC difference", counterpart="delta_degF"),
    Unit("delta_K", "temperature_difference", Fraction(1), ("K difference",), places=1,
         singular="K difference", counterpart="delta_degF"),
    # speed, base m/s
    Unit("mph", "speed", _MILE / _HOUR, ("mile/h", "miles/h", "mi/h", "miles per hour"), places=1,
         counterpart="km/h"),
    Unit("km/h", "speed", 1000 / _HOUR, ("kph", "kmh", "km per hour"), places=1, counterpart="mph"),
    Unit("ft/s", "speed", _FOOT, ("ft/sec", "feet per second"), places=2, counterpart="m/s"),
    Unit("m/s", "speed", Fraction(1), ("m/sec", "meters per second"), places=2, counterpart="mph"),
    # time, base s
    Unit("s", "time", Fraction(1), ("sec", "second", "seconds"), places=1),
    Unit("min", "time", Fraction(60), ("minute", "minutes", "mins"), places=1),
    Unit("h", "time", _HOUR, ("hr", "hrs", "hour", "hours"), places=2),
    Unit("day", "time", 24 * _HOUR, ("days",), places=2, plural="days"),
    # power, base W
    Unit("W", "power", Fraction(1), ("watt", "watts"), places=0, counterpart="hp"),
    Unit("kW", "power", Fraction(1000), ("kilowatt", "kilowatts"), places=1, counterpart="hp"),
    Unit("hp", "power", 550 * _FOOT * _POUND_FORCE, ("horsepower",), places=1, counterpart="kW"),
    # angle, base degree: positions round a wheel are named by it
    Unit("deg", "angle", Fraction(1), ("°", "degree", "degrees", "degs"), places=2),
    # thermal expansion, base 1/K
    Unit("1/degF", "expansion", 1 / _FAHRENHEIT, ("/degF", "per degF", "/°F", "1/°F", "per °F"), places=9,
         counterpart="1/K"),
    Unit("1/K", "expansion", Fraction(1),
         ("/K", "per K", "/degC", "1/degC", "per degC", "/°C", "1/°C", "per °C"), places=9,
         counterpart="1/degF"),
    # ratio and counts, base 1
    Unit("percent", "ratio", Fraction(1, 100), ("%", "per cent"), places=2),
    # hardness, a Brinell number as stamped on a certificate: a scale, not convertible
    Unit("HB", "hardness", Fraction(1), ("HBW", "BHN")),
    Unit("spoke", "count", Fraction(1), ("spokes",), plural="spokes"),
    Unit("piece", "count", Fraction(1), ("pieces",), plural="pieces"),
    Unit("leaf", "count", Fraction(1), ("leaves",), plural="leaves"),
    Unit("bolt", "count", Fraction(1), ("bolts",), plural="bolts"),
    Unit("turn", "count", Fraction(1), ("turns",), plural="turns"),
    Unit("place", "count", Fraction(1), ("places",), plural="places"),
    Unit("means", "count", Fraction(1), (), plural="means"),
    Unit("service day", "count", Fraction(1), ("service days",), plural="service days"),
    Unit("month", "count", Fraction(1), ("months",), plural="months"),
    Unit("year", "count", Fraction(1), ("years",), plural="years"),
)  # fmt: skip

UNITS: dict[str, Unit] = {unit.name: unit for unit in _TABLE}

#: Every accepted spelling, exactly as written.
SPELLINGS: dict[str, Unit] = {text: unit for unit in _TABLE for text in (unit.name, *unit.aliases)}

# One letter means different things in capitals (t and T, m and M); longer spellings may be shouted.
_SHOUTED: dict[str, Unit] = {text.casefold(): unit for text, unit in SPELLINGS.items() if len(text) > 1}

#: The largest size believed, in SI base, for each dimension.
LARGEST: dict[str, int] = {
    "length": 10**6,
    "mass": 10**7,
    "force": 10**8,
    "pressure": 10**13,
    "temperature": 3500,
    "temperature_difference": 3500,
    "speed": 1000,
    "time": 10**10,
    "power": 10**9,
    "angle": 36000,
    "expansion": 1,
    "ratio": 1000,
    "hardness": 2000,
    "count": 10**9,
}

#: How a value of each dimension may be written, for hints.
EXAMPLES: dict[str, str] = {
    "length": "53 3/8 in",
    "mass": "143000 lb",
    "force": "90 short tonf",
    "pressure": "75000 psi",
    "temperature": "350 degF",
    "temperature_difference": "50 degF",
    "speed": "25 mph",
    "time": "45 min",
    "power": "500 kW",
    "angle": "120 deg",
    "expansion": "6.5e-6 1/degF",
    "ratio": "15 percent",
    "hardness": "302 HB",
    "count": "14 spokes",
}


def find_unit(text: str) -> Unit | None:
    """Find the unit that a spelling stands for, forgiving a final point, capitals and doubled spaces.

    >>> find_unit("in.").name, find_unit("PSI").name, find_unit("furlong")
    ('in', 'psi', None)
    """
    if unit := SPELLINGS.get(text):
        return unit
    tidy = " ".join(filter(None, text.split(" ")))  # a tab or line break inside a value is not forgiven
    if tidy.endswith(".") and tidy[:-1].isalpha():
        tidy = tidy[:-1]
    # A thousandth of a pascal is no unit of this table, and must not become a million.
    return None if tidy == "mPa" else SPELLINGS.get(tidy) or _SHOUTED.get(tidy.casefold())
