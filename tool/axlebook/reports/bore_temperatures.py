"""The table that tells a machine shop what to read at its own temperature."""

from __future__ import annotations

from fractions import Fraction

from axlebook.engineering.metrology import expansion_factor
from axlebook.quantities import UNITS
from axlebook.records.bore_order import BoreBand, inward_down, inward_up

from .amounts import Amounts
from .sheet import Section, Table

INSTRUMENT_EXPANSION = 11.5e-6
"""Of a steel micrometer [1/K]; from memory."""
FAHRENHEIT, CELSIUS = range(50, 95, 5), range(10, 33, 2)


def temperature_table(band: BoreBand, expansion: float, show: Amounts, step: Fraction) -> Section:
    """What the bore reads at other temperatures: with a true length, and with steel as warm as the tire."""
    unit = "degC" if show.metric else "degF"
    digits = 3
    if band.most - band.least < 2 * step:  # so narrow that at another temperature no step may lie within
        digits, step = 4, step / 10
    true, steel = [], []
    for degrees in CELSIUS if show.metric else FAHRENHEIT:
        kelvin = float(UNITS[unit].to_base(Fraction(degrees)))
        part = expansion_factor(kelvin, expansion)
        own = expansion_factor(kelvin, INSTRUMENT_EXPANSION)
        true.append((f"{degrees} {unit}", *_cells(band, part, show, step, digits)))
        steel.append((f"{degrees} {unit}", *_cells(band, part / own, show, step, digits)))
    head = ("Tire and shop at", "least", "aim", "most")
    tables = (
        Table("With an instrument that reads true length", head, tuple(true)),
        Table("With a steel instrument as warm as the tire", head, tuple(steel)),
    )
    notes = (
        "True length: an instrument that does not grow, or whose growth is already taken out",
        "Steel: a micrometer that has lain on the tire until it is as warm nearly corrects itself (expansion "
        f"{INSTRUMENT_EXPANSION * 1e6 / 1.8:.2g}e-6 /degF, {INSTRUMENT_EXPANSION * 1e6:.3g}e-6 /K, from memory)",
        "An instrument at another temperature than the tire follows neither: write both temperatures down and ask",
    )
    return Section("At the shop's temperature read this", tables=tables, notes=notes)


def _cells(band: BoreBand, factor: float, show: Amounts, step: Fraction, digits: int) -> tuple[str, str, str]:
    scale = Fraction(factor)
    least, most = inward_up(band.least * scale, step), inward_down(band.most * scale, step)
    aim = round(band.aim * scale / step) * step
    one, two, three = (show.length_one(float(value), digits) for value in (least, aim, most))
    return one, two, three
