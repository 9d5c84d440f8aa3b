"""The book: all records joined, and the questions a check may ask of them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from typing import NamedTuple
from unicodedata import normalize

from axlebook.findings import Place, Problem
from axlebook.limits import Adoption, Limit, LimitSet, sets_in_force

from . import fields
from .attached import Attached, Cited
from .corrections import Correction
from .counters import ServiceCalendar
from .dates import Day
from .engine import Engine, Line, role_of
from .entered import Entered
from .instrument import Instrument
from .ledger import Ledger
from .placing import Asked, Thing, end_of, lines_meant, side_of, things_on
from .plain import Plain
from .plan import Plan, build_plan
from .reading import Examination, Observation, Reading
from .service import Service
from .session import Session
from .standing import Standing, build_standing
from .stretches import Stretches
from .tire import Tire
from .vocabulary import Vocabulary
from .wheelset import Center, Wheelset

NOT_YET = Thing("", "")


class Stood(NamedTuple):
    """What stood at a place by the records: ids, each '' where they do not tell or the place names no side."""

    wheelset: str
    end: str
    center: str
    tire: str


@dataclass(frozen=True)
class Book:
    """Every record of one ledger as it stands on a day."""

    ledger: Ledger
    vocabulary: Vocabulary
    as_of: date
    today: date
    engines: Mapping[str, Engine] = field(default_factory=dict)
    wheelsets: Mapping[str, Wheelset] = field(default_factory=dict)
    tires: Mapping[str, Tire] = field(default_factory=dict)
    sessions: tuple[Session, ...] = ()  # all dates, in order
    services: Mapping[str, Service] = field(default_factory=dict)
    instruments: Mapping[str, Instrument] = field(default_factory=dict)
    limit_sets: Mapping[str, LimitSet] = field(default_factory=dict)
    plain: Mapping[str, Plain] = field(default_factory=dict)  # people, plans, defects, waivers, corrections
    paths: Mapping[str, str] = field(default_factory=dict)  # id -> path, every record that was read
    problems: tuple[Problem, ...] = ()  # found while reading
    read: int = 0  # files read, sound or not
    sets_altered: frozenset[str] = frozenset()  # shipped sets whose text was changed
    corrections: tuple[Correction, ...] = ()  # and what became of each
    twins: tuple[tuple[str, str], ...] = ()  # id and path of records whose id was taken: they are not in the book
    entered: Entered | None = None  # how records came into the book; None where nobody asked
    cited: tuple[Cited, ...] = ()  # attachments that records name
    attached: Mapping[str, Attached] | None = None  # what stands in attachments/ of those; None where nobody looked

    # -- the parts ---------------------------------------------------------------------------------------------

    @cached_property
    def centers(self) -> dict[str, Center]:
        """Every center by id."""
        return {center.id: center for wheelset in self.wheelsets.values() for center in wheelset.centers}

    def engine_named(self, name: str) -> Engine | None:
        """An engine by its id, or by the number it carries where one alone carries it."""
        by_number = self.engines_numbered(name)
        found = self.engines.get(name) or self.engines.get(normalize("NFC", name))
        return found or (by_number[0] if len(by_number) == 1 else None)

    def engines_numbered(self, name: str) -> list[Engine]:
        """The engines that carry a number, in whatever form of Unicode it is typed or written."""
        typed = normalize("NFC", name)
        return [one for one in self.engines.values() if name and normalize("NFC", one.number or "") == typed]

    def of_kind(self, kind: str) -> list[Plain]:
        """The plain records of a kind."""
        return [record for record in self.plain.values() if record.kind == kind]

    @cached_property
    def past_sessions(self) -> tuple[Session, ...]:
        """Sessions that had begun by the day the book is read at, drafts left out."""
        return tuple(s for s in self.sessions if (s.day.first is None or s.day.first <= self.as_of) and not s.draft)

    @cached_property
    def past_sessions_of(self) -> dict[str, list[Session]]:
        """The same by engine, '' for those that name none; a template that nobody has filled in is nothing done."""
        found: dict[str, list[Session]] = defaultdict(list)
        for session in (one for one in self.past_sessions if not one.blank):
            found[session.engine].append(session)
        return found

    @cached_property
    def session_by_id(self) -> dict[str, Session]:
        """Sessions by id."""
        return {session.id: session for session in self.sessions}

    @cached_property
    def standing(self) -> Standing:
        """What stands where, from lines and work up to the day the book is read at."""
        return build_standing(self.engines.values(), self.wheelsets.values(), self.past_sessions)

    @cached_property
    def corrected(self) -> dict[str, list[Correction]]:
        """Corrections that took effect and left their record in the book, by the record's path."""
        found: dict[str, list[Correction]] = defaultdict(list)
        for correction in self.corrections:
            if not correction.failed and not correction.withdraws and correction.record in self.paths:
                found[self.paths[correction.record]].append(correction)
        return found

    def corrections_at(self, place: Place) -> list[Correction]:
        """Corrections of what stands at a place, of what is in it, or of what it is in."""
        here = f"{place.pointer}/"
        told = self.corrected.get(place.path, ())
        return [c for c in told if f"{c.pointer}/".startswith(here) or here.startswith(f"{c.pointer}/")]

    # -- readings ----------------------------------------------------------------------------------------------

    @cached_property
    def readings(self) -> tuple[Reading, ...]:
        """Every reading taken by the day the book is read at."""
        return tuple(
            r for s in self.past_sessions for r in s.readings if r.day.first is None or r.day.first <= self.as_of
        )

    @cached_property
    def observations(self) -> tuple[Observation, ...]:
        """Every observation made by the day the book is read at."""
        return tuple(
            o for s in self.past_sessions for o in s.observations if o.day.first is None or o.day.first <= self.as_of
        )

    def thing_of(self, of: str, record: Reading | Observation) -> Thing | None:
        """What a reading or observation is of; None where the records do not tell. Looked up once a place and time."""
        when = record.when if type(record) is Reading else fields.text(record.tree, "when")
        key = (of, record.part, record.place, record.source.record, record.day, when)
        found = self._things.get(key, NOT_YET)
        if found is NOT_YET:
            found = self._things[key] = self._thing_looked_up(of, record)
        return found

    @cached_property
    def _things(self) -> dict[tuple[str, str, str, str, Day, str], Thing | None]:
        return {}

    def _thing_looked_up(self, of: str, record: Reading | Observation) -> Thing | None:
        if record.part:
            return self._thing_by_part(of, record)
        if of == "engine":
            return Thing("engine", record.source.engine, record.place)
        found = self.could_be(of, record)
        return found[0] if len(found) == 1 else None

    def could_be(self, of: str, record: Reading | Observation) -> list[Thing]:
        """Everything that a reading or observation at a place can be of: more than one where nothing decides."""
        if record.day.first is None:
            return []
        return self._stretches.things_at(record.source.engine, record.place, self._asked(of, record))

    _stretches = cached_property(lambda self: Stretches(self.standing, self.wheelsets))

    def stood_at(self, engine: str, place: str, day: date) -> Stood | None:
        """What stood at a place of an engine on a day; None where no wheelset on record did."""
        at, _, side = place.partition(" ")
        line = self.standing.line_at(engine, at, day)
        wheelset = self.wheelsets.get(line.wheelset) if line else None
        if line is None or wheelset is None:
            return None
        end = end_of(line.a_end, wheelset, side)
        center = self.standing.center_on(wheelset.id, end, day) if end else ""
        return Stood(wheelset.id, end, center or "", (self.standing.tire_on(center, day) or "") if center else "")

    def lines_read_at(self, record: Reading | Observation | Examination) -> list[Line]:
        """The dated lines of the place that a record names which it can be of: more than one where nothing decides."""
        at = record.place.partition(" ")[0]
        return lines_meant(self.standing, record.source.engine, at, self._asked("wheelset", record))

    def _asked(self, of: str, record: Reading | Observation | Examination) -> Asked:
        source, day = record.source, record.day
        when = "" if source.kind == "turning" else _when(record)  # else of the turning
        return Asked(of, day.first or date.min, day.last or date.max, when, self._parts.get(source.record, frozenset()))

    @cached_property
    def _parts(self) -> dict[str, frozenset[str]]:
        """What each session was done to, where its record names that."""
        return {session.id: parts for session in self.sessions if (parts := frozenset(session.touched))}

    def _thing_by_part(self, of: str, record: Reading | Observation) -> Thing | None:
        id, _, side = record.part.partition(" ")
        if id in self.tires:
            return Thing("tire", id)
        if id in self.centers:
            return Thing("center", id)
        if id in self.wheelsets:
            if of == "wheelset":
                return Thing("wheelset", id)
            if of == "end" or not side or record.day.first is None:
                return Thing("end", id, side) if side else None
            found = things_on(self.standing, self.wheelsets[id], side, self._asked(of, record))
            return found[0] if len(found) == 1 else None
        return Thing("engine", id, side) if id in self.engines else None

    @cached_property
    def series(self) -> dict[tuple[Thing, str], list[Reading]]:
        """Readings by thing and quantity, in order of date; those whose thing is not told are left out."""
        found: dict[tuple[Thing, str], list[Reading]] = defaultdict(list)
        of = {name: word.of for name, word in self.vocabulary.quantities.items()}
        for reading in self.readings:
            thing = self.thing_of(of.get(reading.quantity, "engine"), reading)
            if thing is not None:
                found[thing, reading.quantity].append(reading)
        for many in found.values():
            many.sort(key=_first)
        return found

    @cached_property
    def seen(self) -> dict[tuple[Thing, str], list[Observation]]:
        """Observations by thing and what was looked for, in order of date."""
        found: dict[tuple[Thing, str], list[Observation]] = defaultdict(list)
        of = {name: word.of for name, word in self.vocabulary.observations.items()}
        for observation in self.observations:
            belongs = of.get(observation.looked_for)
            thing = self.thing_of(belongs, observation) if belongs is not None else None
            if thing is not None:
                found[thing, observation.looked_for].append(observation)
        for many in found.values():
            many.sort(key=_first)
        return found

    def in_mm(self, engine: Engine | None = None) -> bool:
        """Whether figures are shown in millimetres first: on an engine, or in the whole ledger."""
        return ((engine.display_units if engine else "") or self.ledger.display_units) == "mm"

    # -- limits ------------------------------------------------------------------------------------------------

    def adoptions(self, engine: Engine | None) -> tuple[Adoption, ...]:
        """The limit sets an engine is judged by: its own, or the ledger's."""
        return engine.adoptions if engine and engine.adoptions else self.ledger.adoptions

    def limits_for(self, engine: Engine | None) -> tuple[LimitSet, ...]:
        """The limit sets in force for an engine on the day the book is read at."""
        key = engine.id if engine else ""
        found = self._in_force.get(key)
        if found is None:
            found = self._in_force[key] = sets_in_force(self.adoptions(engine), self.limit_sets, self.as_of)
        return found

    @cached_property
    def _in_force(self) -> dict[str, tuple[LimitSet, ...]]:
        return {}

    def limits_on(self, engine: Engine | None, quantity: str) -> list[Limit]:
        """The limits in force for an engine that name a quantity, an expired one left out."""
        key = engine.id if engine else ""
        found = self._limits_by_quantity.get(key)
        if found is None:
            found = defaultdict(list)
            for limit in (limit for limit_set in self.limits_for(engine) for limit in limit_set.limits):
                if limit.expires_on is None or self.as_of <= limit.expires_on:
                    for name in limit.quantities:
                        found[name].append(limit)
            self._limits_by_quantity[key] = found
        return found.get(quantity, [])

    @cached_property
    def _limits_by_quantity(self) -> dict[str, dict[str, list[Limit]]]:
        return {}

    @cached_property
    def plans(self) -> tuple[Plan, ...]:
        """What the plans on file ask for."""
        return tuple(map(build_plan, self.of_kind("plan")))

    # -- work --------------------------------------------------------------------------------------------------

    @cached_property
    def work_on(self) -> dict[str, list[Session]]:
        """Tire work, turnings and mountings by the tire, center or wheelset they touched, in order of date."""
        found: dict[str, list[Session]] = defaultdict(list)
        for session in self.past_sessions:
            if session.kind == "inspection":
                continue
            for id in session.touched:
                found[id].append(session)
        return found

    def service_days(self, engine: str, after: date | None, until: date) -> int | None:
        """Service days of an engine after a day, up to and with another; None when part is only a yearly total."""
        return self.service_calendar(engine).on_file(after, until).exact

    def service_calendar(self, engine: str) -> ServiceCalendar:
        """The service days of an engine, counted once."""
        known: dict[str, ServiceCalendar] = self.__dict__.setdefault("_service_calendars", {})
        if engine not in known:
            own = self.engines.get(engine)
            placed = fields.day(own.tree, "placed_in_service").first if own else None
            known[engine] = ServiceCalendar(self.service_of.get(engine, ()), placed)
        return known[engine]

    @cached_property
    def service_of(self) -> dict[str, list[Service]]:
        """Service records by engine, in order of their period."""
        found: dict[str, list[Service]] = defaultdict(list)
        for service in self.services.values():
            found[service.engine].append(service)
        for many in found.values():
            many.sort(key=lambda s: s.period.first or date.min)
        return found

    def place(self, id: str) -> Place:
        """Where a record stands."""
        return Place(self.paths.get(id, "ledger.yaml"))


def _when(record: Reading | Observation | Examination) -> str:
    return record.when if type(record) is Reading else fields.text(record.tree, "when")


def _first(one: Reading | Observation) -> date:
    return one.day.first or date.min


def in_order(sessions: Iterable[Session]) -> tuple[Session, ...]:
    """Sessions in order of date, unknown dates first, then id."""
    return tuple(sorted(sessions, key=lambda s: (s.day.first or date.min, s.id)))


__all__ = ["Book", "Thing", "end_of", "in_order", "role_of", "side_of"]
