"""What an event asks to be looked at again: a turning, a tire put on, a derailment, a slid wheel, a hot box.

Which event asks for what, and within which time, is data: the `after` of a limit set in force. It is done when every
quantity it names was read after the event on what the event touched; readings of the work's own record are part of
the work. What names no quantity is done by an inspection that says it follows the event.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from typing import NamedTuple

from axlebook.findings import Place, Verdict
from axlebook.limits import AfterEvent

from .. import fields, periods
from ..book import Book
from ..condition import Stand, stands
from ..engine import Engine
from ..reading import Reading
from ..session import Session
from .item import Due, Kind, Late
from .starts import adopted_from

ONLY_ON_DRIVERS = frozenset({"quarter_error", "crank_pin_diameter"})
WORK_WORDS = {"tire-applied": "new tire put on", "tire-removed": "tire taken off", "mounting": "wheel pressed"}


class Event(NamedTuple):
    """One event, with what stands on an engine now and was touched by it."""

    kind: str
    title: str
    day: date
    session: Session
    at: Place
    engine: Engine
    touched: tuple[Stand, ...]  # pairs and single wheels
    is_work: bool
    latest: date  # the last day it can have been, where only its month or year is told

    @property
    def named(self) -> str:
        """The places it touched: `driver-3`, or the engine where it touched all."""
        places = dict.fromkeys(stand.line.at for stand in self.touched)
        return ", ".join(places) if self.is_work or len(places) == 1 else ""


def events(book: Book) -> list[Event]:
    """Every event that touched what stands on an engine now, in order of date; worked out once."""
    found: list[Event] | None = book.__dict__.get("_events")
    if found is None:
        found = sorted((*_work(book), *_seen(book)), key=lambda event: (event.day, event.session.id))
        book.__dict__["_events"] = found
    return found


def _by_engine(kept: list[Stand]) -> Iterator[tuple[Engine, tuple[Stand, ...]]]:
    """Stands by engine, each wheel with its pair."""
    for id in dict.fromkeys(stand.engine.id for stand in kept):
        here = tuple(stand for stand in kept if stand.engine.id == id)
        yield here[0].engine, here


def _work(book: Book) -> Iterator[Event]:
    everything = list(stands(book))
    carrying, pair_of = _by_what_they_carry(everything)
    for session in book.past_sessions:
        if session.kind in ("inspection", "tire-found") or session.day.first is None:
            continue
        ids = _touched_ids(session)
        wheels = {n for id in ids for n in carrying.get(id, ()) if _is_touched(everything[n], ids, session)}
        pairs = {pair_of[number] for number in wheels}
        kept = [everything[number] for number in sorted(wheels | pairs)]
        for engine, touched in _by_engine(kept):
            title = f"{WORK_WORDS.get(session.kind, session.kind)} of {session.day.text}"
            first, last = session.day.first, session.day.last or session.day.first
            yield Event(session.kind, title, first, session, session.day_at, engine, touched, True, last)


def _by_what_they_carry(everything: list[Stand]) -> tuple[dict[str, list[int]], dict[int, int]]:
    """Numbers of the wheels by the ids of what they are made of, and of the pair that each wheel stands in."""
    carrying: dict[str, list[int]] = defaultdict(list)
    pair_of: dict[int, int] = {}
    pair = 0
    for number, stand in enumerate(everything):
        if not stand.side:
            pair = number
            continue
        pair_of[number] = pair
        for part in (stand.wheelset, stand.center, stand.tire):
            if part is not None:
                carrying[part.id].append(number)
    return carrying, pair_of


def _touched_ids(session: Session) -> set[str]:
    keys = ("tire", "tires", "center", "wheelset", "wheelsets")
    return {id for key in keys for id in fields.texts(session.tree, key)}


def _is_touched(stand: Stand, ids: set[str], session: Session) -> bool:
    """Whether work touched what is on a wheel now; a tire that came off since is no more asked about."""
    tire, center = stand.tire.id if stand.tire else "", stand.center.id if stand.center else ""
    if session.kind == "tire-applied":
        return tire == session.tire and center == session.center
    if session.kind == "turning":
        return tire in ids or stand.wheelset.id in ids
    return center in ids or (session.kind == "mounting" and stand.wheelset.id in ids)


def _seen(book: Book) -> Iterator[Event]:
    everything = list(stands(book))
    asked = {entry.event for limit_set in book.limit_sets.values() for entry in limit_set.after}
    for observation in (one for one in book.observations if one.answer == "seen"):
        word = book.vocabulary.observations.get(observation.looked_for)
        day = observation.day.first
        if word is None or word.name not in asked or day is None:
            continue
        session = book.session_by_id.get(observation.source.record)
        thing = book.thing_of(word.of, observation)
        if session is None or thing is None:
            continue
        if thing.kind == "engine":
            kept = [s for s in everything if s.engine.id == thing.id and _stood(book, s, day)]
        else:
            lines = {stand.line for stand in everything if stand.thing(word.of) == thing}
            kept = [s for s in everything if s.line in lines and (not s.side or s.thing(word.of) in (thing, None))]
        engines = list(_by_engine(kept))
        if not engines and thing.kind == "engine" and thing.id in book.engines:
            engines = [(book.engines[thing.id], ())]
        for engine, touched in engines:
            title = f"{word.title} of {observation.day.text}"
            last = observation.day.last or day
            yield Event(word.name, title, day, session, observation.at, engine, touched, False, last)


def _stood(book: Book, stand: Stand, day: date) -> bool:
    line = book.standing.line_of(stand.wheelset.id, day)
    return line is not None and line.engine == stand.engine.id


# -- what they ask ---------------------------------------------------------------------------------------------------


class Asked(NamedTuple):
    """One entry asked for by one event: what is missing still, and when the last of it was read."""

    entry: AfterEvent
    event: Event
    missing: tuple[str, ...]  # `back-to-back of driver-3`
    done_on: date | None
    last_day: date | None  # the last day within
    told_by_readings: bool


def asked(book: Book) -> list[Asked]:
    """What every event asks by the sets in force for its engine; worked out once."""
    known: list[Asked] | None = book.__dict__.get("_asked_after")
    if known is None:
        known = book.__dict__["_asked_after"] = list(_all_asked(book))
    return known


def _all_asked(book: Book) -> Iterable[Asked]:
    """Of the same on the same only the last."""
    found: dict[tuple[str, str, str], Asked] = {}
    for event in events(book):
        for limit_set in book.limits_for(event.engine):
            for entry in limit_set.after:
                if entry.event == event.kind and event.day >= adopted_from(book, event.engine, limit_set.id):
                    places = " ".join(stand.name for stand in event.touched)
                    found[entry.id, event.engine.id, places] = _asked(book, entry, event)
    return found.values()


def _asked(book: Book, entry: AfterEvent, event: Event) -> Asked:
    last = (
        periods.last_within(event.day, entry.within) if entry.within and periods.is_of_calendar(entry.within) else None
    )
    if not entry.quantities:
        day = _followed(book, event)
        return Asked(entry, event, () if day else ("an inspection that says it follows it",), day, last, False)
    missing, days = [], []
    for name in entry.quantities:
        for title, first in _first_read(book, event, name):
            days.append(first)
            if first is None:
                missing.append(title)
    known = [day for day in days if day is not None]
    return Asked(entry, event, tuple(missing), max(known) if known and not missing else None, last, True)


def _first_read(book: Book, event: Event, name: str) -> Iterator[tuple[str, date | None]]:
    """A quantity on each thing the event touched, with the first day it was read after the event."""
    word = book.vocabulary.quantities.get(name)
    if word is None:
        return
    if word.of == "engine":
        yield word.title, _first(event, _on_engines(book).get((event.engine.id, name), ()))
        return
    for stand in event.touched:
        thing = stand.thing(word.of)
        if thing is not None and (name not in ONLY_ON_DRIVERS or stand.wheelset.driver):
            title = f"{word.title} of {f'{stand.line.at} {stand.side}'.strip()}"
            yield title, _first(event, book.series.get((thing, name), ()))


def _on_engines(book: Book) -> dict[tuple[str, str], list[Reading]]:
    """Readings of what is an engine's own by quantity and by the engine they were taken on; sorted out once."""
    found: dict[tuple[str, str], list[Reading]] | None = book.__dict__.get("_on_engines")
    if found is None:
        found = book.__dict__["_on_engines"] = defaultdict(list)
        own = {name for name, word in book.vocabulary.quantities.items() if word.of == "engine"}
        for reading in (one for one in book.readings if one.quantity in own):
            found[reading.source.engine, reading.quantity].append(reading)
    return found


