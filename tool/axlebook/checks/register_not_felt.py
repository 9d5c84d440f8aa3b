"""The register of a tire was felt at fewer places than practice asks, or not at all.

What is judged: for every tire that is on by record and is located by a lip or a shoulder, the number of different
places at which feelers were tried at the register on the day it went on or since, by the limits on `register_places`.
A reading `all round` tells of more places than any figure asks. A tire that is located by nothing has no register:
there the gauge readings carry all, see cold-gauge-missing.

What to do: feel it cold, at marked places equally spaced. A feeler that does not enter is `under` its thickness.

Source: the limit record named in the finding.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Finding, Severity, Verdict
from axlebook.limits import point
from axlebook.records.book import Book, Thing

from ._by_limit import decide, limit_finding, once
from ._tire_day import Application, applications, not_told, readings_since

ID = "register-not-felt"
QUANTITIES = ("register_places",)
NEXT = "Feel the register cold, at marked places equally spaced."


def check(book: Book) -> Iterator[Finding]:
    """Count the places felt at every register."""
    return once(_judged(book, app) for app in applications(book) if app.tire.located_by != "nothing")


def _judged(book: Book, app: Application) -> Finding:
    readings = readings_since(book, Thing("tire", app.tire.id), "register_gap", app.session)
    places = {position for r in readings if r.when != "warm after" for position, _ in r.values}
    if not places:
        return not_told(ID, app, app.at("readings"), "what feelers said at the register, cold", "register_places")
    at = readings[-1].at
    if "all round" in places:
        return Finding(ID, Verdict.WITHIN, Severity.SHOP, app.subject, at, "", quantity="register_places")
    judged = decide(book, app.stand, "register_places", point(Fraction(len(places))))
    text = f"the register was felt at {len(places)} place{'s' if len(places) != 1 else ''}"
    return limit_finding(book, ID, app.subject, at, judged, "register_places", text, NEXT)
