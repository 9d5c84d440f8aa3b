"""What became of one entry of a limit set, and which way it went."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Way(StrEnum):
    """Which way a limit went."""

    LOOSENED = "loosened"
    TAKEN_AWAY = "taken away"
    CHANGED = "changed"
    TIGHTENED = "tightened"
    ADDED = "added"


@dataclass(frozen=True)
class LimitChange:
    """One limit, interval or other entry of a set that is not what it was."""

    id: str  # SET/ID
    set_title: str
    path: str
    way: Way
    title: str
    was: str
    now: str
    clause: str
    docket: str = ""  # an authority's waiver

    @property
    def loosens(self) -> bool:
        """Whether less is out, or later, than before."""
        return self.way in (Way.LOOSENED, Way.TAKEN_AWAY)
