"""The intervals of an engine as a whole: by the calendar, by service days, with another, each year; and their past."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from functools import partial
from itertools import pairwise

from axlebook.findings import Place, Verdict
from axlebook.limits import Interval, applies

from .. import periods
from ..book import Book
from ..condition import EnginePlace
from ..engine import Engine
from ..facets import facet
from ..periods import SERVICE_DAY
from .done import Done, doings, done_by_interval, intervals_for
from .item import Due, Kind, Late
from .partial import Partial
from .reckon import Term, reckoned
from .starts import Start, adopted_from, in_book_since, start_of, started
from .with_each import with_each, with_each_late
from .yearly import yearly, yearly_late

OF_PARTS = ("axle", "crank pin", "instrument")
OF_TENDER = ("tender", "drawbar")
NEVER = "never done on record"
REST = "Enter what was done on the others, or write under `not_measured` why nothing was."
WRITE = "Do it, or enter the record of the last time; an old card may be entered as transcribed."


def inspections(book: Book, engine: Engine) -> Iterator[Due]:
    """Every interval of an engine as a whole, as it stands."""
    done = done_by_interval(book, engine)
    by_id: dict[str, Due] = {}
    intervals = [one for one in intervals_for(book, engine) if concerns(book, engine, one, done)]
    for interval in sorted(intervals, key=lambda one: bool(one.with_each)):
        found = _one(book, engine, interval, done, by_id)
        by_id[interval.id] = found
        yield found
        if interval.notice and found.verdict is not Verdict.OUTSIDE and found.due_on:
            yield _notice(book, engine, interval, found.due_on)


def concerns(book: Book, engine: Engine, interval: Interval, done: dict[str, list[Done]]) -> bool:
    """Whether an interval is for this engine: not of a part, not of a tender it has not got, no facet against it."""
    if interval.of in OF_PARTS:
        return False
    tender = not engine.lines or any(line.role == "tender" for line in engine.lines)
    if interval.of in OF_TENDER and not tender and not done.get(interval.id):
        return False
    return applies(interval.applies_to, partial(facet, book, EnginePlace(engine, "engine"))).answer is not False


def _one(book: Book, engine: Engine, interval: Interval, done: dict[str, list[Done]], known: dict[str, Due]) -> Due:
    make = partial(_due, engine, interval)
    answer = applies(interval.applies_to, partial(facet, book, EnginePlace(engine, "engine")))
    if answer.answer is None:
        title = book.vocabulary.facets[answer.facet].title
        cause = f"{title} is not on record, which {interval.cited} asks for"
        return make(Term(Verdict.NOT_ASSESSED, "", cause=cause), None, "Write it in the engine's record.")
    times = done.get(interval.id, [])
    if interval.with_each and interval.with_each not in {other.id for other in intervals_for(book, engine)}:
        cause = f"it falls due with {interval.with_each}, which is no interval in force"
        return make(Term(Verdict.NOT_ASSESSED, "", cause=cause), None, "Mend the limit set, or adopt the other one.")
    if interval.with_each:
        term = with_each(interval, times, done.get(interval.with_each, []), known.get(interval.with_each))
    elif interval.each_year_by:
        term = yearly(interval, times, book.as_of)
    else:
        term = _periods(book, engine, interval, times)
    piece = doings(book, engine).partial.get(interval.id)
    never = term.cause == NEVER
    step = REST if piece and (never or term.verdict is Verdict.OUTSIDE) else WRITE if never else ""
    return make(term, times[-1] if times else None, step, piece)


def _periods(book: Book, engine: Engine, interval: Interval, times: list[Done]) -> Term:
    if times:
        start = start_of(engine, interval, times[-1])
        return _told(start, _reckon(book, engine, interval, start, book.as_of))
    begun = started(engine, interval)
    if begun is None or begun.day > book.as_of:
        return Term(Verdict.NOT_ASSESSED, "", cause=NEVER)
    term = _told(begun, _reckon(book, engine, interval, begun, book.as_of))
    since = in_book_since(book, engine)
    if term.verdict is Verdict.WITHIN or (since is not None and since <= begun.day):
        return term
    return Term(Verdict.NOT_ASSESSED, term.told, cause=NEVER)


def _reckon(book: Book, engine: Engine, interval: Interval, start: Start, as_of: date) -> Term:
    calendar = book.service_calendar(engine.id)
    asked = (interval.every, interval.alternative)
    return reckoned(start.day, start.after, asked, calendar, as_of, interval.of_two)


def _told(start: Start, term: Term) -> Term:
    return term._replace(told=f"{start.told}; {term.told}" if term.told else start.told)


def _due(
    engine: Engine, interval: Interval, term: Term, last: Done | None, step: str, piece: Partial | None = None
) -> Due:
    silent = last.session.id if last and last.session.silent and term.told else ""
    told = f"{term.told}; it stands on {silent}, which holds no reading" if silent else term.told
    return Due(
        Kind.INSPECTION,
        interval.name,
        engine.id,
        engine.id,
        interval.title,
        term.verdict,
        interval.severity,
        "; ".join(filter(None, (told, piece.words if piece else ""))),
        step or _step(term),
        interval.cited,
        last.at if last else engine_place(engine),
        term.due_on,
        term.left,
        term.estimate,
        term.since,
        last.text if last else "",
        last.session.id if last else "",
        term.cause,
        "",
        term.now,
        bool(silent),
        piece.words if piece else "",
    )


def lower(title: str) -> str:
    """A title inside a sentence."""
    return f"{title[:1].lower()}{title[1:]}"


def engine_place(engine: Engine) -> Place:
    """Where an engine's record stands."""
    return Place(engine.path)


