"""What falls due, and what was done late: by the intervals and lists of the limit sets in force, and by the records."""

from __future__ import annotations

from collections.abc import Iterator

from ..book import Book
from .events import late_rechecks, rechecks
from .examinations import examinations, late_examinations
from .inspections import inspections, late_inspections
from .item import Due, Kind, Late, in_order, not_counted, on_silent
from .others import certificates, limits_ending, restrictions, waivers, watched
from .reports_filed import filed_reports, late_reports


def falls_due(book: Book) -> tuple[Due, ...]:
    """Everything that falls due, overdue first, then by day; worked out once."""
    found: tuple[Due, ...] | None = book.__dict__.get("_falls_due")
    if found is None:
        found = book.__dict__["_falls_due"] = tuple(sorted(_all(book), key=in_order))
    return found


def _all(book: Book) -> Iterator[Due]:
    for engine in book.engines.values():
        yield from inspections(book, engine)
        yield from filed_reports(book, engine)
    yield from examinations(book)
    yield from rechecks(book)
    yield from certificates(book)
    yield from watched(book)
    yield from waivers(book)
    yield from restrictions(book)
    yield from limits_ending(book)


def done_late(book: Book) -> tuple[Late, ...]:
    """Everything that was done late, the last first; worked out once."""
    found: tuple[Late, ...] | None = book.__dict__.get("_done_late")
    if found is None:
        late = [*late_examinations(book), *late_rechecks(book)]
        for engine in book.engines.values():
            late += [*late_inspections(book, engine), *late_reports(book, engine)]
        late.sort(key=lambda one: (one.engine, one.subject, one.kind, one.key))
        found = book.__dict__["_done_late"] = tuple(sorted(late, key=lambda one: one.done_on, reverse=True))
    return found


__all__ = ["Due", "Kind", "Late", "done_late", "falls_due", "not_counted", "on_silent"]
