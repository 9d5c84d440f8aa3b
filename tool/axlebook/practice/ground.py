"""The ground a slip is planted on: the ledger as read, what lies beside what, and what is already taken."""

from __future__ import annotations

import itertools
import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from random import Random
from typing import TypeVar

from axlebook.findings import id_of

from .answer import Answer
from .instruments import Instrument, read_instruments
from .readings import Reading, Spot, Standing, read_readings
from .written import Edit, Written

SEEN_FROM = 2.0  # combined standard uncertainties
Target = tuple[str, str]
_Item = TypeVar("_Item")


@dataclass(frozen=True, slots=True)
class Slip:
    """A slip that could be planted: its answer, its edits, what it takes and what it leans on."""

    answer: Answer
    edits: tuple[Edit, ...]
    takes: tuple[Target, ...]
    leans: tuple[Target, ...] = ()
    wheels: tuple[tuple[str, str, int, str], ...] = ()
    new_texts: Mapping[str, str] | None = None


@dataclass(frozen=True, slots=True)
class Neighbor:
    """A figure that another is compared with, and from how far apart the two are told from each other."""

    reading: Reading
    spot: Spot
    seen_from: float


class Ground:
    """A ledger as a planter sees it."""

    def __init__(self, records: Mapping[str, Written], rng: Random) -> None:
        self.records = records
        self.rng = rng
        self.instruments: dict[str, Instrument] = read_instruments(records.values())
        self.standing = Standing(records.values())
        self.corrected = {
            str(one.tree.get("record")) for one in records.values() if one.tree.get("kind") == "correction"
        }
        self.readings = [one for one in read_readings(records.values(), self.standing) if self._usable(one)]
        self._series: dict[tuple[object, ...], list[tuple[Reading, Spot]]] = defaultdict(list)
        for reading in sorted(self.readings, key=lambda one: (one.day, one.path, one.number)):
            for spot in reading.spots:
                self._series[reading.series(spot.position)].append((reading, spot))
        self._taken: dict[str, set[str]] = defaultdict(set)
        self._leaned: dict[str, set[str]] = defaultdict(set)
        self._wheels: set[tuple[str, str, int, str]] = set()
        self._owned: set[str] = set()

    def _usable(self, reading: Reading) -> bool:
        kept = id_of(reading.path) not in self.corrected
        return reading.instrument in self.instruments and bool(reading.part) and kept

    def shuffled(self, items: Iterable[_Item]) -> list[_Item]:
        """The items in a chance order."""
        found = list(items)
        self.rng.shuffle(found)
        return found

    def drawn(self, *quantities: str) -> list[Reading]:
        """The readings of some quantities (all where none is named), in a chance order."""
        return self.shuffled(one for one in self.readings if not quantities or one.quantity in quantities)

    def seen_from(self, first: Reading, second: Reading) -> float:
        """Twice the combined standard uncertainty of two readings."""
        one, other = (self.instruments[each.instrument].uncertainty for each in (first, second))
        return SEEN_FROM * math.hypot(one, other)

    def neighbors(
        self, reading: Reading, spot: Spot, reach: int = 1
    ) -> tuple[list[Neighbor], list[Neighbor]]:
        """The figures before (nearest first) and after, on other days, measured the same way."""
        line = self._series[reading.series(spot.position)]
        earlier = [one for one in reversed(line) if one[0].day < reading.day][:reach]
        later = [one for one in line if one[0].day > reading.day][:reach]
        mates = [[Neighbor(r, s, self.seen_from(reading, r)) for r, s in side] for side in (earlier, later)]
        return mates[0], mates[1]

    def beside(self, reading: Reading, spot: Spot, reach: int = 1) -> list[Neighbor]:
        """The figures before and after, in one list."""
        earlier, later = self.neighbors(reading, spot, reach)
        return earlier + later

    def is_quiet(self, reading: Reading, wear: int = 0) -> bool:
        """Whether every figure has one before it and agrees with those near: no oddity hides the slip.

        `wear` is the way in which service moves the figure (-1 lowers, +1 raises); any step that way agrees.
        """
        for spot in reading.spots:
            earlier, later = self.neighbors(reading, spot, 2)
            line = [*reversed(earlier), Neighbor(reading, spot, math.inf), *later]
            if not earlier or any(not _agree(one, other, wear) for one, other in itertools.pairwise(line)):
                return False
        return True

    def free(self, slip: Slip) -> bool:
        """Whether nothing of the slip is taken, leaned on, or hidden by another one."""
        if {path for path, _ in slip.takes} & self._owned or set(slip.wheels) & self._wheels:
            return False
        if any(_meet(pointer, self._leaned[path]) for path, pointer in slip.takes):
            return False
        return not any(_meet(pointer, self._taken[path]) for path, pointer in slip.leans)

    def take(self, slip: Slip) -> None:
        """Note what a planted slip takes and leans on."""
        self._owned |= {path for path, _ in slip.takes}
        self._wheels |= set(slip.wheels)
        for path, pointer in slip.takes:
            self._taken[path].add(pointer)
        for path, pointer in slip.leans:
            self._leaned[path].add(pointer)

    def people(self, day: date) -> list[str]:
        """The people on the books on a day, who measure."""
        return sorted(
            record.id
            for record in self.records.values()
            if record.tree.get("kind") == "person"
            and "volunteer" in str(record.tree.get("role", ""))
            and str(record.tree.get("from", "9999")) < day.isoformat()[:7]
        )

    def of_kind(self, *kinds: str) -> list[Written]:
        """The records of some kinds, in a chance order."""
        return self.shuffled(one for one in self.records.values() if one.tree.get("kind") in kinds)


