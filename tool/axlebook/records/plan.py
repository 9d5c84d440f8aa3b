"""What is asked for on an occasion: each quantity or thing to look for, on which wheels, at how many positions."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from axlebook.limits import FacetTest

from . import fields
from .forms import position_named
from .limit_set import build_tests
from .plain import Plain


@dataclass(frozen=True)
class Ask:
    """One thing that a plan asks for, or would like to have."""

    what: str  # a quantity, or something to look for
    roles: tuple[str, ...]
    applies_to: tuple[FacetTest, ...]
    positions: tuple[str, ...]
    wanted: bool  # worth having, and not missed
    index: int


class Plan(NamedTuple):
    """A plan as its record tells it."""

    id: str
    path: str
    purposes: tuple[str, ...]
    minimum_positions: int | None
    asks: tuple[Ask, ...]

    def positions_needed(self, ask: Ask) -> int:
        """How many positions a full reading has at least."""
        asked = max(len(ask.positions), 1)
        return asked if self.minimum_positions is None else max(min(asked, self.minimum_positions), 1)


def build_plan(record: Plain) -> Plan:
    """A plan from its record."""
    asks = tuple(
        Ask(
            fields.text(ask, "quantity") or fields.text(ask, "looked_for"),
            fields.texts(ask, "roles"),
            build_tests(fields.inner(ask, "applies_to")),
            tuple(dict.fromkeys(map(position_named, fields.texts(ask, "positions")))),
            fields.text(ask, "stage") == "wanted",
            index,
        )
        for index, ask in enumerate(fields.items(record.tree, "asks"))
        if ask
    )
    return Plan(
        record.id,
        record.path,
        fields.texts(record.tree, "purposes"),
        fields.whole(record.tree, "minimum_positions"),
        asks,
    )
