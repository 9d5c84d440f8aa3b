"""From which day the periods of an engine's interval run."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from axlebook.limits import Interval

from .. import fields, periods
from ..book import Book
from ..engine import Engine
from .done import Done


class Start(NamedTuple):
    """From which day the periods of an interval run, and why."""

    day: date  # the calendar from here
    after: date  # service days from the day after this
    told: str


def started(engine: Engine, interval: Interval) -> Start | None:
    """When an engine's first period began: placed in service, or a while after its first flue tube went in.

    The earlier of those its record tells; None where the interval does not start with them, or nothing is told. Its
    first day of service counts as one.
    """
    starts = interval.starts or ("placed_in_service",)
    found: list[tuple[date, str]] = []
    placed = fields.day(engine.tree, "placed_in_service")
    if "placed_in_service" in starts and placed.first:
        found.append((placed.first, f"placed in service on {placed.text}"))
    tube = fields.day(engine.tree, "first_flue_tube")
    if "first_flue_tube_plus" in starts and tube.first and interval.start_delay:
        words = f"{periods.words(interval.start_delay)} after its first flue tube of {tube.text}"
        found.append((periods.shifted(tube.first, interval.start_delay), words))
    if not found:
        return None
    day, told = min(found)
    return Start(day, date.fromordinal(max(day.toordinal() - 1, 1)), told)


def all_starts_told(engine: Engine, interval: Interval) -> bool:
    """Whether every start that an interval names is in the engine's record, so that the earliest of them is known."""
    keys = {"placed_in_service": "placed_in_service", "first_flue_tube_plus": "first_flue_tube"}
    return all(fields.day(engine.tree, keys[word]).first is not None for word in interval.starts if word in keys)


def start_of(engine: Engine, interval: Interval, done: Done) -> Start:
    """From which day it runs after it was done.

    Done before the engine was placed in service, the years run from the day that its record tells, and never from
    later than all the starts of the interval allow; otherwise from the day it was done.
    """
    told = f"last done {done.text}"
    begun = started(engine, interval) if "placed_in_service" in interval.starts else None
    if begun is not None and begun.day > done.day and all_starts_told(engine, interval):
        return Start(begun.day, done.day, f"{told}; {begun.told}")
    return Start(done.day, done.day, told)


def in_book_since(book: Book, engine: Engine) -> date | None:
    """The first day of which the book tells anything of an engine: an inspection, or service."""
    calendar = book.service_calendar(engine.id)
    days = [s.day.first for s in book.past_sessions_of.get(engine.id, ()) if s.day.first is not None]
    return min([*days[:1], *([calendar.first] if calendar.first else [])], default=None)


def adopted_from(book: Book, engine: Engine, set_id: str) -> date:
    """The first day on which a set was in force for an engine: what was before is not judged by it."""
    starts = [use.start or date.min for use in book.adoptions(engine) if use.set_id == set_id]
    return min(starts, default=date.min)
