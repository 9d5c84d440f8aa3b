"""Five invented records, one of each shape that matters, and a sixth that decides on others."""

DRIVER = b"""\
kind: driver
axle:
  main: yes
  bearings: plain
  journals: inside
  original_journal_diameter: 8 3/4 in
  stamped_end: right
  source: "stamp on the axle end, read 2013-11-02"
datum: center punch on the right axle end
register:
  lips: outside
  nominal_distance: 64 1/2 in
centers:
  d-2-left: {first_side: left, material: cast steel, nominal_diameter: 44 in, spokes: 14, welds: none known}
  d-2-right: {first_side: right, material: cast steel, nominal_diameter: 1117.6 mm, spokes: 14, welds: unknown}
"""
TIRE = b"""\
kind: tire
marks: {heat: K17, serial: "0612", stamped: outside face, made_on: 1998}
steel: {specification: works drawing 40, yield_strength: 72000 psi, heat_ceiling: 510 degF}
form: {flange: plain, nominal_width: 5 7/8 in, located_by: shoulder, fastened_by: retaining rings}
ordered:
  ordered_on: 2024-05
  for_center: d-2-left
  bore: {at_least: 43.948 in, at_most: 43.952 in, temperature: 68 degF}
"""
INSPECTION = b"""\
kind: inspection
measured_on: 2024-03-09
engine: e-7
purpose: annual
by: [foreman, v2]
setup: {hold: on blocks, clock: 6 o'clock, air_temperature: 11 degC}
readings:
- quantity: tire_thickness
  place: driver-1 left
  with: rule-2
  values: {0 deg: 2 7/8 in, 90 deg: 73 mm, 180 deg: 2.875 in, 270 deg: [2 7/8 in, 2 29/32 in]}
- {quantity: flange_height, place: tender-2 right, with: gauge-3, values: {worst: 1 1/32 in}}
- {quantity: register_gap, part: t-612, values: {0 deg: under 0.0015 in, 180 deg inner: 0.002 in}, when: cold after}
observations:
- {looked_for: flat, place: driver-1 left, answer: seen, angle: 75 deg, length: over 1 in, width: 1/2 in}
- {looked_for: broken_spoke, part: d-2-left, answer: seen, count: 2, spokes: [4, 5]}
examinations:
- {part: d-2, of: axle, method: magnetic particle, result: nothing found, due_again: 2029-03-09}
not_measured:
- {quantity: journal_diameter, places: [driver-1 left, driver-1 right], because: no access, note: boxes on}
signed: {signed_by: foreman, signed_on: 2024-03-10, witness: v2}
"""
APPLIED = b"""\
kind: tire-applied
applied_on: 2024-06-15
tire: t-612
center: d-2-left
by: foreman
fit_from: [2024-04-20-d-2-shop, 2024-06-01-t-612-receiving]
shims: [{thickness: 0.030 in, pieces: 1, full_round: yes, laps: no}]
before: {bright_metal_center: yes, bright_metal_tire: yes, blocks: not applicable, center_cracks: not seen}
heat:
- {time: "13:05", where: inside face, angle: 0 deg, read: 375 to 400 degF, with: crayons}
- {time: "13:05", where: inside face, angle: 180 deg, read: over 375 degF, with: crayons}
seating: {seated: "13:09", clamps_removed: "17:40", witness_mark: paint over rim and tire}
readings:
- {quantity: tread_diameter, part: t-612, with: pi-tape-2, part_temperature: 61 degF, values: {all round: 50.988 in}}
"""
LIMITS = b"""\
kind: limit-set
source: {title: Rules of an invented works, edition: third}
decision: as written
applies_to: {track_gauge: {at_least: 30 in}}
limits:
- {id: flange-thin, quantity: flange_thickness, stage: condemning, out_when: {at_most: 7/8 in}, clause: "12"}
- id: tire-thin
  quantity: tire_thickness
  stage: shop
  applies_to: {role: [driver], fastened_by: nothing}
  out_when: {under: table}
  table: {columns: [axle_load, center_diameter], each: at_most, between_rows: next row, rows: [[30000 lb, 44 in, 2 in]]}
  clause: "13"
- {id: cracked, stage: condemning, out_when: {seen: crack}, clause: "14"}
intervals:
- {id: yearly, every: 31 service days, or: 15 years, stage: condemning, clause: "20"}
"""
ENGINE = b"""\
kind: engine
number: 7
overrides: {track_gauge: 3 ft, display_units: inch}
wheelsets:
- {at: driver-1, wheelset: d-2, from: 2013, intermediate: no}
- {at: engine-truck-1, wheelset: et-1, from: 2013-11-02, until: 2020-01-01, a_end: left}
"""

SAMPLES = {
    "drivers/d-2.yaml": DRIVER,
    "tires/t-612.yaml": TIRE,
    "inspections/2024/2024-03-09-e-7-annual.yaml": INSPECTION,
    "tire-work/2024/2024-06-15-t-612-applied.yaml": APPLIED,
    "limits/works.yaml": LIMITS,
    "engines/e-7.yaml": ENGINE,
}
