"""The growth of the taped tread does not show that the tire grips.

What is judged: for every tire that is on by record, its tread taped cold before it went on and cold after, both at
68 degF, against the growth that the measured interference lets expect. The rim of the center alone gives the least,
a solid disc the most; the uncertainty of the fit widens both, and that of the two tapings is a guard band. Too little
growth: the tire does not grip as its fit says. Too much: it was stretched, or a reading is wrong. Not assessed, for
nothing is proved: a rule or tape that cannot show so small a growth, or whose fineness is not on record; temperatures
that nobody wrote, where they may hide it; a fit so uncertain that it asks for no growth.

What to do: tape again, cold, at the same line with the same tape. If it stands, measure what can be reached of the
center, and watch the tire as a loose one.

Source: the readings of the day; Lame's thick ring in plane stress, with the moduli adopted in ledger.yaml.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.records.book import Book, Thing
from axlebook.records.fit import TIRE_STEEL, Fit, Missing, Size, size
from axlebook.records.growth import shown_by
from axlebook.records.squeeze import Bounds, find_squeeze

from ._by_limit import by_own_limits, computed
from ._tire_day import Application, applications, lacking, not_told
from ._words import figured

ID = "grip-not-proved"
QUANTITIES = ("tread_growth",)
NEXT = "Tape the tread again, cold, at the same line with the same tape; if it stands, watch the tire as a loose one."


def check(book: Book) -> Iterator[Finding]:
    """Hold the growth of every taped tread against what its fit lets expect."""
    for app in applications(book):
        mm = book.in_mm(app.stand.engine if app.stand else None)
        found = _judged(book, app, mm)
        if found is not None:
            yield found
            grown = {figure.name: float(figure.value) / 1000 for figure in found.figures if figure.unit == "mm"}
            if grown and book.limits_on(app.stand.engine if app.stand else None, found.quantity):
                text = f"the tread grew {figured(Fraction(grown['growth of the tread']), 'length', mm)}"
                value, band = grown["growth of the tread"], grown["guard band"]
                yield from by_own_limits(book, app.stand, found, value, band, text)


def _judged(book: Book, app: Application, mm: bool) -> Finding | None:
    sizes = []
    for when in ("cold before", "cold after"):
        readings = [
            r for r in book.series.get((Thing("tire", app.tire.id), "tread_diameter"), ())
            if r.source.record == app.session.id and r.when == when
        ]  # fmt: skip
        if not readings:
            return not_told(ID, app, app.at("readings"), f"the tread, taped {when}", "tread_growth")
        found = size(book, "tread_diameter", readings, TIRE_STEEL)
        if isinstance(found, Missing):
            return lacking(ID, app, found, "tread_growth")
        sizes.append(found)
    if isinstance(app.fit, Missing) or app.fit.shim is None:
        return None  # said by interference-outside-practice
    squeeze = find_squeeze(book, app.fit)
    if isinstance(squeeze, Missing):
        return lacking(ID, app, squeeze, "tread_growth")
    return _compared(app, sizes[0], sizes[1], squeeze.growth, app.fit, mm)


def _compared(app: Application, before: Size, after: Size, expected: Bounds, fit: Fit, mm: bool) -> Finding:
    shown, at = shown_by(before, after, expected), after.readings[0].at
    grown, band = shown.grown, shown.band
    if shown.hidden is not None:
        least = f"; at least {figured(Fraction(expected.low), 'length', mm)} is asked" if expected.low > 0 else ""
        words = f"{app.subject}: {shown.hidden.cause}{least}. Nothing is proved."
        return Finding(ID, Verdict.NOT_ASSESSED, Severity.WATCH, app.subject, at, words, next=shown.hidden.next,
                       quantity="tread_growth", cause=shown.hidden.cause)  # fmt: skip
    off = shown.short or shown.large
    verdict = Verdict.SUSPECT if off else Verdict.WITHIN if shown.proved else Verdict.UNDECIDED
    means = "The tire is stretched, or a reading is wrong." if shown.large else "It does not grip as its fit says."
    if verdict is Verdict.UNDECIDED:
        untold = "a temperature was not written, and " if before.doubt or after.doubt else ""
        means = f"Undecided: {untold}it may grip less than its fit says."
    figures = (grown, band, fit.interference, expected.low, expected.high)
    return Finding(
        ID, verdict, Severity.WATCH, app.subject, at,
        "" if verdict is Verdict.WITHIN else f"{app.subject}: {_grew(figures, mm)}. {means}",
        (
            computed("growth of the tread", grown), computed("guard band", band),
            computed("least expected, rim alone", expected.low), computed("most expected, solid disc", expected.high),
            Figure("taped before", before.diameters[0].text, "", app.session.id),
            Figure("taped after", after.diameters[0].text, "", app.session.id),
        ),
        "readings of the day the tire went on", NEXT, "tread_growth", "68 degF",
    )  # fmt: skip


def _grew(metres: tuple[float, ...], mm: bool) -> str:
    grown, band, interference, low, high = (figured(Fraction(one), "length", mm) for one in metres)
    return f"the tread grew {grown}, good to {band}; its fit of {interference} lets expect {low} to {high}"
