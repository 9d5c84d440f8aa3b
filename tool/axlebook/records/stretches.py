"""What a reading at a place can have been of, looked up once for each stretch of days without a change there."""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterator, Mapping
from datetime import date
from typing import NamedTuple

from .placing import Asked, Thing, things_at
from .standing import Spell, Standing
from .wheelset import Wheelset


class Key(NamedTuple):
    """All that tells one look-up from another between two days of change."""

    engine: str
    place: str
    stretch: int
    of: str
    when: str
    parts: frozenset[str]


class Stretches:
    """The look-ups of one book; each answers as `things_at` does."""

    def __init__(self, standing: Standing, wheelsets: Mapping[str, Wheelset]) -> None:
        """Nothing is looked up yet."""
        self._standing, self._wheelsets = standing, wheelsets
        self._centers: dict[str, list[Spell]] = defaultdict(list)
        for (wheelset, _), spells in standing.centers.items():
            self._centers[wheelset] += spells
        self._changes: dict[tuple[str, str], list[date]] = {}
        self._known: dict[Key, list[Thing]] = {}

    def things_at(self, engine: str, place: str, asked: Asked) -> list[Thing]:
        """Everything that a reading at a place of an engine can have been of."""
        changes, day = self._changed(engine, place.partition(" ")[0]), asked.first
        stretch = bisect_left(changes, day)
        if day != asked.last or changes[stretch : stretch + 1] == [day]:  # not surely within one stretch
            return things_at(self._standing, self._wheelsets, engine, place, asked)
        key = Key(engine, place, stretch, asked.of, asked.when, asked.parts)
        found = self._known.get(key)
        if found is None:
            found = self._known[key] = things_at(self._standing, self._wheelsets, engine, place, asked)
        return found

    def _changed(self, engine: str, at: str) -> list[date]:
        """Every day on which what stands at a place of an engine may change, in order."""
        found = self._changes.get((engine, at))
        if found is None:
            found = self._changes[engine, at] = sorted({day for day in self._days(engine, at) if day})
        return found

    def _days(self, engine: str, at: str) -> Iterator[date | None]:
        for line in self._standing.lines.get((engine, at), ()):
            yield from (line.start.first, line.start.last)
            yield from (line.until.first, line.until.last) if line.until else ()
            for center in self._centers.get(line.wheelset, ()):
                yield from _ends(center)
                for tire in self._standing.tires.get(center.what, ()):
                    yield from _ends(tire)


def _ends(spell: Spell) -> tuple[date | None, ...]:
    return spell.start, spell.begun, spell.until, spell.over
