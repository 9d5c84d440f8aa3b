"""The table of units against two outside truths: NIST's printed factors, and pint's own registry."""

import os
import subprocess
import sys
from fractions import Fraction
from typing import Any

import pint
import pytest

from axlebook.quantities import UNITS, parse_measure, registry
from axlebook.quantities.units import EXAMPLES, LARGEST, SPELLINGS

# A. Thompson and B. N. Taylor, Guide for the Use of the International System of Units (SI), NIST Special
# Publication 811, 2008 edition, appendix B.8, from memory; True where the factor is bold, so exact.
NIST = [
    ("in", "2.54 E-02", True),
    ("ft", "3.048 E-01", True),
    ("mile", "1.609344 E+03", True),
    ("thou", "2.54 E-05", True),  # there: mil (0.001 in)
    ("µm", "1.0 E-06", True),  # there: micron
    ("lb", "4.535924 E-01", False),
    ("oz", "2.834952 E-02", False),
    ("long ton", "1.016047 E+03", False),
    ("short ton", "9.071847 E+02", False),
    ("t", "1.0 E+03", True),
    ("lbf", "4.448222 E+00", False),
    ("short tonf", "8.896443 E+03", False),  # there: ton-force (2000 lbf)
    ("psi", "6.894757 E+03", False),
    ("ksi", "6.894757 E+06", False),
    ("bar", "1.0 E+05", True),
    ("mph", "4.4704 E-01", True),
    ("km/h", "2.777778 E-01", False),
    ("ft/s", "3.048 E-01", True),
    ("min", "6.0 E+01", True),
    ("h", "3.6 E+03", True),
    ("day", "8.64 E+04", True),
    ("hp", "7.456999 E+02", False),  # there: horsepower (550 ft lbf/s)
    ("delta_degF", "5.555556 E-01", False),
]


@pytest.mark.parametrize(("name", "printed", "is_exact"), NIST)
def test_a_factor_is_the_one_that_nist_prints(name: str, printed: str, is_exact: bool) -> None:
    mantissa, power = printed.split(" E")
    factor = Fraction(mantissa) * Fraction(10) ** int(power)
    last_digit = Fraction(10) ** (int(power) - len(mantissa.split(".")[1]))
    assert abs(UNITS[name].factor - factor) <= (0 if is_exact else last_digit / 2)


def test_a_long_ton_force_is_the_weight_of_a_long_ton() -> None:
    # 2240 lb x 0.45359237 kg x 9.80665 m/s2 = 9964.016418.. N
    assert abs(UNITS["long tonf"].factor - Fraction("9964.016418")) < Fraction("0.000001")


@pytest.mark.parametrize(("fahrenheit", "celsius"), [(32, 0), (212, 100), (-40, -40), (68, 20)])
def test_the_fixed_points_of_the_thermometers_agree(fahrenheit: int, celsius: int) -> None:
    base = UNITS["degF"].to_base(Fraction(fahrenheit))
    assert UNITS["degC"].from_base(base) == celsius
    assert base == celsius + Fraction("273.15")


PINT_NAMES = {
    "long ton": "long_ton",
    "short ton": "short_ton",
    "short tonf": "US_ton_force",
    "long tonf": "UK_ton_force",
    "km/h": "km/h",
    "delta_K": "K",
    "1/degF": "1/delta_degF",
    "mph": "mile/h",
}
BASES = {
    "length": "m",
    "mass": "kg",
    "force": "N",
    "pressure": "Pa",
    "temperature": "K",
    "temperature_difference": "K",
    "speed": "m/s",
    "time": "s",
    "power": "W",
    "angle": "deg",
    "expansion": "1/K",
    "ratio": "dimensionless",
}


@pytest.fixture(scope="module")
def theirs() -> Any:
    """Give pint's registry as pint ships it."""
    return pint.UnitRegistry()


@pytest.mark.parametrize("name", [unit.name for unit in UNITS.values() if unit.dimension in BASES])
def test_pint_converts_each_unit_as_the_table_does(name: str, theirs: Any) -> None:
    unit = UNITS[name]
    for number in (-3, 1, 250):
        converted = theirs.Quantity(number, PINT_NAMES.get(name, name)).to(BASES[unit.dimension])
        assert float(unit.to_base(Fraction(number))) == pytest.approx(float(converted.magnitude), rel=1e-12)


def test_our_registry_converts_exactly() -> None:
    ours = registry()
    assert ours.Quantity(Fraction(427, 8), "in").to("mm").magnitude == Fraction("1355.725")
    assert ours.Quantity(Fraction(68), "degF").to("degC").magnitude == 20
    assert ours.Quantity(Fraction(90), "delta_degF").to("K").magnitude == 50
    assert ours.Quantity(Fraction(1), "mph").to("km/h").magnitude == Fraction("1.609344")
    assert ours.Quantity(Fraction(1), "hp").to("lbf * ft / s").magnitude == 550
    assert ours.Quantity(Fraction(1), "long_ton").to("lb").magnitude == 2240
    assert ours("6.5e-6 / delta_degF").to("1 / K").magnitude == Fraction("0.0000117")
    assert registry() is ours


@pytest.mark.parametrize("name", [unit.name for unit in UNITS.values() if unit.name.isidentifier()])
def test_our_registry_holds_what_the_table_holds(name: str) -> None:
    unit, ours = UNITS[name], registry()
    if unit.dimension not in BASES:
        assert ours.Quantity(3, name).magnitude == 3
        return
    converted = ours.Quantity(Fraction(7), name).to(BASES[unit.dimension])
    assert converted.magnitude == unit.to_base(Fraction(7))


def test_our_registry_does_not_mix_counts_with_lengths() -> None:
    with pytest.raises(pint.DimensionalityError):
        registry().Quantity(1, "spoke").to("piece")


@pytest.mark.parametrize("spelling", SPELLINGS)
def test_every_spelling_is_read_as_its_unit(spelling: str) -> None:
    number = "0.001" if SPELLINGS[spelling].dimension == "expansion" else "7.25"
    assert parse_measure(f"{number} {spelling}").unit == SPELLINGS[spelling].name


def test_no_spelling_stands_for_two_units() -> None:
    spelled = [text for unit in UNITS.values() for text in (unit.name, *unit.aliases)]
    assert len(spelled) == len(set(spelled))


def test_what_is_shown_after_a_number_can_be_read_again() -> None:
    for unit in UNITS.values():
        for number in (Fraction(1, 200), Fraction(1)):
            assert SPELLINGS[unit.shown(number)] is unit


def test_every_dimension_has_a_bound_and_a_readable_example() -> None:
    dimensions = {unit.dimension for unit in UNITS.values()}
    assert dimensions == set(LARGEST) == set(EXAMPLES)
    for dimension, example in EXAMPLES.items():
        assert parse_measure(example).dimension in (dimension, dimension.removesuffix("_difference"))


def test_counterparts_are_of_the_same_dimension() -> None:
    for unit in UNITS.values():
        if unit.counterpart:
            assert UNITS[unit.counterpart].dimension == unit.dimension


def test_reading_a_measure_loads_nothing_heavy() -> None:
    script = (
        "import sys; from axlebook.quantities import parse_measure; parse_measure('53 3/8 in');"
        "print([name for name in ('pint', 'numpy', 'difflib') if name in sys.modules])"
    )
    done = subprocess.run(
        [sys.executable, "-c", script],
        capture_output=True,
        text=True,
        check=True,
        env=os.environ | {"PYTHONPATH": os.pathsep.join(sys.path)},
    )
    assert done.stdout.strip() == "[]"
