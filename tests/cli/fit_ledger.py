"""A small invented ledger for fits: one center, one new tire, one reading of each with an instrument of true length."""

from __future__ import annotations

from pathlib import Path

from tests.cli.commands import small_ledger

LEDGER = """kind: ledger
railway: "Test railway (invented)"
defaults:
  track_gauge: 4 ft 8 1/2 in
  display_units: inch
  limit_sets:
    - {set: ours, adopted_on: 2019-01-01, adopted_by: lead}
reference_temperature: 68 degF
materials:
  tire steel: {modulus: 29500000 psi, poisson: 0.29, expansion: 6.5e-6 /degF, source: works notebook (invented)}
  cast steel: {modulus: 29000000 psi, poisson: 0.28, expansion: 6.4e-6 /degF, source: works notebook (invented)}
closed_on: 2026-02-28
"""
OURS = """kind: limit-set
source: {title: Our notebook (invented), edition: of 2019}
decision: guard band
limits:
  - {id: thin, quantity: tire_thickness, stage: condemning, out_when: {under: 1 1/2 in}, clause: page 1}
practices:
  - id: shrinkage
    quantity: interference
    value: 0.047 in
    tolerance: {minus: 0.005 in, plus: 0.005 in}
    stage: practice
    clause: page 2
"""
NO_TOLERANCE = OURS.replace("    tolerance: {minus: 0.005 in, plus: 0.005 in}\n", "")
DRIVER = """kind: driver
axle: {main: yes, bearings: plain, journals: inside, original_journal_diameter: 8 1/2 in, stamped_end: left}
datum: punch mark on the left axle end
register:
  lips: outside
  nominal_distance: 64 1/4 in
  sense: "between the two outside seats; back-to-back = distance - both flange-back-to-register"
centers:
  d-2-left: {first_side: left, material: cast steel, nominal_diameter: 44 in, rim_inside_diameter: 36 1/2 in,
    spokes: "14", spoke_section: 3 in x 2 in, hub_diameter: 15 in}
  d-2-right: {first_side: right, material: cast steel, nominal_diameter: 44 in}
"""
TIRE = """kind: tire
marks: {serial: "4471", heat: H204}
steel: {certificate: C-1, yield_strength: 75000 psi, heat_ceiling: 500 degF}
form:
  flange: flanged
  nominal_width: 5 3/4 in
  seat_width: 5 1/2 in
  flange_back_to_register: 5 1/2 in
  located_by: lip outside
  fastened_by: nothing
ordered:
  for_center: d-2-left
  bore: {at_least: 43.963 in, at_most: 43.968 in, temperature: 68 degF}
"""
TRUE = "kind: instrument\ntype: length bar\nexpansion: reads true length\n"
# A fraction says nothing of the last digit, and the instrument nothing of its uncertainty: nothing is guessed.
CENTER_READ = """kind: inspection
measured_on: 2025-11-23
purpose: shop
by: lead
readings:
  - {quantity: center_diameter, part: d-2-left, with: true-1, part_temperature: 60 1/2 degF, values: {0 deg: 44.012 in}}
"""
BORE_READ = """kind: inspection
measured_on: 2026-01-10
purpose: receiving
by: [v1, lead]
readings:
  - {quantity: tire_bore, part: t-new, with: true-1, part_temperature: 58 1/2 degF, values: {0 deg: 43.965 in}}
  - {quantity: tread_diameter, part: t-new, with: true-1, values: {all round: 51 in}}
"""
# The center could be measured once the tire of before was off.
OLD_OFF = """kind: tire-removed
removed_on: 2025-11-22
tire: t-2-left
center: d-2-left
by: lead
came_off: tight
how: cut
shims_found: none
"""
BACK_AT = "tire-work/2025/2025-12-01-t-2-left-applied.yaml"
BACK_ON = "kind: tire-applied\napplied_on: 2025-12-01\ntire: t-2-left\ncenter: d-2-left\nby: lead\nshims: none\n"
CENTER_AT = "inspections/2025/2025-11-23-d-2-shop.yaml"
BORE_AT = "inspections/2026/2026-01-10-t-new-receiving.yaml"
FILES = {
    "ledger.yaml": LEDGER,
    "limits/ours.yaml": OURS,
    "drivers/d-2.yaml": DRIVER,
    "tires/t-new.yaml": TIRE,
    "instruments/true-1.yaml": TRUE,
    "tire-work/2025/2025-11-22-t-2-left-removed.yaml": OLD_OFF,
    CENTER_AT: CENTER_READ,
    BORE_AT: BORE_READ,
}
# The same fit, told by flags.
FLAGS: dict[str, str | None] = {
    "--center-od": "44.012 in",
    "--center-temperature": "60 1/2 degF",
    "--bore": "43.965 in",
    "--bore-temperature": "58 1/2 degF",
    "--tire-od": "51 in",
    "--tire-width": "5 3/4 in",
    "--seat-width": "5 1/2 in",
    "--rim-inside": "36 1/2 in",
    "--spokes": "14",
    "--spoke-section": "3 x 2 in",
    "--hub": "15 in",
    "--modulus": "29500000 psi",
    "--poisson": "0.29",
    "--expansion": "6.5e-6 /degF",
    "--center-modulus": "29000000 psi",
    "--center-poisson": "0.28",
    "--center-expansion": "6.4e-6 /degF",
    "--heat-ceiling": "500 degF",
    "--yield-strength": "75000 psi",
    "--condemning-thickness": "1 1/2 in",
}


def fit_ledger(folder: Path, **changed: str) -> Path:
    """The ledger, some of its files otherwise, by their path."""
    return small_ledger(folder, {**FILES, **changed})


def given(flags: dict[str, str | None]) -> list[str]:
    """Flags as arguments; None is a switch."""
    return [word for flag, value in flags.items() for word in ((flag,) if value is None else (flag, value))]
