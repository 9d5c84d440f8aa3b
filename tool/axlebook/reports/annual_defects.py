"""Of the annual summary: restrictions on the day, and each defect of the year from its finding to its disposition."""

from __future__ import annotations

from datetime import date

from axlebook.checks._waiving import held_back
from axlebook.findings import Verdict
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.defect import OPEN, Defect, defects
from axlebook.records.restrictions import Restriction

from .annual_parts import Cells, Listed, Part
from .item import Item
from .of_engine import engines_of

HEAD = ("Found on", "Where", "What", "Tag and restriction", "Repair and standard", "Approved", "Disposition")
NO_TAG = "no tag on record"
HOLDS = ("tag", "restriction")  # what holds it back; a waiver or an authority's grant lets it run


def restricted(book: Book, engine: str) -> list[Item]:
    """What holds on the day, in the words of the records: restrictions first, then what is waived or granted."""
    found = [one for one in held_back(book) if one.engine in ("", engine)]
    return [_said(one) for one in sorted(found, key=lambda one: one.kind not in HOLDS)]


def _said(one: Restriction) -> Item:
    since = f", since {one.since}" if one.since and one.since != "unknown" else ""
    until = f", until {one.until}" if one.until else ", no last day is written"
    by = f", by {one.by}" if one.by else ""
    return Item(f"{one.subject}, {one.kind}: {one.words.rstrip('.')}{since}{until}{by} ({one.record}).")


def defects_part(book: Book, engine: str, first: date, held: list[Item]) -> Part:
    """Restrictions in force, then every defect that was open at some time of the year."""
    laid = engines_of(book)
    own = [one for one in defects(book) if _is_of(one, laid.record(one.id), engine, book.as_of)]
    shown = sorted((one for one in own if _of_the_year(one, first, book.as_of)), key=_found_on)
    rows = tuple((_cells(one, book.as_of), Verdict.OUTSIDE if one.is_open(book.as_of) else None) for one in shown)
    tables = (Listed("Defects, finding to disposition", HEAD, rows),) if rows else ()
    return Part("defects", "Restrictions and defects", tuple(held), tables, nothing="None is on record.")


def _is_of(defect: Defect, laid: set[str], engine: str, day: date) -> bool:
    """Whether it was found on an engine, or is open and stands under it now, or is of none on record."""
    here = defect.engines if defect.is_open(day) else ()
    return engine in here or engine in laid or not laid


def _found_on(defect: Defect) -> tuple[date, str]:
    return defect.found_on.first or date.min, defect.id


def _of_the_year(defect: Defect, first: date, until: date) -> bool:
    closed = defect.closed_on.last
    return defect.is_open(until) or closed is None or closed >= first


def _cells(defect: Defect, day: date) -> Cells:
    text, approved = fields.text, defect.approved
    tag, told, repair = defect.tag, defect.restriction, defect.repair
    tagged = f"tag {text(tag, 'tagged_on')}: {text(tag, 'restrictions') or 'it says no restriction'}" if tag else NO_TAG
    until = f" (until {text(told, 'until')})" if "until" in told else ""
    done = "; ".join(filter(None, (text(repair, "words"), text(repair, "standard"), text(repair, "done_on"))))
    by = f"{approved.by} {approved.day.text}".strip() if approved and _by_then(approved.day.first, day) else ""
    return (
        defect.found_on.text,
        _where(defect, day),
        defect.what,
        "; ".join(filter(None, (tagged, f"{text(told, 'words')}{until}"))),
        done if _by_then(defect.done_on.first, day) else "",
        by,
        _disposition(defect, day),
    )


def _where(defect: Defect, day: date) -> str:
    """Where it was found, and where what it is of stands now if it is open and stands elsewhere."""
    written = defect.at or defect.part
    return f"{written}, now {defect.subject}" if defect.moved_from and defect.is_open(day) else written


def _by_then(done: date | None, day: date) -> bool:
    """Whether something was done by the day; what has no day is told."""
    return done is None or done <= day


def _disposition(defect: Defect, day: date) -> str:
    if defect.is_open(day):
        return OPEN if defect.disposition == OPEN else "open; closed after this day"
    closed = "" if defect.closed_on.text == "unknown" else defect.closed_on.text
    return f"{defect.disposition} {closed}".strip()