def _first(event: Event, readings: Iterable[Reading]) -> date | None:
    days = [r.day.first for r in readings if r.day.first is not None and _after(event, r.day.first, r.source.record)]
    return min(days, default=None)


def _after(event: Event, day: date, record: str) -> bool:
    """Whether something was certainly done after the event: of work not in its own record, of what was seen there too.

    An event told to the month can have been on its last day: what was read in it may be from before.
    """
    if event.is_work:
        return day > event.latest and record != event.session.id
    return day >= event.latest or record == event.session.id


def _followed(book: Book, event: Event) -> date | None:
    for session in book.past_sessions:
        day = session.day.first
        if session.kind != "inspection" or session.blank or day is None or day < event.day:
            continue
        if event.session.id in fields.texts(session.tree, "after"):
            return day
        if session.engine == event.engine.id and session.purpose == "after-incident":
            return day
    return None


def rechecks(book: Book) -> Iterator[Due]:
    """What is asked for by an event and not done yet."""
    for one in asked(book):
        if not one.missing:
            continue
        over = one.last_day is not None and book.as_of > one.last_day
        verdict = Verdict.WITHIN if not over else Verdict.OUTSIDE if one.told_by_readings else Verdict.NOT_ASSESSED
        cause = "no inspection says that it follows the event" if verdict is Verdict.NOT_ASSESSED else ""
        event, entry = one.event, one.entry
        yield Due(
            Kind.RECHECK,
            entry.id,
            event.engine.id,
            f"{event.engine.id} {event.named}".strip(),
            f"After the {event.title}: {'; '.join(entry.asks) or ', '.join(one.missing)}",
            verdict,
            entry.severity,
            _told(one),
            _step(one, verdict),
            entry.cited,
            event.at,
            one.last_day,
            since=one.last_day + timedelta(1) if over and one.last_day else None,
            done_on=str(event.day),
            record=event.session.id,
            cause=cause,
            where=f"{entry.id} {event.day}",
            now=not over and not event.is_work,
        )


def _told(one: Asked) -> str:
    within = f", within {periods.words(one.entry.within)}: by {one.last_day}" if one.entry.within else ""
    return f"not read since: {', '.join(one.missing)}{within}" if one.told_by_readings else f"not told as done{within}"


def _step(one: Asked, verdict: Verdict) -> str:
    if verdict is Verdict.OUTSIDE:
        return "Measure it, and write it in an inspection."
    if not one.told_by_readings:
        return f"Look at it, and write the inspection with `after: {one.event.session.id}`."
    return ""


def late_rechecks(book: Book) -> Iterator[Late]:
    """What an event asked for and was looked at after its time."""
    for one in asked(book):
        if one.missing or one.done_on is None or one.last_day is None or one.done_on <= one.last_day:
            continue
        days = (one.done_on - one.last_day).days
        yield Late(
            Kind.RECHECK, one.entry.id, one.event.engine.id, f"{one.event.engine.id} {one.event.named}".strip(),
            f"After the {one.event.title}: {'; '.join(one.entry.asks)}", one.entry.severity, one.done_on,
            periods.words((days, "day")), f"due by {one.last_day}", one.entry.cited, one.event.at,
            one.event.session.id,
        )  # fmt: skip
