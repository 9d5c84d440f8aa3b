"""The demo has the findings that its README tells, of every verdict, and no others."""

from __future__ import annotations

from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from axlebook.findings import Severity, Verdict
from axlebook.run import Outcome, run_folder

TOP = Path(__file__).parents[2]
KNOWN: dict[str, Any] = yaml.safe_load((Path(__file__).parent / "findings.yaml").read_text(encoding="utf-8"))


@cache
def outcome() -> Outcome:
    """One run of the demo; the day of today changes nothing, for the book is closed."""
    return run_folder(TOP / "demo-ledger", as_of=None, today=date(2030, 1, 1))


def test_the_demo_has_its_known_findings_and_no_others() -> None:
    found = [
        [f.check, str(f.verdict), str(f.severity), f.subject, f.record]
        for f in outcome().findings
        if f.verdict is not Verdict.NOT_ASSESSED and f.severity is not Severity.NOTE
    ]
    assert sorted(found) == sorted(KNOWN["findings"])


def test_its_notes_are_known_too() -> None:
    found = [
        f.check for f in outcome().findings if f.verdict is not Verdict.NOT_ASSESSED and f.severity is Severity.NOTE
    ]
    assert sorted(found) == sorted(KNOWN["notes"])


def test_what_cannot_be_judged_and_would_weigh_is_known() -> None:
    heavy = {
        f.check for f in outcome().findings if f.verdict is Verdict.NOT_ASSESSED and f.severity is not Severity.NOTE
    }
    assert heavy == set(KNOWN["not_assessed_heavier_than_a_note"])


def test_there_is_a_finding_of_every_verdict() -> None:
    counts = outcome().counts
    assert all(counts[v] for v in ("within", "outside", "suspect", "undecided", "not_assessed", "unreadable"))


def test_every_finding_has_file_line_column_and_a_next_step() -> None:
    for finding in outcome().findings:
        assert finding.place.path, finding
        assert finding.line >= 1, finding
        assert finding.column >= 1, finding
        assert finding.message, finding
        assert finding.next or finding.verdict is Verdict.NOT_ASSESSED, finding


def test_the_waived_one_is_waived() -> None:
    assert {f.check: f.waived for f in outcome().findings if f.waived} == KNOWN["waived"]


def test_the_same_bore_in_mm_changes_nothing_and_the_bore_of_another_tire_names_the_swap() -> None:
    from axlebook.run import run_entries
    from axlebook.sources.folder import read_folder

    entries = list(read_folder(TOP / "demo-ledger"))
    receiving = "inspections/2026/2026-01-10-t-2602-receiving.yaml"
    text = next(e.content or b"" for e in entries if e.path == receiving).decode()

    def run_with(changed: str) -> Outcome:
        assert changed != text
        files = [e._replace(content=changed.encode()) if e.path == receiving else e for e in entries]
        return run_entries(files, as_of=None, today=date(2030, 1, 1))

    def told(of: Outcome) -> list[tuple[str, str, str]]:
        return [(f.check, f.subject, f.message) for f in of.findings]

    # 43.951 in is 1116.3554 mm exactly
    in_mm = run_with(text.replace("0 deg inner: 43.951 in", "0 deg inner: 1116.3554 mm"))
    assert told(in_mm) == told(outcome())
    bare = run_with(text.replace("0 deg inner: 43.951 in", "0 deg inner: 43.951"))
    new = [f for f in bare.findings if f.place.path == receiving and f.check == "not-a-measure"]
    assert [(f.line, str(f.verdict)) for f in new] == [(15, "unreadable")]
    other = next(e.content or b"" for e in entries if e.path.endswith("2026-01-10-t-2601-receiving.yaml")).decode()
    theirs = dict(line.strip().split(": ") for line in other.splitlines() if " deg " in line and ": 43." in line)
    swapped = "\n".join(
        f"{line.split(':')[0]}: {theirs[line.strip().split(':')[0]]}" if " deg " in line and ": 43." in line else line
        for line in text.splitlines()
    )
    assert "wrong-tire-on-center" in {f.check for f in run_with(swapped + "\n").findings}
