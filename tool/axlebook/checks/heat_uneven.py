"""A tire was heated unevenly round.

What is judged: for every tire that is on by record, the hottest place less the coldest in the last round of its heat
log, on one face and with one kind of instrument, by the limits on `heat_unevenness`. Crayons give an interval: it is
judged only when all of it lies on one side. Soaking evens the thickness of a tire, not its round.

What to do: move the burner, wait, read again. For a tire that is on, look at the feelers of the register where it
was coldest.

Source: the limit record named in the finding; no published figure was found.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Finding, Severity, Verdict
from axlebook.limits import Span
from axlebook.quantities import render_value
from axlebook.records.book import Book
from axlebook.records.heat_log import BORE, TREAD, HeatReading, heat_readings, last_round, told_together

from ._by_limit import decide, limit_finding, once
from ._tire_day import Application, applications

ID = "heat-uneven"
QUANTITIES = ("heat_unevenness",)
NEXT = "Feel the register where the tire was coldest; next time move the burner and read again before it goes on."


def check(book: Book) -> Iterator[Finding]:
    """Judge how even the last round of every heat log is."""
    return once(found for app in applications(book) if (found := _judged(book, app)) is not None)


def _judged(book: Book, app: Application) -> Finding | None:
    readings = heat_readings(book, app.session)
    here = last_round(readings, BORE) or last_round(readings, TREAD)
    kind = max((r.contact for r in here), key=lambda c: sum(r.contact == c for r in here), default="")
    here = [r for r in here if r.contact == kind]
    if not readings:
        return None  # said by heat-log-incomplete
    if len(here) < 2:
        return Finding(
            ID, Verdict.NOT_ASSESSED, Severity.SHOP, app.subject, app.at("heat"),
            f"{app.subject}: one place does not tell whether the tire was evenly hot.", next=NEXT,
            quantity="heat_unevenness", cause="the heat was read at one place",
        )  # fmt: skip
    spread = _spread(here)
    judged = decide(book, app.stand, "heat_unevenness", spread)
    text = f"the last round reads {told_together(here)}, {_said(spread, book.in_mm(app.engine))} apart"
    return limit_finding(book, ID, app.subject, here[0].at, judged, "heat_unevenness", text, NEXT)


def _spread(readings: list[HeatReading]) -> Span:
    """Hottest less coldest: at least what is certain, at most what is possible; open where a crayon is."""
    lows = [r.span.low for r in readings if r.span.low is not None]
    highs = [r.span.high for r in readings if r.span.high is not None]
    certain = max(max(lows) - min(highs), Fraction(0)) if lows and highs else Fraction(0)
    if not len(lows) == len(highs) == len(readings):
        return Span(certain, None)
    return Span(certain, max(high - low for high, low in _of_two_places(highs, lows)))


def _of_two_places(highs: list[Fraction], lows: list[Fraction]) -> Iterator[tuple[Fraction, Fraction]]:
    """How hot one place can be and how cold another; no place is hotter than itself."""
    for one, high in enumerate(highs):
        yield from ((high, low) for other, low in enumerate(lows) if other != one)


def _said(spread: Span, celsius: bool) -> str:
    unit, size = ("degC", Fraction(1)) if celsius else ("degF", Fraction(9, 5))
    low, high = (
        None if x is None else render_value(x * size, "count", "piece", 0).split(" ")[0]
        for x in (spread.low, spread.high)
    )
    if high is None:
        return f"{low} {unit} or more"
    return f"{low} {unit}" if low == high else f"{low} to {high} {unit}"
