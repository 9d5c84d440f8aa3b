"""Of the annual summary: what is overdue on its day, the calendar of the twelve months after it, and what was late."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from axlebook.checks._waiving import everything_due
from axlebook.findings import Verdict
from axlebook.records.book import Book
from axlebook.records.due import Due, Kind, Late, done_late
from axlebook.records.due.done import intervals_for
from axlebook.records.engine import Engine

from .annual_parts import Cells, Listed, Part, listed
from .item import Item
from .of_engine import engines_of

MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
          "December")  # fmt: skip


def due_of(book: Book, engine: str) -> list[Due]:
    """What falls due of an engine, of an instrument used on it, or of nobody in particular."""
    laid = engines_of(book)
    return [due for due in everything_due(book) if engine in (_engines(due, laid.record(due.record)) or {engine})]


def _engines(due: Due, by_record: set[str]) -> set[str]:
    return {due.engine} if due.engine else by_record


def a_year_on(day: date) -> date:
    """The same day a year later."""
    return day.replace(year=day.year + 1, day=28) if (day.month, day.day) == (2, 29) else day.replace(year=day.year + 1)


def without_interval(book: Book, engines: Iterable[Engine]) -> str:
    """Of which engines no inspection can fall due, for nothing in force says how often; '' where that is none."""
    bare = ", ".join(engine.id for engine in engines if not intervals_for(book, engine))
    return f"No limit set in force has an interval for {bare}: no inspection of it can fall due here." if bare else ""


def due_part(book: Book, engines: Iterable[Engine], due: list[Due], late: list[Late]) -> Part:
    """Overdue, the calendar, what cannot be told, and what was done late in the year, all of some engines."""
    overdue = [one for one in due if one.verdict is Verdict.OUTSIDE]
    until = a_year_on(book.as_of)
    ahead = [one for one in due if one not in overdue and one.day is not None and book.as_of <= one.day <= until]
    now = [one for one in due if one.now and one not in overdue and one not in ahead and _dated(one)]
    open_ = [one for one in due if one.verdict in (Verdict.UNDECIDED, Verdict.NOT_ASSESSED)]
    tables = (
        Listed("Overdue on the day", ("What", "Of", "Since", "How it was reckoned", "By"),
               tuple((_overdue(one), Verdict.OUTSIDE) for one in overdue)),
        listed("To be seen to before it runs", ("What", "Of", "Why", "What to do"),
               [(one.title, one.subject, one.told, one.next) for one in now]),
        *_calendar(ahead),
        listed("Cannot be told", ("What", "Of", "Why", "What to do"),
               [(one.title, one.subject, one.cause or one.told, one.next) for one in _told_once(open_)]),
        listed("Done late in the year", ("What", "Of", "Done on", "Late by", "By"),
               [(one.title, one.subject, str(one.done_on), one.late_words, one.source) for one in late]),
    )  # fmt: skip
    later = sum(one.day is not None and one.day > until for one in due)
    told = [Item(f"{later} more fall due after {until}.")] if later else []
    told += [Item(bare, Verdict.NOT_ASSESSED)] if (bare := without_interval(book, engines)) else []
    filled = tuple(table for table in tables if table.rows)
    return Part("due", "Due: overdue, and the next twelve months", tuple(told), filled,
                nothing="Nothing falls due by the intervals and certificates on file.")  # fmt: skip


def _dated(due: Due) -> bool:
    return due.kind is not Kind.RESTRICTION  # restrictions stand among the defects


def _told_once(due: Iterable[Due]) -> list[Due]:
    return list({(one.title, one.subject, one.cause or one.told): one for one in due}.values())


def _overdue(due: Due) -> Cells:
    return due.title, due.subject, str(due.since) if due.since else "a day not on record", due.told, due.source


def _calendar(due: list[Due]) -> list[Listed]:
    """The calendar as one table, a row a thing, month by month."""
    head = ("Month", "By", "What", "Of", "How it was reckoned")
    rows: list[Cells] = []
    month = ""
    for one in sorted(due, key=lambda one: (one.day or date.max, one.subject, one.title)):
        assert one.day is not None
        here = f"{MONTHS[one.day.month - 1]} {one.day.year}"
        by = f"about {one.day}, an estimate" if one.estimated else str(one.day)
        rows.append((here if here != month else "", by, one.title, one.subject, one.told))
        month = here
    return [listed("The next twelve months", head, rows)] if rows else []


def late_in_year(book: Book, engine: str, first: date) -> list[Late]:
    """What was done late from a day on, up to the day the book is read at; each once."""
    found = [one for one in done_late(book) if one.engine in ("", engine) and first <= one.done_on <= book.as_of]
    return list({(one.title, one.subject, one.done_on): one for one in found}.values())
