"""What holds an engine back today, as one plain list: tags, restrictions, waivers, what an authority has allowed."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from . import fields
from .book import Book
from .defect import Defect, defects
from .waiver import waivers


class Restriction(NamedTuple):
    """One line of the list, in the words of its record."""

    engine: str  # '' where it is of no engine on record
    kind: str  # tag, restriction, waiver, allowed
    subject: str
    words: str
    since: str
    until: str  # '' where no last day is written
    by: str
    record: str


def restrictions(book: Book) -> list[Restriction]:
    """Everything that holds on the day the book is read at, engine by engine; what ends first stands first."""
    found = [*_of_defects(book), *_of_waivers(book), *_allowed(book)]
    order = {engine: number for number, engine in enumerate(book.engines)}
    return sorted(found, key=lambda one: (order.get(one.engine, len(order)), one.until or str(date.max), one.record))


def _of_defects(book: Book) -> Iterator[Restriction]:
    for defect in defects(book):
        if not defect.is_open(book.as_of):
            continue
        tagged = fields.day(defect.tag, "tagged_on")
        if defect.tag and (tagged.first is None or tagged.first <= book.as_of):
            words = fields.text(defect.tag, "restrictions") or "tagged; the tag says no restriction"
            yield from _lines(defect, "tag", words, tagged.text, "", fields.text(defect.tag, "signed_by"))
        if defect.restricted(book.as_of):
            told = defect.restriction
            yield from _lines(defect, "restriction", fields.text(told, "words"), fields.text(told, "from"),
                              fields.text(told, "until"), fields.text(told, "set_by"))  # fmt: skip


def _lines(defect: Defect, kind: str, words: str, since: str, until: str, by: str) -> Iterator[Restriction]:
    """One for each engine under which what it is of stands now; under none, one of the part."""
    for here in defect.now:
        yield Restriction(here.engine, kind, here.name or defect.id, words, since, until, by, defect.id)


def _of_waivers(book: Book) -> Iterator[Restriction]:
    for waiver in waivers(book):
        if waiver.in_force(book.as_of):
            engine = next((word for word in waiver.subject.split() if word in book.engines), "")
            yield Restriction(
                engine,
                "waiver",
                waiver.subject,
                f"{waiver.check} is waived: {waiver.reason}",
                waiver.approved.day.text,
                str(waiver.expires_on),
                waiver.approved.by,
                waiver.id,
            )


def _allowed(book: Book) -> Iterator[Restriction]:
    """Limits of an authority that stand in for published ones until their last day."""
    for engine in book.engines.values():
        for limit in (limit for limit_set in book.limits_for(engine) for limit in limit_set.limits):
            if limit.stands_in_for and limit.expires_on and book.as_of <= limit.expires_on:
                words = f"in place of {', '.join(limit.stands_in_for)} by docket {limit.docket}: {limit.cited}"
                yield Restriction(engine.id, "allowed", limit.id, words, "", str(limit.expires_on), "", limit.set_id)
