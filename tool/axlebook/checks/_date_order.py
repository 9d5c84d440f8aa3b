"""Dates of readings, work and service against each other, and against when the part and its place began."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from itertools import pairwise
from typing import NamedTuple

from axlebook.findings import Place
from axlebook.records import fields
from axlebook.records.book import Book, Thing
from axlebook.records.dates import Day, parse_day
from axlebook.records.placing import AFTER
from axlebook.records.reading import Observation, Reading
from axlebook.records.service import ServiceLine
from axlebook.records.session import Session
from axlebook.records.standing import Spell

from ._dates import certainly_before, date_at
from ._places import Trouble, troubled
from ._records import is_old_card

SEATS = {"center_diameter": "center", "tire_bore": "tire"}  # what lies inside when the tire is on
BEFORE = frozenset({"cold before", "before"})


class Told(NamedTuple):
    """One impossible date: where, of what, and why."""

    place: Place
    subject: str
    words: str


def out_of_order(book: Book, limit: Day, since: str) -> Iterator[Told]:
    """Dates that contradict each other across records, or inside one record's readings."""
    born = _born(book)
    built_on = {engine.id: date_at(engine.tree, "built") for engine in book.engines.values()}
    for session in book.sessions:
        yield from _session(session, born)
        told: set[str] = set()
        built = built_on.get(session.engine)
        if built and certainly_before(session.day, built):
            yield Told(
                session.day_at, session.id, f"{session.day.text} is before {session.engine} was built, {built.text}."
            )
        for one in session.readings:
            if one.part and one.part in born and certainly_before(one.day, born[one.part]) and one.part not in told:
                told.add(one.part)
                words = f"{one.part} was read on {one.day.text}, and was made on {born[one.part].text}."
                at = one.at.below("measured_on") if "measured_on" in one.tree else session.day_at
                yield Told(at, one.named, words)
            if one.day is not session.day:
                yield from _own_date(session, one, limit, since)
        for seen in session.observations:
            if seen.day is not session.day:
                yield from _own_date(session, seen, limit, since)
        for placed, trouble in troubled(book, session):
            # of an old card it is the engine's lines that begin too late: reading-not-placed says what is not judged
            if trouble is Trouble.BEFORE and placed.place not in told and not is_old_card(session):
                told.add(placed.place)
                words = (
                    f"{placed.named} was read on {placed.day.text}: no wheelset stood there then by its dated lines."
                )
                yield Told(placed.at.below("place"), placed.named, words)
        yield from _inside(book, session)
    yield from _off_before_on(book)
    yield from _service(book)
    yield from _corrections(book)


def _born(book: Book) -> dict[str, Day]:
    """When tires were made and axles forged, where a record says so; by each name that a part may bear."""
    found = {tire.id: date_at(tire.tree, "marks/made_on") for tire in book.tires.values()}
    for wheelset in book.wheelsets.values():
        forged = date_at(wheelset.tree, "axle/forged_on")
        found |= dict.fromkeys((wheelset.id, *(f"{wheelset.id} {end}" for end in wheelset.ends)), forged)
    return {name: day for name, day in found.items() if day is not None and day.first is not None}


def _session(session: Session, born: dict[str, Day]) -> Iterator[Told]:
    tire = session.tire
    if tire in born and certainly_before(session.day, born[tire]):
        words = f"{tire} is in work on {session.day.text}, and was made on {born[tire].text}."
        yield Told(session.day_at, session.id, words)


def _own_date(session: Session, one: Reading | Observation, limit: Day, since: str) -> Iterator[Told]:
    """A reading with a date of its own, against the record's, its signature and today."""
    at = one.at.below("measured_on")
    signed = date_at(session.tree, "signed/signed_on")
    when = one.when if isinstance(one, Reading) else ""
    if certainly_before(limit, one.day):
        yield Told(at, one.named, f"{one.named} was read on {one.day.text}, and {since}.")
    elif signed and certainly_before(signed, one.day):
        yield Told(
            at, one.named, f"{one.named} was read on {one.day.text}, after the record was signed on {signed.text}."
        )
    elif (when in BEFORE and certainly_before(session.day, one.day)) or (
        when in AFTER and certainly_before(one.day, session.day)
    ):
        yield Told(
            at, one.named, f"{one.named}, {when}, was read on {one.day.text}; the work was on {session.day.text}."
        )


