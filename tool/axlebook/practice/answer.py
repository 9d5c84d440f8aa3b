"""What was planted: one answer a slip, and the whole of a run."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Answer:
    """One planted slip.

    `size` is how far the figure stands from the nearest one that it is compared with, `seen_from` is two
    combined standard uncertainties of those two [m]. Both are 0 where the slip is no matter of size (a name
    left out, a date that cannot be).
    """

    kind: str
    path: str
    pointers: tuple[str, ...]
    before: str
    after: str
    subject: str  # in words: `e-12 driver-2 right`, `t-2601`
    why: str  # why it can be seen, or why not
    also: tuple[str, ...] = ()  # other records that the slip touches or repeats
    size: float = 0.0
    seen_from: float = 0.0

    def plain(self) -> dict[str, Any]:
        """The answer as plain values, for the hidden file."""
        return asdict(self)


@dataclass(frozen=True, slots=True)
class Planted:
    """The texts with slips in them, what can be seen, and what is too small to be seen."""

    texts: dict[str, str]
    answers: tuple[Answer, ...]
    unseen: tuple[Answer, ...]
    seed: int
