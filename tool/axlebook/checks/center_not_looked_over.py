"""A tire went on a center in which a crack was seen, or that nobody looked over.

What is judged: for every tire that is on by record, what the record of that day says of cracks in the center, which
can be seen all round only while the tire is off. A crack seen is told, and so is a center that was not looked at. An
observation of that day or of the readings it cites counts as well.

What to do: a crack goes to the mechanical lead before the wheel turns. A center not looked over is examined at its
hub, spokes and rim as far as it can be reached, by dye or magnets.

Source: common practice, no source. What may not run is the matter of the limits on center_crack and broken_spoke.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records import fields
from axlebook.records.book import Book, Thing

from ._tire_day import Application, applications, not_told

ID = "center-not-looked-over"
WORDS = {"seen": "a crack was seen in the center", "not looked": "nobody looked the center over for cracks"}
NEXT = "Examine hub, spokes and rim by dye or magnets before the wheel turns, and tell the mechanical lead."


def check(book: Book) -> Iterator[Finding]:
    """Look at what was written of the center."""
    for app in applications(book):
        yield _judged(book, app)


def _judged(book: Book, app: Application) -> Finding:
    said, at = app.told("before", "center_cracks") or _observed(book, app), app.at("before", "center_cracks")
    if said == "not seen":
        return Finding(ID, Verdict.WITHIN, Severity.WATCH, app.subject, at, "", quantity="center_cracks")
    if said not in WORDS:
        return not_told(ID, app, at, "whether the center was looked over for cracks", "center_cracks")
    return Finding(
        ID, Verdict.SUSPECT, Severity.WATCH, app.subject, at, f"{app.subject}: {WORDS[said]}, and the tire went on.",
        source="common practice, no source", next=NEXT, quantity="center_cracks",
    )  # fmt: skip


def _observed(book: Book, app: Application) -> str:
    """What was seen in that session, or in those the fit was worked out from."""
    cited = {app.session.id, *fields.texts(app.session.tree, "fit_from")}
    found = [o for o in book.seen.get((Thing("center", app.center.id), "center_crack"), ()) if o.source.record in cited]
    answers = {o.answer for o in found}
    return "seen" if "seen" in answers else "not seen" if "not seen" in answers else ""
