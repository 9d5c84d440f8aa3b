"""How hot a fit asks the tire's mean to be, and how hot its readings let the mean have been."""

from __future__ import annotations

from fractions import Fraction

from axlebook.quantities import render_value
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.fit import TIRE_STEEL, Missing, expansion_of, no_figures, not_sure
from axlebook.records.fitting_clearance import clearance_on_file
from axlebook.records.heat_log import HeatReading
from axlebook.records.squeeze import band_of, center_temperature, needed_temperature

from ._tire_day import Application


def asked_of_the_mean(book: Book, app: Application) -> tuple[Fraction, Fraction, str] | Missing:
    """The least the mean must reach, with the interference at either end of what it can be, and where it comes from."""
    fit = app.fit
    if isinstance(fit, Missing) or fit.shim is None:
        return Missing("", "")  # said by interference-outside-practice
    if (unsure := not_sure(fit)) is not None:
        return unsure
    cold = center_temperature(book, fit)
    if cold is None:
        return Missing("the center's temperature was not read", "Write `center_temperature` under `seating`.")
    clearance = clearance_on_file(book, fit)
    if clearance is None:
        return Missing("no clearance for fitting is on file", "Adopt a set with a practice for `fitting_clearance`.")
    band = band_of(fit)
    ends = [needed_temperature(book, fit, float(clearance[0]), cold, off) for off in (-band, band)]
    if ends[0] is None or ends[1] is None:
        metals = TIRE_STEEL, fields.text(fit.center.tree, "material")
        lacking = next((metal for metal in metals if expansion_of(book, metal) is None), TIRE_STEEL)
        return no_figures(book, lacking, ["expansion"], center=fit.center)
    return Fraction(ends[0]), Fraction(ends[1]), clearance[1]


def mean_at_most(inside: list[HeatReading], tread: list[HeatReading]) -> Fraction | None:
    """The most the mean can have been, a third of the way from inside face to tread; None where a crayon is open."""
    bores, treads = [r.span.high for r in inside], [r.span.high for r in tread]
    if None in bores or None in treads:
        return None
    bore, outside = max(x for x in bores if x is not None), max(x for x in treads if x is not None)
    return bore + max(outside - bore, Fraction(0)) / 3


def degrees(kelvin: Fraction, celsius: bool) -> str:
    """A temperature for a reader, to the degree."""
    return render_value(kelvin, "temperature", "degC" if celsius else "degF", 0)
