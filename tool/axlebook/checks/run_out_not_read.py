"""Run-out was not read after a tire went on.

What is judged: for every tire that is on by record, whether the run-out of its tread and of its flange back was read
on the day it went on or since. How much it may be is the matter of run-out. Until it was read it is not assessed.

What to do: turn the wheelset with a dial gauge on the tread and on the flange back, one full turn each, cold.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book, Thing

from ._tire_day import Application, applications, readings_since

ID = "run-out-not-read"
ASKED = ("tread_run_out", "flange_back_run_out")
NEXT = "Turn the wheelset with a dial gauge on tread and flange back, one full turn each, cold."


def check(book: Book) -> Iterator[Finding]:
    """Look for run-out of every tire since it went on."""
    for app in applications(book):
        for quantity in ASKED:
            if quantity == "tread_run_out" or app.tire.flange != "plain":
                yield _judged(book, app, quantity)


def _judged(book: Book, app: Application, quantity: str) -> Finding:
    readings = readings_since(book, Thing("tire", app.tire.id), quantity, app.session)
    if readings:
        return Finding(ID, Verdict.WITHIN, Severity.SHOP, app.subject, readings[0].at, "", quantity=quantity)
    title = book.vocabulary.quantities[quantity].title
    return Finding(
        ID, Verdict.NOT_ASSESSED, Severity.SHOP, app.subject, app.at(),
        f"{app.subject}: {title} was not read since the tire went on, {app.session.day.text}.",
        source="common practice, no source", next=NEXT, quantity=quantity,
        cause="run-out was not read since a tire went on",
    )  # fmt: skip
