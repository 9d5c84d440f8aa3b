"""A waiver: a finding the railway lives with for a time, and whether it is in force."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from axlebook.findings import Finding, Place

from . import fields
from .approval import Approval, approval
from .book import Book
from .dates import Day
from .planes import spot_named


class Waiver(NamedTuple):
    """One waiver as its record tells it."""

    id: str
    place: Place
    check: str
    subject: str
    quantity: str
    where: str
    record: str
    reason: str
    approved: Approval
    expires_on: date | None
    closed_on: Day

    def begun(self, on: date) -> bool:
        """Whether it was approved by the day, by somebody who may, and is not yet closed."""
        start = self.approved.day.last
        return not self.approved.fault and (start is None or start <= on) and not self.closed_by(on)

    def closed_by(self, on: date) -> bool:
        """Whether it was closed by the day."""
        return self.closed_on.first is not None and self.closed_on.first <= on

    def in_force(self, on: date) -> bool:
        """Whether it is in force on the day; the day it expires is the last."""
        return self.begun(on) and self.expires_on is not None and on <= self.expires_on

    def expired(self, on: date) -> bool:
        """Whether it was in force and ran out before the day."""
        return self.begun(on) and self.expires_on is not None and self.expires_on < on

    def names(self, finding: Finding) -> bool:
        """Whether it names this finding; what it does not say may be anything."""
        asked = ((self.quantity, finding.quantity), (self.where, finding.where), (self.record, finding.record))
        return (
            self.check == finding.check
            and self.subject.split() == finding.subject.split()
            and all(wanted in ("", here) for wanted, here in asked)
        )


def waivers(book: Book) -> Iterator[Waiver]:
    """Every waiver of the book, in order of its id."""
    for record in sorted(book.of_kind("waiver"), key=lambda record: record.id):
        tree = record.tree
        finding = fields.inner(tree, "finding")
        yield Waiver(
            record.id,
            record.place,
            fields.text(finding, "check"),
            fields.text(finding, "subject"),
            fields.text(finding, "quantity"),
            spot_named(fields.text(finding, "where")),
            fields.text(finding, "record"),
            fields.text(tree, "reason"),
            approval(book, fields.text(tree, "approved_by"), fields.day(tree, "approved_on")),
            fields.day(tree, "expires_on").exact,
            fields.day(tree, "closed_on"),
        )


def other_metal(book: Book, waiver: Waiver) -> str:
    """What stands at the place of a waiver in place of what it was approved for, in words; '' where that is the same.

    A waiver is of the metal that somebody looked at. Where it does not say its quantity, any other part will do.
    """
    engine, _, place = " ".join(waiver.subject.split()).partition(" ")
    day = waiver.approved.day.exact
    if day is None or engine not in book.engines or day > book.as_of:
        return ""
    then, now = (book.stood_at(engine, place, on) for on in (day, book.as_of))
    if then is None:
        return ""
    word = book.vocabulary.find_word(waiver.quantity)
    whole = word is not None and word.of in ("wheelset", "end")
    for part in ("wheelset",) if whole else ("wheelset", "center", "tire"):
        was, here = getattr(then, part), getattr(now, part, "")
        if was and was != here:
            return f"it was approved for {was}, and {here or 'none'} stands at {waiver.subject} now"
    return ""
