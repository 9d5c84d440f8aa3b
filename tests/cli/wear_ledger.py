"""A small ledger in which one flange and one tread wear at known rates, with a turning, service days and miles."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

from tests.cli.commands import small_ledger

DAYS = (
    "2020-03-01", "2020-09-01", "2021-03-01", "2021-09-01", "2022-03-01", "2022-09-01", "2023-03-01", "2023-09-01",
    "2024-03-01", "2024-09-01", "2025-03-01", "2025-09-01",
)  # fmt: skip
TURNED = "2023-01-14"
LEDGER = """kind: ledger
railway: "Test railway (invented)"
defaults:
  track_gauge: 4 ft 8 1/2 in
  display_units: {units}
  limit_sets:
    - set: us-49-cfr-230
      adopted_on: 2019-01-01
    - set: ours
      adopted_on: 2019-01-01
reference_temperature: 68 degF
lead_times:
  lathe: 90 day
  tires: 270 day
closed_on: 2026-02-28
"""
OURS = """kind: limit-set
source:
  title: Notebook of the test railway (invented)
  edition: "2019"
decision: as written
limits:
  - {id: flange, quantity: flange_thickness, stage: shop, out_when: {at_most: 1 in}, clause: page 1}
"""
READINGS = """kind: inspection
measured_on: {day}
engine: e-1
purpose: periodic
by: [lead]
setup:
  hold: under the engine
readings:
  - quantity: flange_thickness
    place: driver-2 right
    with: gauge-1
    values:
      worst: {flange}
  - quantity: flange_height
    place: driver-2 right
    with: gauge-1
    values:
      worst: {height}
  - quantity: tire_thickness
    place: driver-2 right
    with: rule-1
    values:
      worst: 2 1/2 in
"""
TURNING = f"""kind: turning
turned_on: {TURNED}
engine: e-1
tires: [t-2-left, t-2-right]
by: [lead]
restores: [tread, flange]
"""
SERVICE = """kind: service
engine: e-1
year: "{year}"
days:
  - day: {year}-06-01
    until: {year}-07-20
    miles: 2000 mile
"""
SIXTY_FOURTH = Fraction(1, 64)


def _inches(value: Fraction, units: str) -> str:
    """A length written in the ledger's own unit, exactly."""
    if units == "mm":
        return f"{float(value * Fraction('25.4')):.6f} mm"
    whole, rest = divmod(value, 1)
    return f"{whole} {rest} in" if rest else f"{whole} in"


def wear_ledger(folder: Path, units: str = "inch") -> Path:
    """Flange 1 5/16 in, down by 1/64 every half year; turned back to it in 2023. Height up by 1/64 from 1 1/16 in."""
    files = {
        "ledger.yaml": LEDGER.format(units=units),
        "limits/ours.yaml": OURS,
        f"turnings/2023/{TURNED}-d-2.yaml": TURNING,
    }
    for index, day in enumerate(DAYS):
        since = index if day < TURNED else index - 6
        files[f"inspections/{day[:4]}/{day}-e-1.yaml"] = READINGS.format(
            day=day,
            flange=_inches(Fraction(21, 16) - since * SIXTY_FOURTH, units),
            height=_inches(Fraction(17, 16) + since * SIXTY_FOURTH, units),
        )
    for year in range(2020, 2026):
        files[f"service/{year}-e-1.yaml"] = SERVICE.format(year=year)
    return small_ledger(folder, files)
