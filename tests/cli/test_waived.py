"""What a waiver waives is told alike by the check, by what holds the engine back, by what is due and by the summary."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.cli.commands import AT, THIN, call, small_ledger

RULE = "kind: instrument\ntype: steel rule\nmeasures: [flange_thickness]\ncertificates:\n"
RULE += "  - {issued_on: 2024-01-01, expires_on: 2025-01-01}\n"
READ = THIN.replace("15/16 in", "1 1/4 in").replace("gauge-1", "rule-9")
WAIVER = """kind: waiver
finding:
  check: certificate-expired
  subject: rule-9
reason: sent away
approved_by: lead
approved_on: 2026-01-01
expires_on: 2026-06-30
"""
CONDEMNING = WAIVER.replace("certificate-expired", "flange-thin").replace("rule-9", "e-1 driver-2 right")


def ledger(folder: Path, waiver: str, reading: str = READ) -> Path:
    return small_ledger(folder, {AT: reading, "instruments/rule-9.yaml": RULE, "waivers/w-1.yaml": waiver})


def told(root: Path, *arguments: str) -> str:
    return " ".join(call(*arguments, at=root).out.split())


@pytest.mark.parametrize(
    ("waiver", "reading", "why"),
    [
        (CONDEMNING, THIN, "what it names condemns, and that is never waived"),
        (WAIVER.replace("by: lead", "by: led"), READ, "led, named as who approved it, is no person on record"),
        (WAIVER.replace("-expired", "-expird"), READ, "no check is named certificate-expird"),
        (WAIVER.replace("rule-9", "rule-8"), READ, "certificate-expired finds nothing of rule-8"),
        (WAIVER + "closed_on: 2026-02-01\n", READ, "it was closed on 2026-02-01"),
    ],
)
def test_a_waiver_that_waives_nothing_is_nowhere_told_as_one_that_does(
    tmp_path: Path, waiver: str, reading: str, why: str
) -> None:
    root = ledger(tmp_path, waiver, reading)
    assert "waived by w-1" not in told(root, "check", "--all")
    assert "Waived: " not in told(root, "status")
    summary = told(root, "annual", "e-1", "2026", "--format", "markdown")
    assert f"WAIVES NOTHING: {why}" in summary
    assert "is waived: " not in summary
    due = told(root, "due", "--all")
    assert "Waiver of" not in due or f"which waives nothing {why[0].upper()}{why[1:]}" in due


def test_a_waiver_that_waives_is_told_as_one_by_all(tmp_path: Path) -> None:
    root = ledger(tmp_path, WAIVER)
    assert "waived by w-1" in told(root, "check", "--all")
    assert "Waived: certificate-expired is waived: sent away (rule-9, since 2026-01-01" in told(root, "status")
    assert "WAIVES NOTHING" not in told(root, "annual", "e-1", "2026", "--format", "markdown")
    assert "Waiver of certificate-expired Waived until 2026-06-30." in told(root, "due", "--all")


def test_a_waiver_that_ran_out_counts_in_the_list_of_what_is_due_only_while_its_finding_is_there(
    tmp_path: Path,
) -> None:
    over = WAIVER.replace("2026-06-30", "2026-02-01")
    assert "Waiver of certificate-expired (shop)" in told(ledger(tmp_path / "a", over), "due")
    gone = ledger(tmp_path / "b", over.replace("rule-9", "rule-8"))
    assert "Waiver of certificate-expired (note)" in told(gone, "due", "waivers")
    assert call("due", "waivers", at=gone).code == 0


@pytest.mark.parametrize(("approved", "holds"), [("2026-01-12", False), ("2026-02-06", True)])
def test_a_waiver_is_for_the_wheel_that_stood_there_when_it_was_approved(
    tmp_path: Path, approved: str, holds: bool
) -> None:
    root = small_ledger(tmp_path, {
        "defects/2026/2026-02-05-e-1-mark.yaml": "kind: defect\nfound_on: 2026-02-05\nengine: e-1\n"
        "place: driver-1 left\nwhat: A mark is hard to see.\ndisposition: open\n",
        "waivers/w-1.yaml": WAIVER.replace("certificate-expired", "defect-open")
        .replace("rule-9", "e-1 driver-1 left").replace("2026-01-01", approved),
    })  # fmt: skip
    engine = root / "engines/e-1.yaml"
    lines = engine.read_text()
    for at, gone, come in (("driver-1", "d-1", "d-2"), ("driver-2", "d-2", "d-1")):
        stood = f"  - at: {at}\n    wheelset: {gone}\n    from: 2020-01-01\n"
        assert stood in lines
        since = f"  - at: {at}\n    wheelset: {come}\n    from: 2026-02-01\n"
        lines = lines.replace(stood, f"{stood}    until: 2026-02-01\n{since}")
    engine.write_text(lines)
    assert ("waived by w-1" in told(root, "check", "--all")) is holds
    assert ("Waived: " in told(root, "status")) is holds
    summary = told(root, "annual", "e-1", "2026", "--format", "markdown")
    why = "WAIVES NOTHING: it was approved for d-1, and d-2 stands at e-1 driver-1 left now"
    assert (why in summary) is not holds
