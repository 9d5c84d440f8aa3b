"""What guided entry asks at one place: a quantity at some positions, or something to look for."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple


class Slot(NamedTuple):
    """One box to fill: what, at which place or part, at which position ('' for what is looked for)."""

    what: str
    where: str
    position: str = ""


class Size(NamedTuple):
    """What is asked of a thing that was seen: the key of the observation, its title, its dimension."""

    key: str
    title: str
    dimension: str


class Earlier(NamedTuple):
    """What was read last at a position."""

    position: str
    text: str
    day: str
    note: str = ""  # of that reading: in doubt, held otherwise, before some work


class Expected(NamedTuple):
    """Between what a reading at a position will not be asked about."""

    position: str
    text: str
    instrument: str = ""  # with what; another leaves more open, and none that is named is taken for it


@dataclass(frozen=True)
class Question:
    """One thing that a plan asks at one place."""

    what: str
    title: str
    dimension: str  # '' where it is something to look for
    where: str  # the place or the part
    by_part: bool = False
    positions: tuple[str, ...] = ("",)
    how: str = ""
    least_count: str = ""
    hold: str = ""
    needs_temperature: bool = False
    wanted: bool = False
    earlier: tuple[Earlier, ...] = ()
    expected: tuple[Expected, ...] = ()
    limit: str = ""
    sizes: tuple[Size, ...] = ()
    across: Fraction | None = None  # the wheel, in m: a size seen on it that is more is asked about

    @property
    def is_read(self) -> bool:
        """Whether a figure is asked for, and not a look."""
        return bool(self.dimension)

    @property
    def slots(self) -> tuple[Slot, ...]:
        """The boxes to fill."""
        return tuple(Slot(self.what, self.where, position) for position in self.positions)

    def earlier_at(self, position: str) -> Earlier | None:
        """What was read last at a position; the latest of all where there it never was."""
        here = [one for one in self.earlier if one.position == position]
        return max(here or self.earlier, key=lambda one: one.day, default=None)

    def expected_at(self, position: str, instrument: str | None = None) -> str:
        """What to expect at a position; where `instrument` is another one, with what. '' where nothing says."""
        found = next((one for one in self.expected if one.position == position), None)
        if found is None:
            return ""
        other = instrument is not None and found.instrument not in ("", instrument)
        return f"{found.text} with {found.instrument}" if other else found.text
