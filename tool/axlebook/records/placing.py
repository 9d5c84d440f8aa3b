"""Which wheelset, center or tire something was read of that names a place: told by the records, never guessed.

On the day one made way for the other both stood there, and the order of lines in a file says nothing. So every one
that can have been meant is found; what the record itself is of, and whether it was read before or after, decides.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from typing import NamedTuple

from .dates import Day
from .engine import Line
from .standing import Spell, Standing
from .wheelset import Wheelset

BEFORE = frozenset({"before", "cold before", "at receiving"})
AFTER = frozenset({"after", "cold after", "warm after"})


class Thing(NamedTuple):
    """What a reading is of, by identity: a tire, one end of a wheelset, a center, a wheelset, a place on an engine."""

    kind: str  # tire, end, center, wheelset, engine
    id: str
    side: str = ""

    @property
    def name(self) -> str:
        """Id and side as one text."""
        return f"{self.id} {self.side}".strip()


class Asked(NamedTuple):
    """What a reading says of itself: what it belongs to, its day, and which of two it can have been."""

    of: str
    first: date  # the first day it can have been
    last: date
    when: str  # before or after the work, as `when` has it
    parts: frozenset[str]  # what the work of its record was done to


class _Time(NamedTuple):
    """When one of several that can have been meant was there: the bounds of its first day, and of its last."""

    thing: Line | str
    id: str
    start: date  # the earliest it began
    begun: date  # the latest
    until: date  # the earliest it ended
    over: date  # the latest


def end_of(a_end: str, wheelset: Wheelset, side: str) -> str:
    """The end of a wheelset that a side of the engine is; '' where the dated line does not say."""
    if wheelset.driver or side in ("A", "B", ""):
        return side
    if a_end not in ("left", "right"):
        return ""
    return "A" if side == a_end else "B"


def side_of(a_end: str, wheelset: Wheelset, end: str) -> str:
    """The side of the engine that an end of a wheelset is on; the end's own name where not told."""
    if wheelset.driver or a_end not in ("left", "right"):
        return end
    other = "right" if a_end == "left" else "left"
    return a_end if end == "A" else other


def things_at(
    standing: Standing, wheelsets: Mapping[str, Wheelset], engine: str, place: str, asked: Asked
) -> list[Thing]:
    """Everything that a reading at a place of an engine can have been of; one alone where the records tell."""
    at, _, side = place.partition(" ")
    found: list[Thing] = []
    for line in lines_meant(standing, engine, at, asked):
        wheelset = wheelsets.get(line.wheelset)
        if wheelset is not None:
            found += things_on(standing, wheelset, end_of(line.a_end, wheelset, side), asked)
    return found if len(found) < 2 else _named(list(dict.fromkeys(found)), asked)


def things_on(standing: Standing, wheelset: Wheelset, end: str, asked: Asked) -> list[Thing]:
    """Everything that a reading on an end of a wheelset can have been of."""
    if asked.of == "wheelset":
        return [Thing("wheelset", wheelset.id)]
    if asked.of == "end":
        return [Thing("end", wheelset.id, end)]
    if not end:
        return []
    centers = _on(standing.centers.get((wheelset.id, end), ()), asked)
    if asked.of == "center":
        return [Thing("center", center) for center in centers] or [Thing("end", wheelset.id, end)]
    tires = [tire for center in centers for tire in _on(standing.tires.get(center, ()), asked)]
    bare = [Thing("end", wheelset.id, end)] if asked.of == "wheel" else []
    return _named([Thing("tire", tire) for tire in dict.fromkeys(tires)], asked) or bare


def lines_meant(standing: Standing, engine: str, at: str, asked: Asked) -> list[Line]:
    """The dated lines of a place that a reading can belong to; one alone where the records tell."""
    can = [
        line
        for line in standing.lines.get((engine, at), ())
        if (line.start.first or date.min) <= asked.last
        and (line.until is None or asked.first <= (line.until.last or date.max))
    ]
    if len(can) < 2:
        return can
    known = [_Time(line, line.wheelset, *_bounds(line.start, line.until)) for line in can]
    return [time.thing for time in _meant(known, asked) if isinstance(time.thing, Line)]


def _bounds(start: Day, until: Day | None) -> tuple[date, date, date, date]:
    return (
        start.first or date.min,
        start.last or date.max,  # unknown: it is sure of no day
        (until.first or date.min) if until else date.max,
        (until.last or date.max) if until else date.max,
    )


def _on(spells: Iterable[Spell], asked: Asked) -> list[str]:
    can = [
        s for s in spells
        if (s.start or date.min) <= asked.last and asked.first <= (s.over or s.until or date.max)
    ]  # fmt: skip
    if len(can) < 2:
        return [s.what for s in can]
    known = [
        _Time(s.what, s.what, s.start or date.min, s.begun or s.start or date.min, s.until or date.max,
              s.over or s.until or date.max)
        for s in can
    ]  # fmt: skip
    return list(dict.fromkeys(time.id for time in _meant(known, asked)))


def _meant(can: list[_Time], asked: Asked) -> list[_Time]:
    """Of several that can have been there on the day those that were meant, as far as something decides."""
    can = [time for time in can if time.id in asked.parts] or can
    sure = [time for time in can if time.begun < asked.first and asked.last < time.until]
    if len(sure) == 1:
        return sure
    can.sort(key=lambda time: (time.start, time.over))
    first, *_, last = can
    if len(can) != 2 or first.over > last.begun:  # no change of one for the other: both are there at once
        return can
    return [first] if asked.when in BEFORE else [last] if asked.when in AFTER else can


def _named(things: list[Thing], asked: Asked) -> list[Thing]:
    """Those that the work of its record was done to, where there are any among several."""
    return [thing for thing in things if thing.id in asked.parts] or things if len(things) > 1 else things
