"""The shrink fit stretches the tire more than the railway allows for its steel.

What is judged: the hoop stress at the bore from the measured interference, as a share of the yield strength on the
tire's certificate, by the limits on `hoop_share`. It is known between two bounds, for the spokes of the center are
not modelled here: the rim alone gives the least, a solid disc the most, and the uncertainty of the readings widens
both. It is judged only when all of it lies on one side. Thin tires: the stress at the bore rises a little with wear.

What to do: measure bore and center again. A stress that stands is a matter for whoever chose the allowance.

Source: the limit record named in the finding; Lame's thick ring in plane stress.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Figure, Finding
from axlebook.limits import Span
from axlebook.quantities import render_value
from axlebook.records.book import Book
from axlebook.records.fit import Fit, Missing
from axlebook.records.squeeze import Squeeze, find_squeeze

from ._by_limit import decide, limit_finding, once
from ._tire_day import Application, applications, lacking

ID = "hoop-stress-high"
QUANTITIES = ("hoop_share",)
NEXT = "Measure bore and center again; then ask whoever chose the allowance."


def check(book: Book) -> Iterator[Finding]:
    """Judge the hoop stress of every tire that is on by record."""
    return once(finding for app in applications(book) if (finding := _of(book, app)) is not None)


def _of(book: Book, app: Application) -> Finding | None:
    if isinstance(app.fit, Missing) or app.fit.shim is None:
        return None  # what keeps the fit from being worked out is said by interference-outside-practice
    squeeze = find_squeeze(book, app.fit)
    if isinstance(squeeze, Missing):
        return lacking(ID, app, squeeze, "hoop_share")
    if app.tire.yield_strength is None or app.tire.yield_strength <= 0:
        step = "Enter `yield_strength` from the certificate in the tire's record."
        return lacking(ID, app, Missing("the yield strength of the tire is not on record", step), "hoop_share")
    return _judged(book, app, app.fit, squeeze, app.tire.yield_strength)


def _judged(book: Book, app: Application, fit: Fit, squeeze: Squeeze, strength: Fraction) -> Finding:
    low, high = Fraction(squeeze.hoop.low), Fraction(squeeze.hoop.high)
    judged = decide(book, app.stand, "hoop_share", Span(low / strength, high / strength))
    unit, places = ("MPa", 2) if book.in_mm(app.engine) else ("psi", 0)
    stress = " to ".join(render_value(x, "pressure", unit, places) for x in (low, high))
    share = " to ".join(render_value(x / strength, "ratio", "percent", 0) for x in (low, high))
    told = render_value(strength, "pressure", unit, places)
    text = f"hoop stress at the bore {stress}, {share} of the yield strength {told}"
    figures = (
        Figure("hoop stress, rim alone", repr(squeeze.hoop.low), "Pa", "computed"),
        Figure("hoop stress, solid disc", repr(squeeze.hoop.high), "Pa", "computed"),
        Figure("yield strength", repr(float(strength)), "Pa", app.tire.id),
        Figure("interference", repr(fit.interference * 1000), "mm", "computed"),
    )
    return limit_finding(book, ID, app.subject, app.at(), judged, "hoop_share", text, NEXT, figures)
