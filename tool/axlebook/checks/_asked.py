"""What the plans ask of a session: every quantity on every wheel it is for, worked out once a state of an engine.

An inspection of the whole engine (daily, periodic, an interval) is asked for every wheel that stood on that day; one of
parts (receiving, shop, after work, after an incident) only for the wheelsets and parts that it names.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Hashable, Iterable, Iterator
from datetime import date
from functools import partial
from typing import NamedTuple

from axlebook.findings import Place
from axlebook.limits import FacetReader, applies
from axlebook.records.book import Book, side_of
from axlebook.records.condition import Stand
from axlebook.records.engine import Engine, Line
from axlebook.records.facets import facet
from axlebook.records.plan import Ask, Plan
from axlebook.records.session import Session
from axlebook.records.wheelset import Wheelset
from axlebook.records.where_stands import place_of_part

from ._things import OF_FLANGES, Things

OF_PARTS = frozenset({"receiving", "shop", "after-work", "after-incident"})
OF_A_FORM = frozenset({"flange", "located_by", "fastened_by"})
KNOWN_OF_A_LOOSE_TIRE = OF_A_FORM | {"make"}


class Asked(NamedTuple):
    """What is asked for at one place: at how many positions, and by which plan."""

    positions: int
    plan: str
    lacks: tuple[str, ...] = ()  # the facts not on record that would tell whether it is asked for at all
    stand: Stand | None = None  # the wheel or pair; None for a part by itself


Required = dict[tuple[str, str], Asked]  # (what, place or part) -> how


class Asking:
    """The plans of a book, and what they ask of its engines."""

    def __init__(self, book: Book) -> None:
        self.book = book
        self.things = Things(book)
        self.by_purpose: dict[str, list[Plan]] = {}
        for plan in book.plans:
            for purpose in plan.purposes:
                self.by_purpose.setdefault(purpose, []).append(plan)
        self._known: dict[tuple[str, str, int], Required] = {}
        self._of_stands: dict[tuple[str, Line, str, str, str], list[tuple[tuple[str, str], Asked]]] = {}
        self._by_role: dict[tuple[str, str, bool], list[tuple[Ask, int]]] = {}
        self._changes: dict[str, list[date]] = {}

    def of(self, session: Session, purpose: str) -> Required:
        """What an inspection is asked for under one purpose; empty where no plan is for it."""
        plans, engine, day = self.by_purpose.get(purpose), self.book.engines.get(session.engine), session.day.exact
        if not plans:
            return {}
        if purpose in OF_PARTS:
            return self._of_parts(plans, session, engine, day)
        return self._of_engine(plans, purpose, engine, day) if engine and day else {}

    def _of_engine(self, plans: list[Plan], purpose: str, engine: Engine, day: date) -> Required:
        key = (engine.id, purpose, bisect_right(self._changes_of(engine), day))
        found = self._known.get(key)
        if found is None:
            found = self._known[key] = {}
            for line in self.book.standing.standing_lines(engine, day):
                for plan in plans:
                    self._at_line(found, plan, engine, line, day)
        return found

    def _changes_of(self, engine: Engine) -> list[date]:
        """The days on which something on the engine changed its wheelset, center or tire."""
        found = self._changes.get(engine.id)
        if found is None:
            ends = (line.until.last for line in engine.lines if line.until and line.until.last)
            days = {line.start.first for line in engine.lines} | {date.fromordinal(e.toordinal() + 1) for e in ends}
            for line in engine.lines:
                wheelset = self.book.wheelsets.get(line.wheelset)
                names = [line.wheelset, *(center.id for center in wheelset.centers)] if wheelset else []
                days |= {s.day.first for name in names for s in self.book.work_on.get(name, ())}
            found = self._changes[engine.id] = sorted(day for day in days if day is not None)
        return found

    def _at_line(self, found: Required, plan: Plan, engine: Engine, line: Line, day: date) -> None:
        wheelset = self.book.wheelsets.get(line.wheelset)
        if wheelset is None:
            return
        standing = self.book.standing
        for end in ("", *wheelset.ends):
            center = standing.center_on(wheelset.id, end, day) if end else ""
            tire = standing.tire_on(center, day) if center else ""
            key = (plan.id, line, end, center, tire)
            asks = self._of_stands.get(key)
            if asks is None:  # most wheels stay what they are from one state of an engine to the next
                stand = self._stand(engine, line, wheelset, end, center, tire)
                asks = self._of_stands[key] = list(self._of_stand(plan, stand))
            for what, asked in asks:
                _ask(found, what, asked)

    def _stand(self, engine: Engine, line: Line, wheelset: Wheelset, end: str, center: str, tire: str) -> Stand:
        if not end:
            return Stand(engine, line, wheelset)
        side, book = side_of(line.a_end, wheelset, end), self.book
        return Stand(engine, line, wheelset, side, end, book.centers.get(center), book.tires.get(tire))

    def _of_stand(self, plan: Plan, stand: Stand) -> Iterator[tuple[tuple[str, str], Asked]]:
        """What a plan asks of a pair, or of one wheel."""
        place = f"{stand.line.at} {stand.side}".strip()
        facets = partial(facet, self.book, stand)
        for ask, needed in self._asks_of(plan, stand.line.role, is_pair=not stand.end):
            if self.is_for(ask, stand):
                yield (ask.what, place), Asked(needed, plan.id, _not_known(ask, facets), stand)

    def _asks_of(self, plan: Plan, role: str, *, is_pair: bool) -> list[tuple[Ask, int]]:
        """What a plan asks of the pairs or the wheels of a role, each with how many positions it needs."""
        key = (plan.id, role, is_pair)
        found = self._by_role.get(key)
        if found is None:
            asks = [ask for ask in plan.asks if not ask.wanted and role in ask.roles]
            found = self._by_role[key] = [
                (ask, plan.positions_needed(ask))
                for ask in asks
                if (self.things.of.get(ask.what) == "wheelset") is is_pair
            ]
        return found

    def is_for(self, ask: Ask, stand: Stand) -> bool:
        """Whether the ask is for this stand, or may be: where a fact is not on record, silence is no answer."""
        if self.things.of.get(ask.what) == "engine":
            return False
        place = f"{stand.line.at} {stand.side}".strip()
        if self.things.always_wrong(ask.what, place, "", stand.engine.id):
            return False
        if self.things.wrong_for_make(ask.what, stand.wheelset.made):  # also where its side is not known
            return False
        if ask.what in OF_FLANGES and stand.tire is not None and stand.tire.flange == "plain":
            return False
        return not ask.applies_to or applies(ask.applies_to, partial(facet, self.book, stand)).answer is not False

    def _of_parts(self, plans: list[Plan], session: Session, engine: Engine | None, day: date | None) -> Required:
        found: Required = {}
        named = {reading.part or reading.place for reading in session.readings}
        for plan in plans:
            axles = {name.partition(" ")[0] for name in named}
            for line in self.book.standing.standing_lines(engine, day) if engine and day else ():
                if line.at in axles and day:
                    self._at_line(found, plan, engine, line, day) if engine else None
            for part in sorted(named):
                self._at_part(found, plan, part)
        return found

    def _at_part(self, found: Required, plan: Plan, part: str) -> None:
        book = self.book
        of = ("tire", "wheel") if part in book.tires else ("center",) if part in book.centers else ()
        for ask in plan.asks:
            if self.things.of.get(ask.what) in of and not ask.wanted and self.is_for_part(ask, part):
                lacks = _not_known(ask, self._told_of(part))
                _ask(found, (ask.what, part), Asked(plan.positions_needed(ask), plan.id, lacks))

    def is_for_part(self, ask: Ask, part: str) -> bool:
        """Whether the ask is for a part by itself, or may be, as far as is known of a loose one."""
        if self.things.always_wrong(ask.what, "", part, ""):
            return False
        if any(test.facet not in KNOWN_OF_A_LOOSE_TIRE for test in ask.applies_to):
            return False
        answer = applies(ask.applies_to, self._told_of(part)).answer
        return answer is not False if part in self.book.tires else answer is True

    def _told_of(self, part: str) -> FacetReader:
        tire, told = self.book.tires.get(part), {"make": "tired"}
        if tire is not None:
            told |= {"flange": tire.flange, "located_by": tire.located_by, "fastened_by": tire.fastened_by}
        known = {name: word for name, word in told.items() if word and word != "unknown"}
        return known.get


def _not_known(ask: Ask, facets: FacetReader) -> tuple[str, ...]:
    """The facts that an ask turns on and that are on no record."""
    return tuple(test.facet for test in ask.applies_to if facets(test.facet) is None) if ask.applies_to else ()


def _ask(found: Required, key: tuple[str, str], asked: Asked) -> None:
    """Of several asks for one thing the first counts that is surely for it."""
    if key not in found or (found[key].lacks and not asked.lacks):
        found[key] = asked


def named_on(book: Book, engine: str, name: str, day: date | None) -> tuple[str, ...]:
    """A place or part as a record names it; of a part also the place at which it stood on an engine that day."""
    known: dict[Hashable, tuple[str, ...]] = book.__dict__.setdefault("_named_on", {})
    key = engine, name, day
    if key not in known:
        is_place = (engine, name.partition(" ")[0]) in book.standing.lines
        place = "" if is_place else place_of_part(book, name, engine, day)
        known[key] = (name, place) if place else (name,)
    return known[key]


def _names_in(book: Book, session: Session, name: str) -> tuple[str, ...]:
    return named_on(book, session.engine, name, session.day.exact)


def _positions(book: Book, session: Session) -> dict[tuple[str, str], set[str]]:
    """Where each quantity was read at each place, and what was looked for: one read by two people is still one."""
    found: dict[tuple[str, str], set[str]] = {}
    for reading in session.readings:
        read = {position for position, _ in reading.values}
        for name in (reading.place,) if reading.place else _names_in(book, session, reading.part):
            key = reading.quantity, name
            found[key] = found[key] | read if key in found else read
    once = {""}
    for seen in session.observations:
        for name in (seen.place,) if seen.place else _names_in(book, session, seen.part):
            found[seen.looked_for, name] = once
    return found


def excused(book: Book, session: Session) -> set[tuple[str, str]]:
    """What a session says was not measured at all, and where; '' is everywhere."""
    whole = (one for one in session.not_measured if not one.positions)
    return {(one.what, name) for one in whole for at in one.places or ("",) for name in _names_in(book, session, at)}


def told_in(book: Book, session: Session) -> dict[tuple[str, str], int]:
    """What a session holds: at how many positions each thing was read, or is said by position not to have been."""
    found = _positions(book, session)
    for one in session.not_measured:
        for at in one.places if one.positions else ():
            for name in _names_in(book, session, at):
                found[one.what, name] = found.get((one.what, name), set()) | set(one.positions)
    return {key: len(positions) for key, positions in found.items()}


def is_covered(what: str, place: str, there: Iterable[tuple[str, str]]) -> bool:
    """Whether the pair, the whole engine or everything answers for a wheel."""
    return any((what, wider) in there for wider in (place, place.partition(" ")[0], "engine", ""))


def where_to_write(book: Book, subject: str, stand: Stand | None, facets: Iterable[str]) -> tuple[Place, str]:
    """The record that would say these facts of a wheel or a loose tire, and the one next step."""
    names = list(facets)
    tire = stand.tire if stand else book.tires.get(subject)
    if tire is not None and OF_A_FORM.issuperset(names):
        return Place(tire.path, ""), f"Write in {tire.path}, under form: {_lines(names)}."
    if stand is not None and stand.wheelset.made == "one-piece" and names == ["flange"]:
        path = stand.wheelset.path
        return Place(path, ""), f"Write in {path}: flange: flanged, or flange: plain (it has none)."
    if stand is not None and OF_A_FORM.issuperset(names):
        words = f"Say which tire is on {subject}: write a tire-found record, and the form in the tire's own."
        return Place(stand.wheelset.path, ""), words
    path = stand.wheelset.path if stand else tire.path if tire else "ledger.yaml"
    return Place(path, ""), f"Write in {path}, under facets: {', '.join(names)}."


def _lines(names: Iterable[str]) -> str:
    words = {"flange": "flange: flanged, or flange: plain (it has none)"}
    return "; ".join(words.get(name, f"{name}:") for name in names)
