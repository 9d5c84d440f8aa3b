"""Inspections that tell of few of an engine's wheels: such a one is no inspection of the engine, and several may be.

What asks is a plan: only where one is for the purpose of an inspection, and asks for something of the wheels, is it
known that they belong to it. An inspection that names nothing (the date of an old book, a report that was filed) counts
as it stands, and so does an old card, to which nobody can add; one that names other things alone does not count.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from ..book import Book
from ..engine import Engine, Line
from ..session import Session

WHOLE = ("", "engine")  # where a thing that is of the wheels is written of all of them at once


class Partial(NamedTuple):
    """The last record of an inspection that is not complete, and the places of which nothing is told."""

    session: Session
    nothing_on: tuple[str, ...]

    @property
    def words(self) -> str:
        """What is to be said of it."""
        names, rest = ", ".join(self.nothing_on[:3]), len(self.nothing_on) - 3
        more = f" and {rest} more" if rest > 0 else ""
        return f"{self.session.id} does not count: partial, nothing on {names}{more}"


class Pieces:
    """Under which purposes the inspections of an engine count, asked in order of date."""

    def __init__(self, book: Book, engine: Engine) -> None:
        self.book, self.engine = book, engine
        self.roles: dict[str, set[str]] = defaultdict(set)
        for plan in book.plans:
            for purpose in plan.purposes:
                self.roles[purpose].update(role for ask in plan.asks if not ask.wanted for role in ask.roles)
        words = book.vocabulary
        self.of_engine = {
            word.name for word in (*words.quantities.values(), *words.observations.values()) if word.of == "engine"
        }
        self.begun: dict[str, tuple[Session, set[str]]] = {}  # by purpose: the first piece, and what all tell of
        self.left: dict[str, Partial] = {}  # by purpose, what does not count
        self._last: Session | None = None
        self._told: set[str] = set()  # what the last record tells of

    def done_by(self, session: Session, purpose: str) -> Session | None:
        """The record from whose day an inspection counts: itself, the first of its pieces, or none.

        Pieces belong together until one of them tells of nothing but what they told already.
        """
        asked = self._asked(session, purpose)
        named = self._named(session) if asked else set()
        told = {line.at for line in asked if line.at in named or not named.isdisjoint(_names(self.book, session, line))}
        told = {line.at for line in asked} if "" in named else told
        if not named or "transcribed" in session.tree or _most(told, asked):
            self.begun.pop(purpose, None)
            self.left.pop(purpose, None)
            return session
        if not told:  # no piece of it
            self.left[purpose] = Partial(session, tuple(line.at for line in asked))
            return None
        first, before = self.begun.get(purpose, (session, set()))
        if told <= before:
            first, before = session, set()
        self.begun[purpose] = first, before | told
        if _most(before | told, asked):
            self.left.pop(purpose, None)
            return first
        self.left[purpose] = Partial(session, tuple(line.at for line in asked if line.at not in before | told))
        return None

    def _asked(self, session: Session, purpose: str) -> list[Line]:
        """The places of which a plan for a purpose asks something, as they were filled on the day."""
        roles, day = self.roles.get(purpose), session.day.first
        if not roles or day is None:
            return []
        return [line for line in self.book.standing.standing_lines(self.engine, day) if line.role in roles]

    def _named(self, session: Session) -> set[str]:
        """What a record tells of, or why not: places and parts without their sides; '' for all that the engine has."""
        if self._last is not session:  # asked again for each of its purposes
            self._last, self._told = session, self._all_named(session)
        return self._told

    def _all_named(self, session: Session) -> set[str]:
        examined = {one.place or one.part for one in session.examinations}
        left = [(one.what, place) for one in session.not_measured for place in one.places or ("",)]
        names = examined | {place for _, place in left}
        names |= {one.place or one.part for one in session.readings}
        names |= {one.place or one.part for one in session.observations}
        whole = {*WHOLE, session.engine}
        found = {name.partition(" ")[0] for name in names if name not in whole}
        if names.isdisjoint(whole):  # most name a place each time
            return found
        left += [(one.quantity, one.place or one.part) for one in session.readings]
        left += [(one.looked_for, one.place or one.part) for one in session.observations]
        if any(what and what not in self.of_engine for what, place in left if place in whole):
            found.add("")
        return found


def _most(told: set[str], asked: list[Line]) -> bool:
    """Whether not more is left out than told."""
    return 2 * len(told) >= len(asked)


def _names(book: Book, session: Session, line: Line) -> Iterator[str]:
    """All that a place of the engine may be told by: itself, its wheelset, and what is on that."""
    yield from (line.at, line.wheelset)
    wheelset, day = book.wheelsets.get(line.wheelset), session.day.first
    if wheelset is None or day is None:
        return
    for end in wheelset.ends:
        center = book.standing.center_on(wheelset.id, end, day)
        if center:
            yield center
            yield book.standing.tire_on(center, day) or center


__all__ = ["Partial", "Pieces"]
