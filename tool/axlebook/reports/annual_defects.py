"""Of the annual summary: restrictions on the day, and each defect of the year from its finding to its disposition."""

from __future__ import annotations

from datetime import date

from axlebook.findings import Verdict
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.due import Due, Kind
from axlebook.records.plain import Plain

from .annual_parts import Cells, Item, Listed, Part

CLOSED = "closed after this day"


def defects_part(book: Book, engine: str, first: date, restrictions: list[Item]) -> Part:
    """Restrictions in force, then every defect that was open at some time of the year."""
    found = [one for one in book.of_kind("defect") if fields.text(one.tree, "engine") == engine]
    shown = sorted((one for one in found if _of_the_year(one, first, book.as_of)), key=_found_on)
    head = ("Found on", "Where", "What", "Tag and restriction", "Repair and standard", "Approved", "Disposition")
    rows = tuple((_cells(one, book.as_of), Verdict.OUTSIDE if is_open(one, book.as_of) else None) for one in shown)
    tables = (Listed("Defects, finding to disposition", head, rows),) if rows else ()
    return Part("defects", "Restrictions and defects", tuple(restrictions), tables, nothing="None is on record.")


def restricted(due: list[Due]) -> list[Item]:
    """Every restriction in force, as one plain list."""
    return [
        Item(f"{one.subject}: {one.title.removeprefix('Restriction: ')} ({one.told}; {one.source})", Verdict.OUTSIDE)
        for one in due
        if one.kind is Kind.RESTRICTION
    ]


def _found_on(defect: Plain) -> date:
    return fields.day(defect.tree, "found_on").first or date.min


def is_open(defect: Plain, day: date) -> bool:
    """Whether a defect was open at the end of a day, whatever became of it later."""
    closed = fields.day(defect.tree, "closed_on").first
    return fields.text(defect.tree, "disposition") in ("", "open") or (closed is not None and closed > day)


def _of_the_year(defect: Plain, first: date, until: date) -> bool:
    closed = fields.day(defect.tree, "closed_on").last
    return _found_on(defect) <= until and (is_open(defect, until) or closed is None or closed >= first)


def _cells(defect: Plain, day: date) -> Cells:
    tree, text = defect.tree, fields.text
    tag, restriction = fields.inner(tree, "tag"), fields.inner(tree, "restriction")
    repair, approved = fields.inner(tree, "repair"), fields.inner(tree, "approved")
    tagged = f"tag {text(tag, 'tagged_on')}: {text(tag, 'restrictions')}" if tag else "no tag on record"
    until = f" (until {text(restriction, 'until')})" if "until" in restriction else ""
    done = _by(day, text(repair, "words"), text(repair, "standard"), text(repair, "done_on"))
    return (
        text(tree, "found_on"),
        text(tree, "place") or text(tree, "part"),
        text(tree, "what"),
        "; ".join(filter(None, (tagged, f"{text(restriction, 'words')}{until}" if restriction else ""))),
        done,
        _by(day, text(approved, "by"), "", text(approved, "approved_on")),
        _disposition(defect, day),
    )


def _by(day: date, words: str, standard: str, done_on: str) -> str:
    """What was done, and when; nothing where that was after the day."""
    done = fields.day({"day": done_on}, "day").first
    if done is not None and done > day:
        return ""
    return "; ".join(filter(None, (words, standard, done_on)))


def _disposition(defect: Plain, day: date) -> str:
    said, closed = fields.text(defect.tree, "disposition") or "open", fields.text(defect.tree, "closed_on")
    if said != "open" and is_open(defect, day):
        return f"open ({CLOSED})"
    return f"{said} {closed}".strip()
