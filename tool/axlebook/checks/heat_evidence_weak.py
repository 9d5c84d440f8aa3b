"""Nothing that was read tells the mean temperature of the tire.

What is judged: for every tire that is on by record and has a heat log, on which face and with what the heat was
read. The bore follows the mean of the whole tire. Fire on the tread makes the tread hotter than the mean: a crayon
there overstates it, and is no proof. An infrared reading depends on the surface it looks at: alone it is weak. What
touched the inside face (a crayon, a contact pyrometer) tells the least the mean can be, when the fire is on the tread.

What to do: read the inside face of the next tire, at every marked place, with crayon and contact pyrometer. For a
tire that is on, the growth of the taped tread is the proof that counts.

Source: common practice, no source; the rest is derived from steady heating of a slab.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.heat_log import BORE, NOT_CONTACT, HeatReading, heat_readings, last_round, told_together

from ._tire_day import Application, applications

ID = "heat-evidence-weak"
NEXT = "Let the growth of the taped tread decide; on the next tire read the inside face with crayon and pyrometer."


def check(book: Book) -> Iterator[Finding]:
    """Look at where and with what the heat was read."""
    for app in applications(book):
        readings = heat_readings(book, app.session)
        if readings:
            yield _judged(app, readings)


def _judged(app: Application, readings: list[HeatReading]) -> Finding:
    inside = last_round(readings, BORE)
    if any(r.contact != NOT_CONTACT for r in inside):
        return Finding(ID, Verdict.WITHIN, Severity.SHOP, app.subject, app.at("heat"), "", quantity="heat")
    if inside:
        words, cause = "infrared alone", "the heat was read by infrared alone"
    else:
        words, cause = "not on the inside face", "the heat was not read on the inside face"
    return Finding(
        ID, Verdict.NOT_ASSESSED, Severity.SHOP, app.subject, readings[0].at,
        f"{app.subject}: the heat ({told_together(readings)}) was read {words}. That is weak evidence of the mean, "
        "which is what the bore follows.", source="common practice, no source", next=NEXT, quantity="heat", cause=cause,
    )  # fmt: skip
