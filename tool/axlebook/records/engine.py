"""One locomotive: its numbers, weights, and dated lines of which wheelset stands where."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction
from typing import NamedTuple

from axlebook.findings import Place
from axlebook.limits import Adoption

from . import fields
from .dates import Day
from .ledger import build_adoptions

FRONT_TO_REAR = ("engine-truck", "driver", "trailing-truck", "tender")


class Line(NamedTuple):
    """One dated line: a wheelset stood at a place from a day until a day."""

    engine: str
    at: str  # driver-2
    role: str  # driver
    wheelset: str
    start: Day
    until: Day | None
    a_end: str  # left, right or '' where not said
    intermediate: bool | None
    position: str
    place: Place


class Engine(NamedTuple):
    """An engine as its record tells it."""

    id: str
    path: str
    number: str
    weight_on_drivers: Fraction | None
    track_gauge: Fraction | None
    display_units: str
    adoptions: tuple[Adoption, ...]  # empty: the ledger's
    facets: fields.Tree
    lines: tuple[Line, ...]
    tree: fields.Tree


def role_of(place: str) -> str:
    """The role in a place: `engine-truck` of `engine-truck-1`; '' where it names no wheelset."""
    stem, _, number = place.split(" ")[0].rpartition("-")
    return stem if number.isdigit() else ""


def from_front(at: str) -> tuple[int, int, str]:
    """What sorts the places of wheelsets from the front to the rear; a record may name them in any order.

    >>> sorted(["tender-1", "driver-10", "driver-2", "engine-truck-1"], key=from_front)
    ['engine-truck-1', 'driver-2', 'driver-10', 'tender-1']
    """
    role, _, number = at.rpartition("-")
    order = FRONT_TO_REAR.index(role) if role in FRONT_TO_REAR else len(FRONT_TO_REAR)
    return order, int(number) if number.isdecimal() else 0, at


def build_engine(id: str, path: str, tree: fields.Tree) -> Engine:
    """An engine from its tree."""
    overrides = fields.inner(tree, "overrides")
    lines = tuple(
        Line(
            id,
            line["at"],
            role_of(line["at"]),
            line["wheelset"],
            fields.day(line, "from"),
            fields.day(line, "until") if "until" in line else None,
            fields.text(line, "a_end"),
            fields.yes(line, "intermediate"),
            fields.text(line, "position"),
            Place(path, f"/wheelsets/{index}"),
        )
        for index, line in enumerate(fields.items(tree, "wheelsets"))
        if line
    )
    return Engine(
        id,
        path,
        fields.text(tree, "number"),
        fields.exact(fields.inner(tree, "weight_on_drivers"), "value"),
        fields.exact(overrides, "track_gauge"),
        fields.text(overrides, "display_units"),
        build_adoptions(fields.items(overrides, "limit_sets")),
        fields.inner(tree, "facets"),
        lines,
        tree,
    )


def held_together(first: Line, second: Line) -> bool:
    """Whether both certainly held on one day, the day of a change left out."""
    begins = [_begun(line) for line in (first, second)]
    ends = [_ended(line) for line in (first, second)]
    return all(begin is not None and end is not None and begin < end for begin in begins for end in ends)


def _begun(line: Line) -> date | None:
    """The latest day on which it can have begun; of an unknown one, the eve of its end, or the last of all days."""
    if line.start.last is not None:
        return line.start.last
    if line.until is None:
        return date.max - timedelta(days=1)
    day = line.until.exact
    return day - timedelta(days=1) if day is not None and day > date.min else None


def _ended(line: Line) -> date | None:
    return line.until.first if line.until is not None else date.max
