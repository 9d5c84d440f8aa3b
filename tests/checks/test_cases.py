"""Every case of every check: ledger text in; verdict, place, figures and words out."""

from pathlib import Path
from typing import Any

import pytest

from axlebook.checks import find_check

from .cases import NO_CHECKS, differences, read_cases, run_case

CASES = list(read_cases())


@pytest.mark.parametrize(("check", "case"), [(c, k) for c, _, k in CASES], ids=[f"{c}/{p.stem}" for c, p, _ in CASES])
def test_a_case_gives_what_it_says(check: str, case: dict[str, Any]) -> None:
    assert find_check(check), f"no check is named {check}"
    outcome = run_case(case)
    found = [finding for finding in outcome.findings if finding.check == check]
    wanted = case.get("expect") or []
    listing = "\n".join(f"{f.verdict}, {f.severity}, {f.place.path}:{f.line}:{f.column}: {f.message}" for f in found)
    assert len(found) == len(wanted), f"{len(found)} findings instead of {len(wanted)}:\n{listing}"
    for finding, expected in zip(found, wanted, strict=True):
        assert not differences(finding, expected), "\n".join(differences(finding, expected))
    if "within" in case:
        assert sum(f.check == check for f in outcome.within) == int(case["within"])


def test_every_case_folder_is_a_check() -> None:
    here = Path(__file__).parent
    folders = {p.name for p in here.iterdir() if p.is_dir() and p.name not in NO_CHECKS}
    assert not {name for name in folders if find_check(name) is None}
