"""What a change of the book means for the metal: two states of it in, what differs out, nothing of files or git."""

from __future__ import annotations

from dataclasses import dataclass, field

from .adoptions import AdoptionChange, adoption_changes
from .found import FindingsChanged, findings_changed
from .limit_change import LimitChange
from .limits import limit_changes
from .parts import PartChange, part_changes
from .readings import ReadingAdded, readings_added
from .records import RecordChange, record_changes
from .sides import Side


@dataclass(frozen=True)
class Comparison:
    """All that differs, each kind with what weighs most first."""

    records: tuple[RecordChange, ...] = ()
    readings: tuple[ReadingAdded, ...] = ()
    parts: tuple[PartChange, ...] = ()
    limits: tuple[LimitChange, ...] = ()
    adoptions: tuple[AdoptionChange, ...] = ()
    findings: FindingsChanged = field(default_factory=FindingsChanged)


def compare(before: Side, after: Side) -> Comparison:
    """Compare two states of a book that are read at the same day."""
    changes = record_changes(before, after)
    return Comparison(
        tuple(changes),
        tuple(readings_added(after, changes)),
        tuple(part_changes(before, after)),
        tuple(limit_changes(before, after)),
        tuple(adoption_changes(before, after)),
        findings_changed(before.findings, after.findings),
    )


__all__ = ["Comparison", "Side", "compare"]
