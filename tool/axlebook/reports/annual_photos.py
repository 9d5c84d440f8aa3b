"""Of the annual summary: the photos of the year, shown small inside the one file as far as the budget goes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date

from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.session import Session

from .annual_parts import Part
from .item import Item
from .of_engine import engines_of
from .photos import photos_of, within_budget

TOGETHER = 2_000_000  # bytes of all photos in one file: it goes by mail
_KB = 1000


def photos_part(book: Book, engine: str, first: date, sessions: Iterable[Session],
                attachments: Mapping[str, bytes]) -> Part:  # fmt: skip
    """The photos that records of an engine and year cite; one that is not shown is named, with the reason."""
    records = {session.id for session in sessions} | _defects(book, engine, first)
    budget = fields.number(book.ledger.tree, "photo_budget")
    each = None if budget is None else int(budget * _KB)
    photos = within_budget(
        photos_of((one for one in book.cited if one.record in records), attachments), each, TOGETHER
    )  # fmt: skip
    named = tuple(Item(f"Not shown: {photo.caption} For {photo.why}.") for photo in photos if not photo.media)
    shown = tuple(photo for photo in photos if photo.media)
    return Part("photos", "Photos of the year", named, photos=shown, nothing="No record of the year cites one.")


def _defects(book: Book, engine: str, first: date) -> set[str]:
    """Defects of the engine that were found in the year."""
    laid = engines_of(book)
    found = ((one.id, fields.day(one.tree, "found_on").first) for one in book.of_kind("defect"))
    return {id for id, day in found if day and first <= day <= book.as_of and engine in laid.record(id)}
