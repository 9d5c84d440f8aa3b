"""The tire was not shown to be hot enough for its fit when it went on.

What is judged: for every tire that is on by record, the temperature that its measured interference and the fitting
clearance on file ask of the tire's MEAN, counted from the center's own temperature, against the last readings of the
inside face at each place. The coldest place counts. Fire on the tread makes the tread hotter than the mean and the
inside face colder: in steady heating the mean lies a third of the way from the inside face to the tread. Crayons that
melt on the tread while the inside face is still cold are the trap that is named here. Only the tread read: see
heat-evidence-weak; but a tread colder than the fit asks condemns the heat by itself.

What to do: a tire that went on too cold may stop before it is home and hang on its edge. Look at the feelers of the
register and at the growth of the taped tread. Next time give it time to soak, and read the inside face.

Source: the practice named in the finding; linear expansion of tire and center.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.quantities import render_value
from axlebook.records.book import Book
from axlebook.records.fit import Missing
from axlebook.records.heat_log import BORE, NOT_CONTACT, TREAD, HeatReading, heat_readings, last_round, told_together

from ._heat_asked import asked_of_the_mean, degrees, mean_at_most
from ._tire_day import Application, applications, lacking

ID = "mean-too-cold"
QUANTITIES = ("fitting_clearance",)
NEXT = (
    "Look at the register's feelers and the growth of the taped tread; next time let it soak, and read the inside face."
)


def check(book: Book) -> Iterator[Finding]:
    """Hold the last round of every heat log against what the fit asks."""
    for app in applications(book):
        readings = heat_readings(book, app.session)
        inside = [r for r in last_round(readings, BORE) if r.contact != NOT_CONTACT]
        tread = last_round(readings, TREAD)
        if inside or tread:
            yield from _judged(book, app, inside, tread)


def _judged(book: Book, app: Application, inside: list[HeatReading], tread: list[HeatReading]) -> Iterator[Finding]:
    asked = asked_of_the_mean(book, app)
    if isinstance(asked, Missing):
        if asked.cause:
            yield lacking(ID, app, asked, "heat")
        return
    low, high, source = asked
    verdict = _verdict(inside or tread, low, high)
    if not inside and verdict is not Verdict.OUTSIDE:
        return  # a hot tread proves nothing: heat-evidence-weak says so
    trap = (
        bool(inside) and verdict is Verdict.OUTSIDE and any(r.span.low is not None and r.span.low >= low for r in tread)
    )
    within, celsius = verdict is Verdict.WITHIN, book.in_mm(app.engine)
    yield Finding(
        ID, Verdict.SUSPECT if trap else verdict, Severity.SHOP, app.subject, (inside or tread)[0].at,
        "" if within else _words(app, inside, tread, high, verdict, trap, celsius=celsius),
        (
            Figure("temperature asked", render_value(high, "temperature", "degF", 1).split(" ")[0], "degF", "computed"),
            Figure("read on the inside face", told_together(inside), "", app.session.id),
            Figure("read on the tread", told_together(tread), "", app.session.id),
        ),
        source, NEXT, "heat",
    )  # fmt: skip


def _verdict(readings: list[HeatReading], low: Fraction, high: Fraction) -> Verdict:
    if any(r.span.high is not None and r.span.high < low for r in readings):
        return Verdict.OUTSIDE
    hot = all(r.span.low is not None and r.span.low >= high for r in readings)
    return Verdict.WITHIN if hot else Verdict.UNDECIDED


def _words(
    app: Application, inside: list[HeatReading], tread: list[HeatReading], high: Fraction, verdict: Verdict, trap: bool,
    *, celsius: bool,
) -> str:  # fmt: skip
    asks = f"The fit asks {degrees(high, celsius)} of the mean"
    if trap:
        most = mean_at_most(inside, tread)
        shown = "the mean too cold" if most is None or most < high else "the mean not shown to be hot enough"
        told = f", which can have been about {degrees(most, celsius)} at most" if most is not None else ""
        return (
            f"{app.subject}: hot outside, {shown}. The tread read {told_together(tread)}, but the inside face "
            f"only {told_together(inside)}. {asks}{told}."
        )
    face = "inside face" if inside else "tread, its hottest face,"
    read = f"{app.subject}: the {face} read {told_together(inside or tread)}. {asks}."
    return read if verdict is Verdict.OUTSIDE else f"{read} The readings cannot tell whether it was there."
