"""An engine's month of service days, or an old yearly total."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from typing import NamedTuple

from axlebook.findings import Place

from . import fields
from .dates import Day, parse_day


class ServiceLine(NamedTuple):
    """A service day, or a run of days, with its miles where known."""

    first: date
    last: date
    miles: Fraction | None  # metres, over the whole run
    place: Place

    @property
    def days(self) -> int:
        """How many service days the line counts."""
        return max((self.last - self.first).days + 1, 0)


class Service(NamedTuple):
    """Service of one engine; `total` counts a year whose days are not known."""

    id: str
    path: str
    engine: str
    period: Day  # the month or year it is for
    lines: tuple[ServiceLine, ...]
    total: int | None
    total_miles: Fraction | None
    tree: fields.Tree


def build_service(id: str, path: str, tree: fields.Tree) -> Service:
    """A month or year of service from its tree."""
    lines = []
    for index, line in enumerate(fields.items(tree, "days")):
        if line and (first := fields.day(line, "day").exact):
            last = fields.day(line, "until").exact or first
            lines.append(ServiceLine(first, last, fields.exact(line, "miles"), Place(path, f"/days/{index}")))
    total = fields.inner(tree, "total")
    period = parse_day(fields.text(tree, "month") or fields.text(tree, "year"))
    return Service(
        id,
        path,
        fields.text(tree, "engine"),
        period,
        tuple(lines),
        fields.whole(total, "service_days"),
        fields.exact(total, "miles"),
        tree,
    )
