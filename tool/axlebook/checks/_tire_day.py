"""The day a tire went on: applications of the tires that are on now, and what their records tell or leave out."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.records import fields
from axlebook.records.book import Book, Thing
from axlebook.records.condition import Stand
from axlebook.records.engine import Engine
from axlebook.records.fit import Fit, Missing, applied_fits, find_fit
from axlebook.records.placing import BEFORE
from axlebook.records.practice import stand_of
from axlebook.records.reading import Reading
from axlebook.records.session import Session
from axlebook.records.tire import Tire
from axlebook.records.wheelset import Center

NOT_TOLD = "not written down when a tire went on"
ASK = "Ask those who were there and write it down; what nobody remembers is `unknown`."


class Application(NamedTuple):
    """A tire that is on now, and the record of the day it went on."""

    tire: Tire
    center: Center
    session: Session
    stand: Stand | None
    fit: Fit | Missing

    @property
    def subject(self) -> str:
        """Tire and center in shop words."""
        return f"{self.tire.id} on {self.center.id}"

    @property
    def engine(self) -> Engine | None:
        """The engine whose wheel it is on; None where it stands under none."""
        return self.stand.engine if self.stand else None

    def at(self, *steps: str | int) -> Place:
        """A place in the record of that day."""
        return self.session.place.below(*steps) if steps else self.session.place

    def told(self, section: str, key: str) -> str:
        """What one line of a section says; '' where nothing."""
        return fields.text(fields.inner(self.session.tree, section), key)


def applications(book: Book) -> tuple[Application, ...]:
    """The applications of all tires that are on now; worked out once."""
    found = book.__dict__.get("_applications")
    if found is None:
        found = book.__dict__["_applications"] = tuple(
            Application(tire, center, session, wheel(book, tire, center), find_fit(book, tire, center, session))
            for tire, center, session in applied_fits(book)
            if session is not None
        )
    return tuple(found)


def wheel(book: Book, tire: Tire, center: Center) -> Stand | None:
    """The wheel that a tire makes with a center, where its wheelset stands or last stood."""
    stand = stand_of(book, center)
    return stand._replace(tire=tire) if stand else None


def wheelset_of(book: Book, center: Center) -> str:
    """The wheelset that carries a center now, or first carried it."""
    for wheelset, _, spell in book.standing.sides_of.get(center.id, ()):
        if spell.until is None and wheelset in book.wheelsets:
            return wheelset
    return center.wheelset


def readings_since(book: Book, thing: Thing, quantity: str, session: Session) -> list[Reading]:
    """Readings taken on the day of the work or after it, those of before the work left out."""
    day = session.day.first
    return [
        r for r in book.series.get((thing, quantity), ())
        if r.day.first is not None and day is not None and r.day.first >= day
        and r.when not in BEFORE
    ]  # fmt: skip


def not_told(check: str, app: Application, at: Place, what: str, quantity: str) -> Finding:
    """Something the record of the day leaves out: said once a tire, grouped under one cause."""
    severity = Severity.NOTE if "transcribed" in app.session.tree else Severity.SHOP
    return Finding(
        check, Verdict.NOT_ASSESSED, severity, app.subject, at,
        f"{app.subject}: {what} is not written down for {app.session.day.text}.", next=ASK, quantity=quantity,
        cause=NOT_TOLD,
    )  # fmt: skip


def lacking(check: str, app: Application, found: Missing, quantity: str) -> Finding:
    """A figure of the day that cannot be worked out."""
    at = found.reading.at if found.reading else app.at()
    return Finding(
        check, Verdict.NOT_ASSESSED, Severity.SHOP, app.subject, at,
        f"{app.subject}: NOT judged: {found.cause}.", next=found.next, quantity=quantity, cause=f"fit: {found.cause}",
    )  # fmt: skip


class Question(NamedTuple):
    """A line that should say yes: its key, what it asks, what a `no` means, and for which tires it holds."""

    key: str
    asks: str
    no: str
    holds: Callable[[Application], bool] = lambda app: True


def answered(
    book: Book, check: str, section: str, questions: tuple[Question, ...], severity: Severity, next_step: str
) -> Iterator[Finding]:
    """Yes is within, no is suspect, silence and `unknown` are not assessed; `not applicable` only where it may be."""
    for app in applications(book):
        for question in questions:
            said, at = app.told(section, question.key), app.at(section, question.key)
            if said == "not applicable" and not question.holds(app):
                continue
            if not said and not question.holds(app):
                continue
            if said == "yes":
                yield Finding(check, Verdict.WITHIN, severity, app.subject, at, "", quantity=question.key)
            elif said in ("no", "not applicable"):
                words = question.no if said == "no" else f"{question.asks} is written as not applicable, but it applies"
                yield Finding(
                    check, Verdict.SUSPECT, severity, app.subject, at, f"{app.subject}: {words}.",
                    source="common practice, no source", next=next_step, quantity=question.key,
                )  # fmt: skip
            else:
                yield not_told(check, app, at, question.asks, question.key)