def _inside(book: Book, session: Session) -> Iterator[Told]:
    """A seat read on a day on which the tire was on the center: neither of the two can be got at then."""
    told: set[Thing] = set()
    for one in [one for one in session.readings if one.quantity in SEATS]:
        thing = book.thing_of(SEATS[one.quantity], one) if not session.draft else None
        if thing is None or thing in told or one.day.first is None or one.day.last is None:
            continue
        if one.day.first > book.as_of:
            continue  # of a day beyond that of the book: whether the tire came off by then is not looked at
        for tire, center, spell in _fitted(book, thing):
            on = book.session_by_id[spell.by].day.last
            if on is not None and on < one.day.first and (spell.until is None or one.day.last < spell.until):
                told.add(thing)
                what = book.vocabulary.quantities[one.quantity].title
                words = f"{thing.id}, {what}, was read on {one.day.text}, and {tire} was on {center} then ({spell.by})."
                yield Told(one.at.below("part" if one.part else "place"), one.named, words)
                break


def _fitted(book: Book, thing: Thing) -> Iterator[tuple[str, str, Spell]]:
    """The times at which a center had a tire on, or a tire was on a center."""
    yield from ((spell.what, thing.id, spell) for spell in book.standing.tires.get(thing.id, ()))
    yield from ((thing.id, center, spell) for center, spell in book.standing.centers_of.get(thing.id, ()))


def _off_before_on(book: Book) -> Iterator[Told]:
    """A tire whose first work on record is that it came off, and that went on for the first time later."""
    opened: dict[str, Session] = {}
    for session in book.sessions:
        if not session.kind.startswith("tire-") or session.day.first is None or session.draft or session.unfilled:
            continue
        first = opened.setdefault(session.tire, session)
        if first.kind == "tire-removed" and session.kind == "tire-applied" and first.center == session.center:
            words = (
                f"{session.tire} came off {first.center} on {first.day.text}, and first went on by {session.id}. "
                f"If it was on long before, open its book with a tire-found."
            )
            yield Told(first.day_at, first.id, words)
            opened[session.tire] = session


def _service(book: Book) -> Iterator[Told]:
    """Service days outside their month, and days told twice."""
    for engine, services in book.service_of.items():
        once = _all_apart(line for service in services for line in service.lines)
        days: dict[date, Place] = {}
        for service in services:
            first, last = service.period.first, service.period.last
            for line in service.lines:
                if first and last and not (first <= line.first and line.last <= last):
                    run = f" to {line.last}" if line.days > 1 else ""
                    words = f"{line.first}{run} stands in the record of {service.period.text}."
                    yield Told(line.place.below("day"), service.id, words)
                twice = [d for d in _days(line) if days.setdefault(d, line.place) != line.place] if not once else ()
                if twice:
                    words = f"{twice[0]} is told twice as a service day of {engine}."
                    yield Told(line.place.below("day"), service.id, words)


def _all_apart(lines: Iterable[ServiceLine]) -> bool:
    """Whether no two runs of service days have a day in common, as most often."""
    runs = sorted((line.first, line.last) for line in lines if line.first <= line.last)
    return all(before[1] < after[0] for before, after in pairwise(runs))


def _days(line: ServiceLine) -> Iterator[date]:
    """The days of a run, of one that is absurdly long the first year."""
    start = line.first.toordinal()
    return map(date.fromordinal, range(start, start + min(line.days, 366)))


def _corrections(book: Book) -> Iterator[Told]:
    """A correction made before there was anything to correct."""
    days = {session.id: session.day for session in book.sessions}
    days |= {service.id: service.period for service in book.services.values()}
    days |= {defect.id: fields.day(defect.tree, "found_on") for defect in book.of_kind("defect")}
    for one in book.corrections:
        of = days.get(one.record)
        if of is not None and not one.failed and certainly_before(parse_day(one.day), of):
            words = f"{one.id} was made on {one.day}, and {one.record}, which it corrects, is of {of.text}."
            yield Told(Place(one.path, "/corrected_on"), one.id, words)
