"""What a paper sheet holds before any renderer: pages of boxes to fill, with all that is known beforehand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from .view import Day


@dataclass(frozen=True)
class Known:
    """What is told beside one box: the last reading and what to expect."""

    last: str = ""  # '' where it was never read there
    note: str = ""  # of the last reading: in doubt, held otherwise, before some work
    expected: str = ""


@dataclass(frozen=True)
class Figure:
    """A limit in words, and the number of its clause at the foot of the page."""

    words: str
    ref: int


@dataclass(frozen=True)
class Spot:
    """One position of a quantity: a box on each side, or one for the pair; None where nothing is asked there."""

    position: str
    boxes: tuple[Known | None, ...]


@dataclass(frozen=True)
class Group:
    """One quantity and all positions it is asked at."""

    what: str
    title: str
    unit: str
    gauge: str  # used last, to what least count, held how
    limits: tuple[Figure, ...]
    gap: str  # what is said where there is no limit
    spots: tuple[Spot, ...]
    wanted: bool
    how: str

    @property
    def lines(self) -> int:
        """How many lines of text stand beside its boxes, at most."""
        letters = sum(len(one.words) + 5 for one in self.limits) + len(self.gap)
        title = len(self.title + self.unit) + 14 * self.wanted
        return -(-title // 36) + -(-letters // 50) + -(-len(self.gauge) // 50)


@dataclass(frozen=True)
class Look:
    """One thing to look for, on the sides it is asked for."""

    what: str
    title: str
    sides: tuple[bool, ...]
    limits: tuple[Figure, ...]
    wanted: bool
    how: str


@dataclass(frozen=True)
class Source:
    """What limits are cited from at the foot of a page, with the clauses by their numbers."""

    name: str
    clauses: tuple[tuple[int, str], ...]

    @property
    def letters(self) -> int:
        """How long it is in print."""
        return len(self.name) + sum(len(clause) + 5 for _, clause in self.clauses)


@dataclass(frozen=True)
class Page:
    """One wheelset, or the places of an engine that are no wheelset."""

    name: str  # DRIVER 2
    wheelset: str
    about: tuple[str, ...]  # tires, centers, datum, in words
    sides: tuple[str, ...]  # LEFT, RIGHT; A, B; none for the places of the engine
    row: tuple[str, ...]  # the wheelsets of the engine, front to rear, for the small plan
    angles: tuple[int, ...]
    wheels: tuple[Group, ...]
    pair: tuple[Group, ...]
    looks: tuple[Look, ...]
    sources: tuple[Source, ...]
    part: int = 1
    parts: int = 1

    @property
    def groups(self) -> tuple[Group, ...]:
        """All that is read on it."""
        return (*self.wheels, *self.pair)


@dataclass(frozen=True)
class Paper:
    """A sheet of one engine, wheelset or part for one occasion."""

    engine: str
    number: str
    about: str
    purpose: str
    title: str
    day: Day
    id: str
    revision: str
    pages: tuple[Page, ...]
    holds: Sequence[str]
    reasons: Sequence[str]
    cautions: tuple[str, ...]
    foot: str
    rows: list[dict[str, Any]]  # for JSON: every box