def _agree(first: Neighbor, second: Neighbor, wear: int) -> bool:
    step = float(second.spot.exact - first.spot.exact)
    return step * wear > 0 or abs(step) < min(first.seen_from, second.seen_from)


def _meet(pointer: str, others: set[str]) -> bool:
    return any(
        f"{pointer}/".startswith(f"{other}/") or f"{other}/".startswith(f"{pointer}/") for other in others
    )


def leaning(neighbors: Iterable[Neighbor]) -> tuple[Target, ...]:
    """What a comparison with neighbors leans on: their readings, and what holds for their session."""
    found: set[Target] = set()
    for one in neighbors:
        found |= {(one.reading.path, one.reading.pointer), (one.reading.path, "/setup/hold")}
        found.add((one.reading.path, "/measured_on"))
    return tuple(sorted(found))


def wheels(readings: Iterable[Reading], group: str = "") -> tuple[tuple[str, str, int, str], ...]:
    """What two slips may not share: a wheel's group of quantities between two works."""
    return tuple(sorted({(*one.wheel, group or GROUPS.get(one.quantity, one.quantity)) for one in readings}))


GROUPS = {
    "tire_thickness": "tread",
    "rim_thickness": "tread",
    "tread_diameter": "tread",
    "flange_height": "height",
    "tread_hollow": "height",
}


def figures_changed(
    ground: Ground,
    kind: str,
    changes: Sequence[tuple[Reading, Spot, str]],
    why: str,
    compared: Sequence[Neighbor],
    *,
    size: float,
    seen_from: float,
    extra: Sequence[Edit] = (),
    subject: str = "",
) -> Slip:
    """A slip that alters figures."""
    edits = [ground.records[one.path].instead(spot.pointer, new) for one, spot, new in changes]
    first = changes[0][0]
    answer = Answer(
        kind,
        first.path,
        tuple(spot.pointer for one, spot, _ in changes if one.path == first.path),
        "; ".join(spot.text for _, spot, _ in changes),
        "; ".join(new for _, _, new in changes),
        subject or first.words,
        why,
        tuple(sorted({one.path for one, _, _ in changes} - {first.path})),
        size,
        seen_from,
    )
    return Slip(
        answer,
        (*edits, *extra),
        tuple((one.path, one.pointer) for one, _, _ in changes),
        leaning(compared),
        wheels(one for one, _, _ in changes),
    )


Slips = Iterator[Slip]
