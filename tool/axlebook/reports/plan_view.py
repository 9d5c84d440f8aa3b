"""An engine seen from above: its axles from the front to the rear, and what weighs most on each wheel and axle."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from axlebook.findings import SEVERITY_ORDER, VERDICT_ORDER, Finding, Severity, Verdict
from axlebook.records.engine import from_front

from .condition_view import NEEDS_SOMEBODY, Axle, EngineCondition, Row, tightness

SIDES = ("left", "right")
NO_WHEELSET = "no wheelset here"


@dataclass(frozen=True)
class Mark:
    """What weighs most on one wheel, or on an axle as a whole."""

    verdict: Verdict | None  # None: nothing was read
    row: Row | None = None  # the quantity it is, where it is one
    finding: Finding | None = None  # else what a check found
    more: int = 0  # other things on it that are not within
    within: int = 0
    not_judged: int = 0
    bare_since: str = ""  # the day on which its tire came off, where none was put on since
    unplaced: bool = False  # it or the other wheel was read, and nobody can say which

    @property
    def word(self) -> str:
        """The verdict in words, or since when no tire is on it."""
        if self.bare_since:
            return f"no tire since {self.bare_since}"
        nothing = "read, which wheel?" if self.unplaced else "nothing read"
        return nothing if self.verdict is None else str(self.verdict)


@dataclass(frozen=True)
class PlanAxle:
    """One wheelset seen from above, or a place at which none stands."""

    at: str
    wheelset: str
    own: Mark
    left: Mark
    right: Mark
    ends: tuple[str, str] = SIDES  # A and B where the record does not say which is left
    empty_since: str = ""  # the day on which the last wheelset left the place

    @property
    def name(self) -> str:
        """Where it stands and which it is, or since when none stands there."""
        if self.empty_since:
            return f"{self.at}: {NO_WHEELSET} since {self.empty_since}"
        return f"{self.at} ({self.wheelset})"

    @property
    def marks(self) -> tuple[Mark, Mark, Mark]:
        """Left, right, and the axle's own."""
        return self.left, self.right, self.own

    @property
    def needs_somebody(self) -> bool:
        """Whether something on it is outside, suspect or undecided."""
        return any(mark.verdict in NEEDS_SOMEBODY for mark in self.marks)


def plan(engine: EngineCondition) -> tuple[PlanAxle, ...]:
    """The axles of an engine from the front to the rear; a place that is empty stands among them."""
    nothing = Mark(None)
    empty = [PlanAxle(one.at, "", nothing, nothing, nothing, empty_since=one.since) for one in engine.empty]
    filled = [_axle(engine.engine, axle) for axle in engine.axles if axle.at]
    return tuple(sorted([*filled, *empty], key=lambda axle: from_front(axle.at)))


def _axle(engine: str, axle: Axle) -> PlanAxle:
    at, rows = axle.at, axle.rows
    ends = SIDES if not any(row.place in (f"{at} A", f"{at} B") for row in rows) else ("A", "B")
    on_side = {end: [f for f in axle.others if _on_side(f, engine, at, end, _parts(axle, end))] for end in ends}
    own = [f for f in axle.others if not any(f in many for many in on_side.values())]
    left, right = (
        replace(
            _wheel([row for row in rows if row.place == f"{at} {end}"], on_side[end], axle.without_tire.get(end, "")),
            unplaced=axle.unplaced,
        )
        for end in ends
    )
    return PlanAxle(at, axle.wheelset, _mark([row for row in rows if row.place == at], own), left, right, ends)


def _parts(axle: Axle, end: str) -> set[str]:
    """The tire on a side; what is said of the wheelset itself is of no side."""
    return {row.part for row in axle.rows if row.place == f"{axle.at} {end}"} - {axle.wheelset}


def _on_side(finding: Finding, engine: str, at: str, end: str, tires: set[str]) -> bool:
    words = set(re.split(r"[\s,]+", finding.subject))
    return finding.subject.startswith(f"{engine} {at} {end}") or bool(words & tires)


def _wheel(rows: list[Row], others: list[Finding], bare_since: str) -> Mark:
    """What weighs most on a wheel; where no tire is on it, that is said, and nothing on it is within."""
    mark = _mark(rows, others)
    if not bare_since or mark.verdict in NEEDS_SOMEBODY:
        return replace(mark, bare_since=bare_since)
    return Mark(None, bare_since=bare_since)


def _mark(rows: list[Row], others: list[Finding]) -> Mark:
    """What weighs most: what is out, then what a limit waits for, then the tightest of what wears."""
    out = sorted((row for row in rows if row.verdict in NEEDS_SOMEBODY), key=lambda row: _gravest(row.finding))
    found = sorted(others, key=_gravest)
    within = [row for row in rows if row.verdict is Verdict.WITHIN]
    not_judged = len(rows) - len(out) - len(within)
    more = max(len(out) + len(found) - 1, 0)
    waiting = [row for row in rows if row.waits]
    if found and (not out or _gravest(found[0]) < _gravest(out[0].finding)):
        return Mark(found[0].verdict, None, found[0], more, len(within), not_judged)
    if out:
        return Mark(out[0].verdict, out[0], None, more, len(within), not_judged)
    if waiting:
        heaviest = min(waiting, key=lambda row: _gravest(row.finding))
        return Mark(Verdict.NOT_ASSESSED, heaviest, None, 0, len(within), not_judged)
    if within:
        return Mark(Verdict.WITHIN, min(within, key=tightness), None, 0, len(within), not_judged)
    return Mark(Verdict.NOT_ASSESSED if rows else None, rows[0] if rows else None, None, 0, 0, not_judged)


def _gravest(finding: Finding) -> tuple[bool, int, int]:
    """Sort key: what is said of the metal before what is said of a record; then the gravest, the heaviest first."""
    return finding.severity is Severity.DATA, VERDICT_ORDER[finding.verdict], SEVERITY_ORDER[finding.severity]
