"""Every finding of the demo and of all cases of checks has a place in a record, words, and figures or a reason."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from pathlib import Path

import pytest
from tests.checks.cases import TOP, read_cases, run_case

from axlebook.findings import Finding, Verdict
from axlebook.run import run_folder

CASES = [(f"{id}/{path.stem}", case) for id, path, case in read_cases()]
EVERY = 8  # of that many cases one is looked at here; each runs in tests/checks as well


def not_whole(findings: Iterable[Finding]) -> list[str]:
    """What is missing in findings."""
    found = []
    for one in findings:
        at = f"{one.check} at {one.place.path}{one.place.pointer}"
        if not one.place.path or one.line < 1 or one.column < 1:
            found.append(f"{at}: no place")
        if not one.message or not one.subject:
            found.append(f"{at}: no words")
        if one.verdict in (Verdict.NOT_ASSESSED, Verdict.UNDECIDED) and not (one.cause or one.message):
            found.append(f"{at}: no reason")
        if one.quantity and one.verdict is Verdict.OUTSIDE and not one.figures:
            found.append(f"{at}: a quantity is outside, and no figure tells how")
        # A limit whose amount hangs on what is not on record has none; then nothing was judged, and a cause says why.
        may_lack = bool(one.cause) and one.verdict is Verdict.NOT_ASSESSED
        found += [f"{at}: figure {f.name!r}" for f in one.figures if not f.name or not f.origin]
        found += [f"{at}: figure {f.name!r} says nothing" for f in one.figures if f.value == "" and not may_lack]
    return found


def test_every_finding_of_the_demo_has_place_and_figures() -> None:
    outcome = run_folder(Path(TOP) / "demo-ledger", as_of=None, today=date(2026, 3, 1))
    assert len(outcome.findings) > 20
    assert not_whole(outcome.findings) == []
    assert all(one.place.path and one.check for one in outcome.within)


@pytest.mark.parametrize("case", [case for _, case in CASES[::EVERY]], ids=[name for name, _ in CASES[::EVERY]])
def test_every_finding_of_a_case_has_place_and_figures(case: dict[str, object]) -> None:
    assert not_whole(run_case(case).findings) == []
