"""Who approved something, when, and whether that person may by the book.

`approvers` in `ledger.yaml` names who may. Where the ledger does not say, any person on record may.
"""

from __future__ import annotations

from typing import NamedTuple

from . import fields
from .book import Book
from .dates import Day


class Approval(NamedTuple):
    """One approval; `fault` is '' where it holds."""

    by: str
    day: Day
    fault: str

    @property
    def no_day(self) -> bool:
        """Whether nobody wrote on which day; it then holds from the beginning."""
        return not self.fault and self.day.first is None


def approval(book: Book, by: str, day: Day) -> Approval:
    """An approval with what is wrong with it."""
    return Approval(by, day, _fault(book, by, day))


def _fault(book: Book, by: str, day: Day) -> str:
    if not by:
        return "nobody is named who approved it"
    person = book.plain.get(by)
    if person is None or person.kind != "person":
        return f"{by}, named as who approved it, is no person on record"
    may = fields.texts(book.ledger.tree, "approvers")
    if may and by not in may:
        return f"{by} is not among those who may approve, by the ledger ({', '.join(may)})"
    start, end = fields.day(person.tree, "from").first, fields.day(person.tree, "until").last
    if start and day.last and day.last < start:
        return f"{by} came only in {fields.text(person.tree, 'from')}, after the day of approval, {day.text}"
    if end and day.first and day.first > end:
        return f"{by} had left in {fields.text(person.tree, 'until')}, before the day of approval, {day.text}"
    return ""
