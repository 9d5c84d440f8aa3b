"""Findings made by hand, so that a renderer is held to what was decided about text and not to what a check says."""

from __future__ import annotations

from datetime import date

from axlebook.findings import Figure, Finding, Place, Severity, Verdict
from axlebook.reports.view import Day, Report, Revision

DAY = Day(date(2026, 2, 28), "closed")
COUNTS = {
    "read": 26, "checked": 9, "within": 5, "outside": 2, "suspect": 1, "undecided": 1, "not_assessed": 4,
    "unreadable": 0,
}  # fmt: skip

THIN = Finding(
    "flange-thin", Verdict.OUTSIDE, Severity.CONDEMNING, "e-1 driver-2 right",
    Place("inspections/2026/2026-01-10-e-1-annual.yaml", "/readings/0/values/worst"),
    "e-1 driver-2 right, flange thickness, worst: 15/16 in (23.8125 mm). Out at or under 15/16 in (23.8125 mm).",
    (Figure("flange_thickness worst", "15/16 in", "in", "2026-01-10-e-1-annual"),
     Figure("limit at_most", "15/16 in", "in", "us-49-cfr-230/flange-thin")),
    "49 CFR part 230, annual edition of 2015, 230.113(g)",
    "Re-measure at the same place with the same gauge; then a second person.",
    "flange_thickness", "worst", known_at=(12, 14),
)  # fmt: skip
MOVED = Finding(
    "back-to-back-moved", Verdict.SUSPECT, Severity.WATCH, "e-1 driver-1", Place("inspections/2026/b.yaml"),
    "Back-to-back grew by 1/16 in, and nothing was done to the pair", next="Read it again in the same hold",
    known_at=(4, 2),
)  # fmt: skip
HIGH = Finding(
    "flange-high", Verdict.OUTSIDE, Severity.SHOP, "e-1 driver-1 left", Place("inspections/2026/b.yaml"),
    "e-1 driver-1 left, flange height: 1 7/16 in.", waived="w-1", known_at=(9, 2),
)  # fmt: skip
UNSURE = Finding(
    "interference-outside-practice", Verdict.UNDECIDED, Severity.SHOP, "t-9 on d-1-left", Place("tires/t-9.yaml"),
    "Interference 0.046 in; the reading cannot tell.", next="Write down the temperature.", known_at=(7, 3),
)  # fmt: skip
NARROW = [
    Finding(
        "tire-thin", Verdict.NOT_ASSESSED, severity, f"e-1 tender-{n}", Place(f"inspections/2026/{n}.yaml"), "kept",
        cause=cause, next=step, known_at=(n, 5),
    )
    for n, severity, cause, step in (
        (1, Severity.NOTE, "no limit on file for tire width", "Add the limit."),
        (2, Severity.CONDEMNING, "axle load is not on record", "Write it down."),
        (3, Severity.NOTE, "no limit on file for tire width", "Add the limit."),
        (4, Severity.NOTE, "no limit on file for lateral", "Add that limit."),
    )
]  # fmt: skip


def report(*findings: Finding, **more: object) -> Report:
    """A report of these findings."""
    return Report("check", DAY, COUNTS, findings, **more)  # type: ignore[arg-type]


FULL = report(THIN, MOVED, UNSURE, *NARROW, HIGH, revision=Revision("a" * 40, True))
