"""The heat of a tire was read at fewer places round it than practice asks.

What is judged: for every tire that is on by record, the number of different angles at which its heat log has a
reading, by the limits on `heat_places`. A log without angles tells of one place. No log at all is not assessed.

What to do: for the next tire mark the places with chalk, equally spaced, and read each of them in every round, time
written beside. What was not read cannot be made up.

Source: the limit record named in the finding.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Finding
from axlebook.limits import point
from axlebook.records.book import Book
from axlebook.records.heat_log import heat_readings

from ._by_limit import decide, limit_finding, once
from ._tire_day import Application, applications, not_told

ID = "heat-log-incomplete"
QUANTITIES = ("heat_places",)
NEXT = "Mark equally spaced places on the next tire and read all of them in every round, with the time."


def check(book: Book) -> Iterator[Finding]:
    """Count the places of every heat log."""
    return once(_judged(book, app) for app in applications(book))


def _judged(book: Book, app: Application) -> Finding:
    readings = heat_readings(book, app.session)
    if not readings:
        return not_told(ID, app, app.at("heat"), "how hot the tire was", "heat_places")
    places = {r.angle for r in readings}
    judged = decide(book, app.stand, "heat_places", point(Fraction(len(places))))
    text = f"the heat was read at {len(places)} place{'s' if len(places) != 1 else ''} round the tire"
    return limit_finding(book, ID, app.subject, app.at("heat"), judged, "heat_places", text, NEXT)
