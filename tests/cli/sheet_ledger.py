"""A small invented ledger for sheets: a driver with three years of readings, another with none, by hand."""

from __future__ import annotations

from pathlib import Path

from tests.cli.commands import small_ledger

PLAN = """kind: plan
purposes: [yearly]
title: A short plan
asks:
  - {quantity: tire_thickness, roles: [driver], positions: [0 deg, 180 deg], least_count: 1/32 in, stage: asked}
  - {quantity: flange_thickness, roles: [driver], positions: [worst], least_count: 1/64 in, stage: asked}
  - {quantity: back_to_back, roles: [driver], positions: [0 deg, 120 deg, 240 deg], least_count: .001 in,
     hold: under the engine, how: "Cold, at the marks.", stage: asked}
  - {looked_for: crack, roles: [driver], stage: asked}
  - {quantity: coupler_height, positions: [worst], stage: wanted}
"""
READ = """kind: inspection
measured_on: {day}
engine: e-1
purpose: yearly
by: lead
setup: {{hold: under the engine}}
readings:
  - {{quantity: tire_thickness, place: driver-2 left, with: rule-1, values: {{0 deg: {thick}}}}}
  - {{quantity: back_to_back, place: driver-2, with: micrometer-1, values: {{0 deg: {back}}}}}
"""
YEARS = {
    "2023-01-10": ("2 31/32 in", "53.201 in"), "2024-01-10": ("2 15/16 in", "53.202 in"),
    "2025-01-10": ("2 29/32 in", "53.200 in"), "2026-01-10": ("2 7/8 in", "53.201 in"),
}  # fmt: skip
FIRST_HOUR = {
    "ledger.yaml": 'kind: ledger\nrailway: "Test railway (invented)"\nclosed_on: 2026-02-28\n',
    "drivers/d-9.yaml": "kind: driver\naxle: {}\n"
    "centers: {d-9-left: {first_side: left}, d-9-right: {first_side: right}}\n",
}  # fmt: skip


def sheet_ledger(folder: Path, files: dict[str, str] | None = None) -> Path:
    """The ledger, read four times."""
    read = {
        f"inspections/{day[:4]}/{day}-e-1-yearly.yaml": READ.format(day=day, thick=thick, back=back)
        for day, (thick, back) in YEARS.items()
    }
    return small_ledger(folder, {"plans/own-yearly.yaml": PLAN, **read, **(files or {})})
