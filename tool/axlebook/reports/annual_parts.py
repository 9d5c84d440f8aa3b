"""What the annual summary is made of, before any renderer: groups of sentences, tables, drawings."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from .item import Item

if TYPE_CHECKING:  # what was not read is listed by the same items, and draws no plan
    from axlebook.findings import Verdict

    from .photos import Photo
    from .plan_view import PlanAxle
    from .view import Day

Cells = tuple[str, ...]


@dataclass(frozen=True)
class Group:
    """Some things under one heading of the first page; `more` of them stand further in, at `where`."""

    heading: str
    items: tuple[Item, ...]
    more: int = 0
    where: str = ""  # id of the part that has them all

    @property
    def rest(self) -> str:
        """How many are not said here, and where they stand."""
        return f"and {self.more} more, further on" if self.more else ""


@dataclass(frozen=True)
class Listed:
    """A table to read; each row with the verdict it is drawn by, None for none."""

    caption: str
    head: Cells
    rows: tuple[tuple[Cells, Verdict | None], ...]


@dataclass(frozen=True)
class Plot:
    """A drawing as SVG, and the same in words."""

    svg: str
    words: str


@dataclass(frozen=True)
class Part:
    """One part of the summary, with what is said before its tables; `nothing` where it has none."""

    id: str
    heading: str
    told: tuple[Item, ...] = ()
    tables: tuple[Listed, ...] = ()
    plots: tuple[Plot, ...] = ()
    photos: tuple[Photo, ...] = ()
    nothing: str = ""
    own_page: bool = False

    @property
    def empty(self) -> bool:
        """Whether there is nothing to show."""
        return not (self.told or self.tables or self.plots or self.photos)


@dataclass(frozen=True)
class Annual:
    """The whole summary of one engine and year."""

    engine: str
    number: str
    railway: str
    year: int
    title: str
    day: Day
    state: str  # which day it is the state of, and why
    revision: str
    lead: tuple[str, ...]
    first: tuple[Group, ...]
    plan: tuple[PlanAxle, ...]
    parts: tuple[Part, ...]
    statement: tuple[str, ...]
    foot: str
    rows: list[dict[str, Any]] = field(default_factory=list)  # for JSON: every judged quantity with its figures


def listed(caption: str, head: Cells, rows: Iterable[Cells]) -> Listed:
    """A table of which no row is marked."""
    return Listed(caption, head, tuple((row, None) for row in rows))


def group(heading: str, items: Iterable[Item], most: int, nothing: str, where: str) -> Group:
    """A group of the first page, cut to so many; what there is nothing of is said."""
    found = tuple(items)
    kept = found if len(found) <= most else found[: most - 1]  # the last line says how many more
    return Group(heading, kept or (Item(nothing),), len(found) - len(kept), where)


def people(ids: Iterable[str]) -> str:
    """Who, or that nobody is named."""
    return ", ".join(ids) or "nobody named"
