"""Instruments as their records tell them: uncertainty, range, one turn, certificates. Lengths in metres."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from axlebook.quantities import NotAMeasure, Quantity, parse_measure

from .written import Written


@dataclass(frozen=True, slots=True)
class Instrument:
    """What a planter asks of an instrument."""

    id: str
    measures: frozenset[str]
    resolution: float
    uncertainty: float  # standard
    one_turn: float
    low: float
    high: float
    certificates: tuple[tuple[date, date], ...]
    needs_certificate: bool
    metric: bool

    def covers(self, day: date) -> bool:
        """Whether a certificate is in force, or none is needed."""
        return not self.needs_certificate or any(first <= day <= last for first, last in self.certificates)


def length(text: Any) -> float:
    """A length in metres; 0 where it is none.

    >>> round(length("1 in"), 6), length("unknown")
    (0.0254, 0.0)
    """
    try:
        found = parse_measure(str(text))
    except NotAMeasure:
        return 0.0
    return float(found.exact) if isinstance(found, Quantity) and found.dimension == "length" else 0.0


def read_instruments(records: Iterable[Written]) -> dict[str, Instrument]:
    """The instruments among the records that measure lengths and say how well."""
    found = {}
    for record in records:
        tree = record.tree
        if tree.get("kind") == "instrument" and tree.get("expanded_uncertainty") and tree.get("resolution"):
            found[record.id] = _instrument(record.id, tree)
    return found


def _instrument(id: str, tree: dict[str, Any]) -> Instrument:
    resolution = length(tree["resolution"])
    expanded = length(tree["expanded_uncertainty"]) / float(tree.get("coverage_factor", "2"))
    bounds = tree.get("range", {})
    return Instrument(
        id,
        frozenset(tree.get("measures", ())),
        resolution,
        math.hypot(expanded, resolution / math.sqrt(12)),
        length(tree.get("one_turn", "")),
        length(bounds.get("at_least", "")),
        length(bounds.get("at_most", "")) or math.inf,
        tuple(
            (date.fromisoformat(one["issued_on"]), date.fromisoformat(one["expires_on"]))
            for one in tree.get("certificates", ())
            if one.get("expires_on")
        ),
        "no_certificate" not in tree,
        "mm" in str(tree["resolution"]),
    )
