"""Reports of inspections: filed in time, filed late, or not told."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from axlebook.findings import Verdict
from axlebook.limits import Interval

from .. import fields, periods
from ..book import Book
from ..engine import Engine
from ..periods import Period
from ..session import Session
from .done import done_by_interval, intervals_for, named
from .inspections import concerns, lower
from .item import Due, Kind, Late
from .starts import adopted_from


class Filing(NamedTuple):
    """An inspection whose report an interval wants filed within a time."""

    interval: Interval
    session: Session
    within: Period


def _filings(book: Book, engine: Engine) -> Iterator[Filing]:
    for interval in intervals_for(book, engine):
        if interval.report_within is None or not periods.is_of_calendar(interval.report_within):
            continue
        done = done_by_interval(book, engine)
        if not concerns(book, engine, interval, done):
            continue
        counted = {one.session.id for one in done.get(interval.id, ())}
        since = adopted_from(book, engine, interval.set_id)
        for session in book.past_sessions_of.get(engine.id, ()):
            mine = session.id in counted and session.kind == "inspection" and interval.id in named(session)
            if mine and session.day.exact and session.day.exact >= since:
                yield Filing(interval, session, interval.report_within)


def filed_reports(book: Book, engine: Engine) -> Iterator[Due]:
    """The report of the last inspection by each interval, where the record does not tell that it was filed."""
    last = {one.interval.name: one for one in _filings(book, engine)}
    for interval, session, within in last.values():
        day = session.day.exact
        if day is None or fields.day(session.tree, "reported_on").exact:
            continue
        due_on = periods.last_within(day, within)
        over = book.as_of > due_on
        cause = "the record does not tell when the report was filed" if over else ""
        yield Due(
            Kind.REPORT,
            interval.name,
            engine.id,
            engine.id,
            f"Report of the {lower(interval.title)}",
            Verdict.NOT_ASSESSED if over else Verdict.WITHIN,
            interval.severity,
            f"held {session.day.text}; to be filed within {periods.words(within)}, by {due_on}",
            "File it, and write `reported_on:` in the record." if over else "",
            interval.cited,
            session.day_at,
            due_on,
            record=session.id,
            cause=cause,
            where="report",
        )


def late_reports(book: Book, engine: Engine) -> Iterator[Late]:
    """Every report that was filed after its time."""
    for interval, session, within in _filings(book, engine):
        day, filed = session.day.exact, fields.day(session.tree, "reported_on").exact
        if day is None or filed is None or filed <= periods.last_within(day, within) or filed > book.as_of:
            continue
        days = (filed - periods.last_within(day, within)).days
        yield Late(
            Kind.REPORT, interval.name, engine.id, engine.id, f"Report of the {lower(interval.title)}",
            interval.severity, filed, periods.words((days, "day")),
            f"held {session.day.text}, filed {filed}; due within {periods.words(within)}", interval.cited,
            session.place.below("reported_on"), session.id,
        )  # fmt: skip
