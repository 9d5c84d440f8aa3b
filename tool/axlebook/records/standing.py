"""What stands where, on any day: derived from dated lines and dated work, never typed, never guessed."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from datetime import date
from typing import NamedTuple

from .dates import Day
from .engine import Engine, Line
from .session import Session
from .wheelset import Center, Wheelset


class Empty(NamedTuple):
    """A place of an engine at which a wheelset stood and none does."""

    at: str
    since: str  # the last day of the one that stood there, as written


class Spell(NamedTuple):
    """One thing on another from a day (None: unknown, before all else) until a day (None: still)."""

    what: str
    start: date | None
    until: date | None
    by: str  # the record that began it
    begun: date | None = None  # the last day it can have begun on, where only the month or year is known
    over: date | None = None  # the last day it can have ended on, likewise


def _covers(start: date | None, until: date | None, day: date) -> bool:
    """Whether a spell covers a day; the day of its end belongs to what comes next."""
    return (start is None or start <= day) and (until is None or day < until)


class Standing(NamedTuple):
    """Dated answers: wheelsets at places, centers on wheelsets, tires on centers."""

    lines: dict[tuple[str, str], list[Line]]  # (engine, place) -> lines
    lines_of: dict[str, list[Line]]  # wheelset -> lines
    centers: dict[tuple[str, str], list[Spell]]  # (wheelset, side) -> centers
    sides_of: dict[str, list[tuple[str, str, Spell]]]  # center -> (wheelset, side, spell)
    tires: dict[str, list[Spell]]  # center -> tires
    centers_of: dict[str, list[tuple[str, Spell]]]  # tire -> (center, spell)

    def line_at(self, engine: str, place: str, day: date) -> Line | None:
        """The line of the wheelset at a place of an engine on a day; of a change, the one that came."""
        found = [line for line in self.lines.get((engine, place), ()) if _line_covers(line, day)]
        return max(found, key=lambda line: (line.start.first or date.min, line.wheelset), default=None)

    def standing_lines(self, engine: Engine, day: date) -> list[Line]:
        """The lines of an engine that hold on a day, in walking order of the record."""
        return [line for line in engine.lines if _line_covers(line, day)]

    def empty_places(self, engine: Engine, day: date) -> list[Empty]:
        """The places of an engine at which a wheelset stood before a day, and none does on it."""
        filled = {line.at for line in self.standing_lines(engine, day)}
        last: dict[str, Line] = {}
        for line in engine.lines:
            until = line.until.last if line.until else None
            if line.at in filled or until is None or until >= day:
                continue
            known = last.get(line.at)
            if known is None or _end(known) <= until:
                last[line.at] = line
        return [Empty(at, line.until.text if line.until else "") for at, line in last.items()]

    def line_of(self, wheelset: str, day: date) -> Line | None:
        """Where a wheelset stands on a day; None when it is out of any engine."""
        return next((line for line in self.lines_of.get(wheelset, ()) if _line_covers(line, day)), None)

    def center_on(self, wheelset: str, side: str, day: date) -> str:
        """The center on a side or end of a wheelset on a day, or ''."""
        return _on(self.centers.get((wheelset, side), ()), day)

    def tire_on(self, center: str, day: date) -> str:
        """The tire on a center on a day, or ''."""
        return _on(self.tires.get(center, ()), day)

    def wheel_of_tire(self, tire: str, day: date) -> tuple[str, str, str] | None:
        """(center, wheelset, side) that carries a tire on a day."""
        for center, spell in self.centers_of.get(tire, ()):
            if _covers(spell.start, spell.until, day):
                for wheelset, side, on in self.sides_of.get(center, ()):
                    if _covers(on.start, on.until, day):
                        return center, wheelset, side
        return None


def _on(spells: Iterable[Spell], day: date) -> str:
    found = ""
    for spell in spells:
        if _covers(spell.start, spell.until, day):
            found = spell.what
    return found


def _end(line: Line) -> date:
    return (line.until.last if line.until else None) or date.min


def _line_covers(line: Line, day: date) -> bool:
    start, until = line.start.first, line.until.last if line.until else None
    return (start is None or start <= day) and (until is None or day <= until)


def build_standing(engines: Iterable[Engine], wheelsets: Iterable[Wheelset], sessions: Iterable[Session]) -> Standing:
    """Join dated lines and dated work; `sessions` in order of date."""
    lines: dict[tuple[str, str], list[Line]] = defaultdict(list)
    lines_of: dict[str, list[Line]] = defaultdict(list)
    for engine in engines:
        for line in engine.lines:
            lines[engine.id, line.at].append(line)
            lines_of[line.wheelset].append(line)
    work = [session for session in sessions if session.kind != "inspection"]
    centers = _centers([c for w in wheelsets for c in w.centers], [s for s in work if s.kind == "mounting"])
    tires = _tires([s for s in work if s.kind.startswith("tire-")])
    sides_of: dict[str, list[tuple[str, str, Spell]]] = defaultdict(list)
    for (wheelset, side), spells in centers.items():
        for spell in spells:
            sides_of[spell.what].append((wheelset, side, spell))
    centers_of: dict[str, list[tuple[str, Spell]]] = defaultdict(list)
    for center, spells in tires.items():
        for spell in spells:
            centers_of[spell.what].append((center, spell))
    return Standing(lines, lines_of, centers, sides_of, tires, centers_of)


def _close(spells: list[Spell], day: Day, what: str = "") -> None:
    for index, spell in enumerate(spells):
        if spell.until is None and (not what or spell.what == what):
            spells[index] = spell._replace(until=day.first, over=day.last)


def _centers(first: list[Center], mountings: list[Session]) -> dict[tuple[str, str], list[Spell]]:
    found: dict[tuple[str, str], list[Spell]] = defaultdict(list)
    for center in first:
        found[center.wheelset, center.first_side].append(Spell(center.id, None, None, center.wheelset))
    for mounting in mountings:
        pressed, wheelset = mounting.center, str(mounting.tree.get("wheelset", ""))
        day = mounting.day
        if mounting.tree["work"] in ("pressed on", "pressed off"):
            for spells in found.values():
                _close(spells, day, pressed)
        if mounting.tree["work"] in ("pressed on", "found") and (side := str(mounting.tree.get("side", ""))):
            _close(found[wheelset, side], day)
            found[wheelset, side].append(Spell(pressed, day.first, None, mounting.id, day.last))
    return found


def _tires(work: list[Session]) -> dict[str, list[Spell]]:
    found: dict[str, list[Spell]] = defaultdict(list)
    for session in sorted(work, key=lambda s: (s.day.first or date.min, s.kind == "tire-applied", s.id)):
        spells, day = found[session.center], session.day
        if session.kind == "tire-removed":
            if not any(spell.what == session.tire for spell in spells):
                spells.append(Spell(session.tire, None, None, session.id))
            _close(spells, day, session.tire)
            continue
        _close(spells, day)
        known = session.kind == "tire-applied" or bool(spells)  # the first that is found was there before all else
        start, begun = (day.first, day.last) if known else (None, None)
        spells.append(Spell(session.tire, start, None, session.id, begun))
    return found
