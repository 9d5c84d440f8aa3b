"""A small book under version control with four yearly readings of one flange, to compare changes of."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from tests.cli.commands import call, promised
from tests.cli.repositories import commit, git, small_repository

YEARS = {2022: "1 1/4 in", 2023: "1 15/64 in", 2024: "1 7/32 in", 2025: "1 13/64 in"}
OWN_SET = """kind: limit-set
title: The test railway's own limits (invented)
source:
  title: Notebook of the test railway (invented)
  edition: "2020"
  seen_on: 2020-01-01
decision: as written
tightens: us-49-cfr-230
limits:
  - id: flange
    quantity: flange_thickness
    where: 3/8 in above tread
    out_when:
      at_most: 1 1/16 in
    stage: shop
    clause: page 3
"""
PLAN = """kind: plan
title: One flange looked at between inspections (invented)
purposes: [spot-check]
asks:
  - quantity: flange_height
    roles: [trailing-truck]
    stage: asked
"""


def session(year: int, value: str, *, place: str = "driver-2 right", signed: bool = False, more: str = "") -> str:
    """One inspection with one reading."""
    signature = f"signed:\n  signed_by: lead\n  signed_on: {year}-01-11\n" if signed else ""
    return (
        f"kind: inspection\nmeasured_on: {year}-01-10\nengine: e-1\npurpose: spot-check\nby: lead\n{signature}"
        f"setup:\n  part_temperature: 60 degF\nreadings:\n  - quantity: flange_thickness\n    place: {place}\n"
        f"    with: gauge-1\n    where: 3/8 in above tread\n    values:\n      worst: {value}\n{more}"
    )


def at(year: int) -> str:
    """Where the inspection of a year stands."""
    return f"inspections/{year}/{year}-01-10-e-1-annual.yaml"


def book(folder: Path) -> Path:
    """The book; `main` is checked out and clean."""
    files = {at(year): session(year, value, signed=year == 2024) for year, value in YEARS.items()}
    return small_repository(folder, {**files, "limits/own.yaml": OWN_SET, "plans/own-spot.yaml": PLAN})


def told(root: Path, *arguments: str) -> dict[str, Any]:
    """The result of a comparison, held to the promise."""
    called = call("compare", *arguments, "--format", "json", at=root)
    assert called.code in (0, 1), called.err
    found: dict[str, Any] = promised(called.out)["result"]
    return found


def branch(root: Path, name: str) -> None:
    """Begin a branch here."""
    git(root, "checkout", "--quiet", "-b", name)


__all__ = ["OWN_SET", "YEARS", "at", "book", "branch", "commit", "git", "session", "told"]
