"""What was done when: inspections by the interval they answer, examinations by the part they were made of."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import date
from typing import NamedTuple

from axlebook.findings import Place
from axlebook.limits import Interval

from .. import fields
from ..book import Book, end_of
from ..engine import Engine
from ..reading import Examination
from ..session import Session
from .methods import is_another
from .partial import Partial, Pieces

ENGINE = "engine"
PARTS = ("axle", "crank pin", "drawbar", "frame", "tender", "tire", "center", "wheel")


class Done(NamedTuple):
    """Once that something was done. Of a month or a year it counts from the first day it can have been."""

    day: date
    text: str  # the day as written
    session: Session
    at: Place


def intervals_for(book: Book, engine: Engine) -> list[Interval]:
    """The intervals in force for an engine, those that do not apply to it among them."""
    return [interval for limit_set in book.limits_for(engine) for interval in limit_set.intervals]


def answered(intervals: Iterable[Interval]) -> dict[str, set[str]]:
    """Which intervals an inspection of each one answers: its own, those it takes in, and those they take in."""
    direct = {interval.id: set(interval.satisfies) for interval in intervals}
    found: dict[str, set[str]] = {}
    for id in direct:
        reached, open_ends = {id}, [id]
        while open_ends:
            new = direct.get(open_ends.pop(), set()) - reached
            reached |= new
            open_ends += new
        found[id] = reached
    return found


def named(session: Session) -> tuple[str, ...]:
    """The purposes an inspection names itself."""
    also = fields.texts(session.tree, "also_satisfies")
    return tuple(dict.fromkeys((session.purpose, *also))) if also else (session.purpose,)


def answers(one: Examination, interval: Interval) -> bool:
    """Whether an examination can answer an interval: its result is known, and it is of that part, or may be.

    That of one part is no inspection of a whole engine, that of a crank pin says nothing of an axle, and a look nothing
    where what the interval is called names a method that finds what no eye sees.
    """
    of = fields.text(one.tree, "of").casefold()
    named = [part for part in PARTS if part in of]
    another = interval.of == ENGINE or (bool(named) and interval.of not in ("", *named))
    if another or fields.text(one.tree, "result") == "unknown":
        return False
    return not is_another(fields.text(one.tree, "method"), interval.title)


class Doings(NamedTuple):
    """What an engine's inspections and examinations answered, by interval; and what of them does not count."""

    done: dict[str, list[Done]]  # in order of date
    partial: dict[str, Partial]


def done_by_interval(book: Book, engine: Engine) -> dict[str, list[Done]]:
    """What an engine's inspections and examinations answered, by interval, in order of date."""
    return doings(book, engine).done


def doings(book: Book, engine: Engine) -> Doings:
    """The same, with the last inspection by each interval where it does not count; worked out once."""
    known: dict[str, Doings] = book.__dict__.setdefault("_doings", {})
    if engine.id not in known:
        intervals, pieces = intervals_for(book, engine), Pieces(book, engine)
        takes_in = answered(intervals)
        found: dict[str, list[Done]] = defaultdict(list)
        for session in book.past_sessions_of.get(engine.id, ()):
            if session.day.first is None:
                continue
            for id, by in sorted(_answers(session, intervals, takes_in, pieces).items()):
                if by.day.first is not None:
                    found[id].append(Done(by.day.first, by.day.text, by, by.day_at))
        done = {id: sorted(many, key=lambda done: done.day) for id, many in found.items()}
        known[engine.id] = Doings(done, _still_partial(done, takes_in, pieces))
    return known[engine.id]


def _answers(
    session: Session, intervals: list[Interval], takes_in: dict[str, set[str]], pieces: Pieces
) -> dict[str, Session]:
    """The intervals that a record answers, each with the record from whose day it counts."""
    found: dict[str, Session] = {}
    for purpose in (one for one in named(session) if one in takes_in):
        by = pieces.done_by(session, purpose)
        if by is not None:
            found |= {id: by for id in takes_in[purpose] if found.get(id) is not session}
    for one in session.examinations:
        id = fields.text(one.tree, "satisfies")
        if any(interval.id == id and answers(one, interval) for interval in intervals):
            found |= dict.fromkeys(takes_in[id], session)
    return found


def _still_partial(done: dict[str, list[Done]], takes_in: dict[str, set[str]], pieces: Pieces) -> dict[str, Partial]:
    """What does not count, by the intervals it would answer, where nothing later does."""
    found: dict[str, Partial] = {}
    for purpose, partial in pieces.left.items():
        day = partial.session.day.first
        for id in takes_in.get(purpose, ()):
            times = done.get(id)
            if day is not None and (not times or times[-1].day <= day):
                found[id] = partial
    return found


class Examined(NamedTuple):
    """One examination, on the wheelset and side it was made of."""

    done: Done
    examination: Examination
    wheelset: str
    side: str  # '' for the wheelset as a whole

    @property
    def of(self) -> str:
        """What was examined: axle, crank pin."""
        return fields.text(self.examination.tree, "of")

    @property
    def method(self) -> str:
        """How, however it is spelled: `magnetic particle` for `Magnetic-particle`."""
        return " ".join(fields.text(self.examination.tree, "method").casefold().replace("-", " ").split())

    @property
    def counts(self) -> bool:
        """Whether its result is on record; one whose result nobody knows answers nothing."""
        return fields.text(self.examination.tree, "result") != "unknown"


def examined(book: Book) -> list[Examined]:
    """Every examination by wheelset, in order of date; worked out once."""
    found: list[Examined] | None = book.__dict__.get("_examined")
    if found is None:
        found = sorted(
            (one for session in book.past_sessions for one in _examined_in(book, session)),
            key=lambda one: one.done.day,
        )
        book.__dict__["_examined"] = found
    return found


def examined_of(book: Book) -> dict[str, list[Examined]]:
    """The same by wheelset; sorted out once."""
    found: dict[str, list[Examined]] | None = book.__dict__.get("_examined_of")
    if found is None:
        found = book.__dict__["_examined_of"] = defaultdict(list)
        for one in examined(book):
            found[one.wheelset].append(one)
    return found


def _examined_in(book: Book, session: Session) -> Iterator[Examined]:
    day = session.day.first
    if day is None:
        return
    for one in session.examinations:
        wheelset, side = _of(book, one)
        yield Examined(Done(day, session.day.text, session, one.at), one, wheelset, side)


def _of(book: Book, one: Examination) -> tuple[str, str]:
    """The wheelset and side examined; the part or place as written where it is no wheelset, or not told which."""
    if one.part:
        id, _, side = one.part.partition(" ")
        return id, side
    place, _, side = one.place.partition(" ")
    lines = book.lines_read_at(one)
    wheelset = book.wheelsets.get(lines[0].wheelset) if len({line.wheelset for line in lines}) == 1 else None
    if wheelset is None:
        return f"{one.source.engine} {place}", side
    return wheelset.id, end_of(lines[0].a_end, wheelset, side)
