"""A journal's limits are told of what was taken off the original: `wear` turns them into the size they leave."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.cli.commands import call, promised, small_ledger

DRIVER = """kind: driver
axle:
  main: yes
  original_journal_diameter: 8 in
centers:
  d-1-left:
    first_side: left
  d-1-right:
    first_side: right
"""
READ = """kind: inspection
measured_on: {year}-03-01
engine: e-1
purpose: annual
by: [lead]
setup:
  hold: under the engine
readings:
  - quantity: journal_diameter
    place: driver-1 left
    with: micrometer-1
    values:
      0 deg: {value} in
"""


@pytest.fixture
def ledger(tmp_path: Path) -> Path:
    """A journal of 8 in when new that loses 0.010 in a year."""
    read = {
        f"inspections/{year}/{year}-03-01-e-1.yaml": READ.format(year=year, value=f"{7.9 - (year - 2020) / 100:.3f}")
        for year in range(2020, 2026)
    }
    return small_ledger(tmp_path, {"drivers/d-1.yaml": DRIVER, **read})


def test_a_limit_on_wear_below_the_original_is_met_at_the_size_that_leaves(ledger: Path) -> None:
    [row] = promised(call("wear", "d-1", "--format", "json", at=ledger).out)["result"]["rows"]
    assert (row["quantity"], row["readings"], row["part"]) == ("journal_diameter", 6, "d-1")
    [limit] = row["limits"]
    # 49 CFR 230.98(a)(6), main journal: out at 1/2 in below the original, so at 7 1/2 in.
    # 7.850 in in March 2025, .350 in left at .010 in a year: 35 years.
    figures = {figure["name"]: figure["value"] for figure in limit["figures"]}
    assert float(figures["limit"]) == pytest.approx(7.5 * 25.4)
    assert limit["middle"][:4] == "2060"
    assert row["order"] is None  # neither a turning of the tread nor a new tire mends a journal


def test_it_is_said_as_what_it_is_below_the_original(ledger: Path) -> None:
    assert "1/2 in below the original" in " ".join(call("wear", "d-1", "--all", at=ledger).out.split())
