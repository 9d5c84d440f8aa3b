"""A railway that measures in millimetres is told what is worked out in its own units first."""

from __future__ import annotations

from typing import Any

import pytest

from .cases import base_files, read_cases, run_case

CASES = {f"{check}/{path.stem}": case for check, path, case in read_cases()}


def in_millimetres(case: dict[str, Any]) -> dict[str, Any]:
    """The same case, in a ledger that shows millimetres first."""
    files = dict(case.get("ledger") or {})
    text = files.get("ledger.yaml") or base_files(case.get("base", "one-engine"))["ledger.yaml"].decode()
    assert "display_units: inch" in text
    return {**case, "ledger": {**files, "ledger.yaml": text.replace("display_units: inch", "display_units: mm")}}


@pytest.mark.parametrize(
    ("named", "says"),
    [
        ("back-to-back-moved/moved", "0.051 mm (0.0020 in) wider"),
        ("loose-tire-signs/back-to-back-and-rust", "0.330 mm (0.0130 in) wider"),
        ("diameter-not-bore-and-thickness/in-mm", "make 1287.86 mm (50.703 in)"),
        ("hoop-stress-high/outside", "128.86 MPa to 198.48 MPa"),
        ("heat-uneven/outside", "33 degC apart"),
        ("mean-too-cold/outside", "degC of the mean"),
        ("heat-over-ceiling/outside", "the ceiling is 260 degC"),
    ],
)
def test_what_is_worked_out_is_told_in_the_railway_s_own_units_first(named: str, says: str) -> None:
    outcome = run_case(in_millimetres(CASES[named]))
    assert says in next(f.message for f in outcome.findings if f.check == named.split("/")[0])
