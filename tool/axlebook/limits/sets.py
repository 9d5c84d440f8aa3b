"""Sets of limits from one source each, adopted from a day until a day."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from types import MappingProxyType
from typing import Any, NamedTuple

from axlebook.findings import Place

from .entries import AfterEvent, Interval, Paperwork, Practice, Watch
from .limit import Limit


class LimitSet(NamedTuple):
    """Limits, intervals and practices from one source."""

    id: str
    title: str
    edition: str
    seen_on: str
    decision: str
    place: Place
    historic: bool = False
    tightens: tuple[str, ...] = ()
    limits: tuple[Limit, ...] = ()
    intervals: tuple[Interval, ...] = ()
    practices: tuple[Practice, ...] = ()
    after: tuple[AfterEvent, ...] = ()
    watch: tuple[Watch, ...] = ()
    paperwork: tuple[Paperwork, ...] = ()
    tree: Mapping[str, Any] = MappingProxyType({})  # as it is written


class Adoption(NamedTuple):
    """A limit set put in force from a day until a day."""

    set_id: str
    start: date | None
    until: date | None

    def in_force(self, on: date) -> bool:
        """Whether it is in force on the day."""
        return (self.start is None or self.start <= on) and (self.until is None or on <= self.until)


def sets_in_force(adoptions: Iterable[Adoption], sets: Mapping[str, LimitSet], on: date) -> tuple[LimitSet, ...]:
    """The sets adopted and on file, in the order they were adopted; a historic set judges nothing."""
    chosen = (sets.get(adoption.set_id) for adoption in adoptions if adoption.in_force(on))
    return tuple(found for found in chosen if found is not None and not found.historic)
