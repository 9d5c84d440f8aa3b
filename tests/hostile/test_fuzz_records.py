"""Records with anything in them are read and judged, or found wanting with a place; nothing else ever happens.

The longer searches are marked `fuzz`, and run by .ci/run.
"""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.cli.commands import call, small_ledger
from tests.hostile.mutated import as_text, mutated, run_with

CALM = {"deadline": None, "suppress_health_check": list(HealthCheck), "database": None}
LONG = settings(max_examples=300, **CALM)  # type: ignore[arg-type]
SHORT = settings(max_examples=40, derandomize=True, **CALM)  # type: ignore[arg-type]
changes = st.lists(mutated(), min_size=1, max_size=3)
COMMANDS = [
    "check --all", "check --format sarif", "check --format github", "status --all", "due --all", "due --format ics",
    "due --format csv", "wear --all", "wear --format html", "annual {engine} 2025", "turning {engine} --all",
    "braking {engine} --all", "bore {center}", "fit {tire} {center}", "history {id}", "explain {set}",
    "steam {engine} 2026-02-27 --miles 3 --by lead",
]  # fmt: skip
IDS = {"engine": "e-1", "center": "d-2-left", "tire": "t-2-left", "id": "d-2", "set": "us-49-cfr-230"}


def judged(found: list[tuple[str, Any]]) -> None:
    """Run, and hold every finding to its words and its place."""
    outcome = run_with({path: as_text(tree) for path, tree in found})
    assert all(finding.place.path for finding in (*outcome.findings, *outcome.within))
    assert all(finding.message for finding in outcome.findings)
    assert all(finding.line >= 1 and finding.column >= 1 for finding in outcome.findings)


def told(found: list[tuple[str, Any]], asked: str) -> None:
    """Ask a command of a ledger with these records in it."""
    with tempfile.TemporaryDirectory() as folder:
        root = small_ledger(Path(folder))
        for path, tree in found:
            (root / path).parent.mkdir(parents=True, exist_ok=True)
            (root / path).write_bytes(as_text(tree))
        called = call(*asked.format(**IDS).split(), at=root)
    assert "a fault of axlebook itself" not in called.err, called.err
    assert called.code in (0, 1, 2)
    assert (called.code == 2) == (not called.out)


@SHORT
@given(changes)
def test_any_records_give_findings_and_never_an_exception(found: list[tuple[str, Any]]) -> None:
    judged(found)


@pytest.mark.parametrize("asked", COMMANDS)
@settings(max_examples=3, derandomize=True, **CALM)  # type: ignore[arg-type]
@given(changes)
def test_any_command_has_an_answer_for_any_records(asked: str, found: list[tuple[str, Any]]) -> None:
    told(found, asked)


@pytest.mark.fuzz
@LONG
@given(changes)
def test_any_records_give_findings_however_long_one_tries(found: list[tuple[str, Any]]) -> None:
    judged(found)


@pytest.mark.fuzz
@settings(max_examples=150, **CALM)  # type: ignore[arg-type]
@given(changes, st.sampled_from(COMMANDS))
def test_any_command_has_an_answer_however_long_one_tries(found: list[tuple[str, Any]], asked: str) -> None:
    told(found, asked)
