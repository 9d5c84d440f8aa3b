"""A tire was heated above the ceiling that its maker gives.

What is judged: for every tire that is on by record, the hottest reading of its heat log, on whatever face, against
the heat ceiling in the tire's own record. A reading of exactly the ceiling is within. Without a ceiling on record it
is not assessed. A crayon that melted says only "over": without a hotter one that did not melt it is undecided. Words
such as `cherry red` in the log or the notes are told by themselves.

What to do: heat-treated tires lose strength above their ceiling. Ask the maker, and read the hardness at four places
before the wheel turns.

Source: the tire's own record, from its certificate.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Figure, Finding, Place, Severity, Verdict
from axlebook.quantities import render_value
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.fit import Missing
from axlebook.records.heat_log import HeatReading, heat_readings

from ._heat_asked import degrees
from ._tire_day import Application, applications, lacking

ID = "heat-over-ceiling"
NEXT = "Ask the maker of the tire, and read its hardness at four places before the wheel turns."
GLOWING = re.compile(r"(?i)\b(?:cherry[- ]?red|red[- ]?hot|dull red|glow(?:ed|ing)?|white[- ]?hot|orange[- ]?hot)\b")
OPEN = Fraction(10**9)


def check(book: Book) -> Iterator[Finding]:
    """Look for the hottest reading of every log, and for words of glowing metal."""
    for app in applications(book):
        yield from _glowing(app)
        readings = heat_readings(book, app.session)
        if readings:
            yield _judged(app, _hottest(readings, app.tire.heat_ceiling), book.in_mm(app.engine))


def _hottest(readings: list[HeatReading], ceiling: Fraction | None) -> HeatReading:
    """The reading that can be hottest; one that is above the ceiling for certain before what only may be."""
    certain = [r for r in readings if ceiling is not None and r.span.low is not None and r.span.low > ceiling]
    return max(certain or readings, key=lambda r: OPEN if r.span.high is None else r.span.high)


def _judged(app: Application, hottest: HeatReading, celsius: bool) -> Finding:
    ceiling = app.tire.heat_ceiling
    if ceiling is None:
        step = "Ask the maker, and enter `heat_ceiling` in the tire's record."
        return lacking(ID, app, Missing("the heat ceiling of the tire is not on record", step), "heat")
    low, high = hottest.span.low, hottest.span.high
    verdict = Verdict.UNDECIDED
    if low is not None and low > ceiling:
        verdict = Verdict.OUTSIDE
    elif high is not None and high <= ceiling:
        verdict = Verdict.WITHIN
    words = f"{app.subject}: read {hottest.text}; the ceiling is {degrees(ceiling, celsius)}."
    words += " No crayon above it stayed dry, so nobody knows how hot it was." if verdict is Verdict.UNDECIDED else ""
    severity = Severity.SHOP if verdict is Verdict.UNDECIDED else Severity.WATCH
    return Finding(
        ID, verdict, severity, app.subject, hottest.at, "" if verdict is Verdict.WITHIN else words,
        (
            Figure("read", hottest.text, "", app.session.id),
            Figure("heat ceiling", render_value(ceiling, "temperature", "degF", 1).split(" ")[0], "degF", app.tire.id),
        ),
        f"record of {app.tire.id}", NEXT, "heat",
    )  # fmt: skip


def _glowing(app: Application) -> Iterator[Finding]:
    for at, text in _notes(app):
        found = GLOWING.search(text)
        if found:
            yield Finding(
                ID, Verdict.SUSPECT, Severity.WATCH, app.subject, at,
                f"{app.subject}: the record says `{found.group()}`. Steel that glows is far above any fit's need.",
                source=f"record of {app.session.id}", next=NEXT, quantity="note", where=at.pointer,
            )  # fmt: skip


def _notes(app: Application) -> Iterator[tuple[Place, str]]:
    tree = app.session.tree
    yield app.at("note"), fields.text(tree, "note")
    yield app.at("fuel"), fields.text(tree, "fuel")
    yield app.at("seating", "note"), app.told("seating", "note")
    yield app.at("before", "note"), app.told("before", "note")
    for index, entry in enumerate(fields.items(tree, "heat")):
        if entry:
            yield app.at("heat", index, "note"), fields.text(entry, "note")
