"""The readings of a ledger in order of their days: what an attentive person lays side by side."""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Any

from .figures import exact
from .written import Written

_SESSIONS = ("inspection", "tire-applied", "turning")
_KEPT_BY_WORK = frozenset({"journal_diameter", "crank_pin_diameter"})  # work on tires leaves them as they are
_DAYS = ("measured_on", "applied_on", "turned_on")


@dataclass(frozen=True, slots=True)
class Spot:
    """One figure of a reading: the value at a position."""

    position: str
    pointer: str
    text: str
    exact: Fraction


@dataclass(frozen=True, slots=True)
class Reading:
    """One reading with its figures. `part` is what stood at the place, or what the record names."""

    path: str
    number: int
    quantity: str
    part: str
    side: str
    engine: str
    place: str
    day: date
    instrument: str
    hold: str
    where: str
    when: str
    by: tuple[str, ...]
    segment: int
    spots: tuple[Spot, ...]

    @property
    def pointer(self) -> str:
        """Where the reading stands in its record."""
        return f"/readings/{self.number}"

    @property
    def words(self) -> str:
        """What it is of, in words."""
        return f"{self.engine} {self.place}" if self.place else f"{self.part} {self.side}".strip()

    @property
    def wheel(self) -> tuple[str, str, int]:
        """The wheel, between two works on it."""
        return self.part, self.side, self.segment

    def series(self, position: str) -> tuple[Any, ...]:
        """What a figure is compared along: the same thing, measured the same way."""
        held = self.hold if self.quantity == "back_to_back" else ""
        return (*self.wheel, self.quantity, self.where, held, self.when, position)


class Standing:
    """Which wheelset stood at a place on a day, and when work or a move ends a comparison."""

    def __init__(self, records: Iterable[Written]) -> None:
        self._lines: dict[tuple[str, str], list[tuple[date, date, str]]] = defaultdict(list)
        self._breaks: dict[str, set[date]] = defaultdict(set)
        works: list[tuple[date, str]] = []
        turned: list[tuple[date, str]] = []
        for record in records:
            tree = record.tree
            kind = tree.get("kind", "")
            if kind == "engine":
                self._read_lines(record)
            elif kind in ("tire-applied", "tire-removed"):
                worked_on = date.fromisoformat(str(tree.get("applied_on") or tree.get("removed_on")))
                works.append((worked_on, str(tree.get("center", ""))))
                self._breaks[str(tree.get("tire", ""))].add(worked_on)
            elif kind == "turning":
                turned.append((date.fromisoformat(tree["turned_on"]), str(tree.get("engine", ""))))
        for day, center in works:
            self._breaks[center.rpartition("-")[0]].add(day)
        for day, engine in turned:
            for (owner, _), lines in self._lines.items():
                for _, _, wheelset in lines if owner == engine else ():
                    self._breaks[wheelset].add(day)

    def _read_lines(self, record: Written) -> None:
        for line in record.tree.get("wheelsets", ()):
            first = date.fromisoformat(line["from"])
            last = date.fromisoformat(line["until"]) if line.get("until") else date.max
            self._lines[record.id, line["at"]].append((first, last, line["wheelset"]))
            self._breaks[line["wheelset"]] |= {first, last}

    def at(self, engine: str, place: str, day: date) -> str:
        """The wheelset at a place; empty where none is known."""
        return next((one for first, last, one in self._lines[engine, place] if first <= day < last), "")

    def segment(self, part: str, day: date) -> int:
        """The number of works and moves before a day."""
        return bisect_right(sorted(self._breaks[part]), day)


def read_readings(records: Iterable[Written], standing: Standing) -> Iterator[Reading]:
    """Every reading with a day, a single length at each position, and a thing it belongs to."""
    for record in records:
        if record.tree.get("kind") not in _SESSIONS:
            continue
        for number, tree in enumerate(record.tree.get("readings", ())):
            found = _reading(record, number, tree, standing)
            if found is not None:
                yield found


def _reading(record: Written, number: int, tree: dict[str, Any], standing: Standing) -> Reading | None:
    setup = record.tree.get("setup", {})
    text = tree.get("measured_on") or next((record.tree[key] for key in _DAYS if key in record.tree), "")
    spots = tuple(_spots(number, tree))
    if len(text) != 10 or len(spots) != len(tree["values"]):
        return None
    day = date.fromisoformat(text)
    engine = str(record.tree.get("engine", ""))
    place = str(tree.get("place", ""))
    axle, _, side = (place or str(tree.get("part", ""))).partition(" ")
    part = standing.at(engine, axle, day) if place else axle
    by = tree.get("by") or record.tree.get("by") or ()
    return Reading(
        record.path,
        number,
        tree["quantity"],
        part,
        side,
        engine,
        place,
        day,
        str(tree.get("with", "")),
        tree.get("hold") or setup.get("hold", ""),
        tree.get("where", ""),
        tree.get("when", ""),
        (by,) if isinstance(by, str) else tuple(by),
        0 if tree["quantity"] in _KEPT_BY_WORK else standing.segment(part, day),
        spots,
    )


def _spots(number: int, tree: dict[str, Any]) -> Iterator[Spot]:
    for position, text in tree["values"].items():
        length = exact(text) if isinstance(text, str) else None
        if length is not None:
            yield Spot(position, f"/readings/{number}/values/{position}", text, length)
