"""Whether a service day can be added to an engine's book, and the words for it where it cannot."""

from __future__ import annotations

from datetime import date

from . import fields
from .book import Book
from .engine import Engine
from .service import Service


def month_id(engine: str, day: date) -> str:
    """The id of the month's record.

    >>> month_id("e-12", date(2026, 5, 2))
    'e-12-2026-05'
    """
    return f"{engine}-{day:%Y-%m}"


def why_not(book: Book, engine: Engine, first: date, last: date) -> str:
    """Why a day, or a run of days, cannot be added; '' where it can."""
    if last < first:
        return f"the last day ({last}) lies before the first ({first})."
    if last > book.today:
        return f"{last} is not yet over: today is {book.today}. Write a day down once the engine has run."
    if (first.year, first.month) != (last.year, last.month):
        return f"{first} to {last} lies in two months, and each has a file of its own. Add each month's days by itself."
    closed = book.ledger.closed_on
    if closed is not None and last > closed:
        return f"this book was closed on {closed} (`closed_on` in ledger.yaml)."
    placed = fields.day(engine.tree, "placed_in_service").first
    if placed is not None and first < placed:
        return f"{engine.id} was placed in service on {placed}, after {first}."
    return _there_already(book, engine, first, last)


def _there_already(book: Book, engine: Engine, first: date, last: date) -> str:
    for service in book.service_of.get(engine.id, ()):
        for line in service.lines:
            if line.first <= last and first <= line.last:
                run = f"{line.first}" if line.first == line.last else f"{line.first} to {line.last}"
                return f"{run} is in {service.path} already; a day counts once."
        if _is_total_of(service, first):
            return f"{first.year} stands as a total of the year in {service.path}; its days would count twice."
    return ""


def _is_total_of(service: Service, day: date) -> bool:
    period = service.period
    if service.total is None or period.first is None or period.last is None:
        return False
    return period.first <= day <= period.last
