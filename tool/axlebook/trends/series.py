"""A series of dated readings of one thing at one position, and the segments within which they may be compared.

Two readings tell of wear only when nothing was cut or renewed between them and they were taken the same way: the same
instrument, plane and support. So a segment is an epoch (between two works) and a way; segments may interleave, where
two gauges were used in turn.
"""

from __future__ import annotations

from collections.abc import Hashable
from datetime import date
from fractions import Fraction
from typing import Any, NamedTuple


class Dated(NamedTuple):
    """One value on one day, with the way it was taken."""

    day: date
    value: Fraction  # SI, exact
    variance: Fraction | None  # SI squared; None where nothing is known
    way: tuple[str, ...]  # instrument, plane, support, clock position
    epoch: int  # how many works had changed the part by then
    origin: Any  # the reading it comes from
    text: str


class Segment(NamedTuple):
    """Values that may be compared, in order of date."""

    epoch: int
    way: tuple[str, ...]
    points: tuple[Dated, ...]


class Series(NamedTuple):
    """All values of one thing, quantity and position, in order of date, and their segments."""

    thing: Hashable
    quantity: str
    position: str
    points: tuple[Dated, ...]

    @property
    def segments(self) -> tuple[Segment, ...]:
        """The segments, in order of their first value."""
        found: dict[tuple[int, tuple[str, ...]], list[Dated]] = {}
        for point in self.points:
            found.setdefault((point.epoch, point.way), []).append(point)
        return tuple(Segment(epoch, way, tuple(points)) for (epoch, way), points in found.items())

    def before(self, point: Dated) -> list[Dated]:
        """The earlier values of the same epoch, whatever the way they were taken."""
        return [other for other in self.points if other.day < point.day and other.epoch == point.epoch]
