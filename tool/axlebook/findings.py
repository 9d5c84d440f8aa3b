"""What a check has to say: a verdict on one thing, with its place, figures, source and next step.

A place is a record and a JSON Pointer into it. Lines and columns are looked up on the way out, by what the shell
lends a finding for it, and only for findings that are shown: they are no part of a judgement, and no part of a
fingerprint.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from enum import StrEnum
from functools import lru_cache
from typing import NamedTuple


class Verdict(StrEnum):
    """What was decided. WITHIN is counted and kept, never shown as a finding."""

    OUTSIDE = "outside"
    UNREADABLE = "unreadable"
    SUSPECT = "suspect"
    UNDECIDED = "undecided"
    NOT_ASSESSED = "not assessed"
    WITHIN = "within"


class Severity(StrEnum):
    """What a finding is about, heaviest first."""

    CONDEMNING = "condemning"
    WATCH = "watch"
    SHOP = "shop"
    DATA = "data"
    NOTE = "note"


VERDICT_ORDER = {verdict: rank for rank, verdict in enumerate(Verdict)}
SEVERITY_ORDER = {severity: rank for rank, severity in enumerate(Severity)}
COUNTED_FOR_EXIT = frozenset({Verdict.OUTSIDE, Verdict.SUSPECT, Verdict.UNREADABLE})
COUNTED_WHEN_STRICT = COUNTED_FOR_EXIT | {Verdict.UNDECIDED, Verdict.NOT_ASSESSED}


def id_of(path: str) -> str:
    """The id of a record: the name of its file.

    >>> id_of("inspections/2026/2026-01-10-e-12-annual.yaml")
    '2026-01-10-e-12-annual'
    """
    return path.rsplit("/", 1)[-1].removesuffix(".yaml")


class Place(NamedTuple):
    """Where something stands: the record's path in the ledger and a JSON Pointer (RFC 6901) into it."""

    path: str
    pointer: str = ""

    def below(self, *steps: str | int) -> Place:
        """The place further in, one step a key or index."""
        return Place(self.path, self.pointer + _pointed(steps))


@lru_cache(maxsize=4096)
def _pointed(steps: tuple[str | int, ...]) -> str:
    """Steps as a JSON Pointer has them: a book takes the same few again and again."""
    return "".join("/" + str(step).replace("~", "~0").replace("/", "~1") for step in steps)


LookUp = Callable[[Place], tuple[int, int]]


class Figure(NamedTuple):
    """One number of a finding: written values are exact text, computed ones the shortest text that reads back."""

    name: str
    value: str
    unit: str
    origin: str  # where the number comes from: a record, a limit, "computed"


@dataclass(frozen=True, slots=True)
class Finding:
    """One judgement on one thing."""

    check: str
    verdict: Verdict
    severity: Severity
    subject: str  # shop words: "e-12 driver-2 right"
    place: Place
    message: str
    figures: tuple[Figure, ...] = ()
    source: str = ""
    next: str = ""
    quantity: str = ""
    where: str = ""  # position, plane or limit: what tells two findings of one record apart
    cause: str = ""  # groups `not assessed`: one cause, one next step
    waived: str = ""
    known_at: tuple[int, int] = (0, 0)  # line and column, where they are known at once
    look_up: LookUp | None = field(default=None, repr=False, compare=False)

    @property
    def line(self) -> int:
        """The line it stands on; 0 where nobody looks it up."""
        return self._spot[0]

    @property
    def column(self) -> int:
        """Where it stands on that line, from 1."""
        return self._spot[1]

    @property
    def _spot(self) -> tuple[int, int]:
        return self.known_at if self.known_at[0] or self.look_up is None else self.look_up(self.place)

    @property
    def record(self) -> str:
        """The id of the record the finding stands in."""
        return id_of(self.place.path)

    @property
    def fingerprint(self) -> str:
        """The finding's identity over time: check, subject, quantity, where, record; no value, no line."""
        parts = (self.check, self.subject, self.quantity, self.where, self.record)
        return hashlib.sha256("\x1f".join(parts).encode("utf-8", "replace")).hexdigest()[:16]

    def looked_up_by(self, look_up: LookUp) -> Finding:
        """The same finding, its line and column looked up when they are asked for."""
        return replace(self, look_up=look_up)

    def waived_by(self, waiver: str) -> Finding:
        """The same finding, marked as waived."""
        return replace(self, waived=waiver)


class Dropped(NamedTuple):
    """A reading that a fault of form keeps out of the book, by what it tells of itself; '' where it tells nothing."""

    quantity: str
    engine: str
    place: str
    part: str


class Problem(NamedTuple):
    """What kept a file, or part of a record, from being read: found while reading, judged by the checks of form."""

    check: str
    place: Place
    message: str
    next: str
    line: int = 0  # known at once where the text itself could not be read
    column: int = 0
    kind: str = ""  # what exactly was wrong with a file
    left_out: str | None = None  # pointer of the part that is not used because of it; "" is the whole record
    dropped: tuple[Dropped, ...] = ()  # the readings in that part, where the text could be read


def worst_first(finding: Finding) -> tuple[int, int, int, str, str, str]:
    """Sort key: what is not waived, heaviest severity, gravest verdict, then subject, path and pointer."""
    return (
        bool(finding.waived),
        SEVERITY_ORDER[finding.severity],
        VERDICT_ORDER[finding.verdict],
        finding.subject,
        finding.place.path,
        finding.place.pointer + finding.check + finding.where,
    )


def counts_for_exit(finding: Finding, *, strict: bool) -> bool:
    """Whether a finding turns the exit code to 1."""
    verdicts = COUNTED_WHEN_STRICT if strict else COUNTED_FOR_EXIT
    return finding.verdict in verdicts and finding.severity is not Severity.NOTE and not finding.waived
