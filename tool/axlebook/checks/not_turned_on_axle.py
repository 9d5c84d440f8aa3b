"""A new tire was not turned on its axle after it went on.

What is judged: for every tire that was ordered for its center and is on by record, whether a turning names it since
it went on. Shrinking a tire on moves its tread and leaves it a little out of true: it is bored, applied, cooled,
TURNED ON THE AXLE, and only then are diameters matched. A turning of the day before does not count. A tire that went
on again, in use before, is not asked.

What to do: have the pair turned on its own axle, then match diameters.

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.session import Session

from ._tire_day import Application, applications

ID = "not-turned-on-axle"


def check(book: Book) -> Iterator[Finding]:
    """Look for a turning of every new tire since it went on."""
    for app in applications(book):
        if app.tire.for_center and len(book.standing.centers_of.get(app.tire.id, ())) == 1:
            yield _judged(book, app)


def _judged(book: Book, app: Application) -> Finding:
    turned = [work for work in book.work_on.get(app.tire.id, ()) if _after(work, app.session)]
    if turned:
        return Finding(ID, Verdict.WITHIN, Severity.SHOP, app.subject, turned[0].place, "", quantity="turning")
    return Finding(
        ID, Verdict.NOT_ASSESSED, Severity.SHOP, app.subject, app.at(),
        f"{app.subject}: no turning on its axle is on record since it went on, {app.session.day.text}.",
        source="common practice, no source", next="Have the pair turned on its own axle, then match diameters.",
        quantity="turning", cause="a new tire was not turned on its axle since it went on",
    )  # fmt: skip


def _after(work: Session, application: Session) -> bool:
    """Whether a work is a turning done on the day of the application or after it."""
    done, day = work.day.last, application.day.first
    return work.kind == "turning" and done is not None and day is not None and done >= day