def _step(term: Term) -> str:
    match term.verdict:
        case Verdict.OUTSIDE:
            return "Do it before the engine is used; if it was done, enter its record."
        case Verdict.UNDECIDED:
            return "Enter the service days one by one, from the cards; until then reckon with the larger count."
        case Verdict.NOT_ASSESSED:
            return "Enter the service days, months without any among them."
    return ""


def _notice(book: Book, engine: Engine, interval: Interval, due_on: date) -> Due:
    assert interval.notice is not None
    day = periods.before(due_on, interval.notice)
    words = periods.words(interval.notice)
    passed = book.as_of > day
    return Due(
        Kind.NOTICE,
        interval.name,
        engine.id,
        engine.id,
        f"Notice of the {lower(interval.title)}",
        Verdict.NOT_ASSESSED if passed else Verdict.WITHIN,
        interval.severity,
        f"{words} before it is held; held on its last day {due_on}, that is {day}",
        "See that the notice was given: no record tells of it." if passed else "",
        interval.cited,
        engine_place(engine),
        day,
        cause="no record tells whether notice was given" if passed else "",
        where="notice",
    )


# -- the past --------------------------------------------------------------------------------------------------------


def late_inspections(book: Book, engine: Engine) -> Iterator[Late]:
    """Every time an interval of an engine was answered late, by the sets now in force and since they are."""
    done = done_by_interval(book, engine)
    for interval in intervals_for(book, engine):
        if not concerns(book, engine, interval, done):
            continue
        since = adopted_from(book, engine, interval.set_id)
        times = [one for one in done.get(interval.id, []) if one.day >= since]
        for late, by, told in _late(book, engine, interval, times, done):
            yield Late(
                Kind.INSPECTION, interval.name, engine.id, engine.id, interval.title, interval.severity, late.day, by,
                told, interval.cited, late.at, late.session.id,
            )  # fmt: skip


def _late(
    book: Book, engine: Engine, interval: Interval, times: list[Done], done: dict[str, list[Done]]
) -> Iterator[tuple[Done, str, str]]:
    if interval.with_each:
        yield from with_each_late(interval, times, done.get(interval.with_each, []))
        return
    if interval.each_year_by:
        yield from yearly_late(interval, times)
        return
    for before, after in pairwise(times):
        if after.day == before.day:
            continue
        start = start_of(engine, interval, before)
        by = _late_by(book, engine, interval, start, after.day)
        if by:
            told = _reckon(book, engine, interval, start, after.day - timedelta(1)).told
            yield after, by, f"{start.told.replace('last done', 'done before on')}; {told}"


def _late_by(book: Book, engine: Engine, interval: Interval, start: Start, day: date) -> str:
    """How late: by the calendar, by service days before that day, or both; '' where it was in time."""
    found, asked = [], [period for period in (interval.every, interval.alternative) if period is not None]
    for period in asked:
        if period[1] == SERVICE_DAY:
            least = book.service_calendar(engine.id).on_file(start.after, day - timedelta(1)).least
            if least > period[0]:
                found.append(periods.words((least - period[0], SERVICE_DAY)))
        elif periods.is_of_calendar(period):
            last = periods.last_within(start.day, period)
            if day > last:
                found.append(periods.words(((day - last).days, "day")))
    return "" if interval.of_two == "last" and len(found) < len(asked) else " and ".join(found)
