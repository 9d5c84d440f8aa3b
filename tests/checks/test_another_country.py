"""A country nobody here has heard of: its limits are added by a record alone, and judge like any other's.

The country, its clauses and its figures are invented. The new words a railway needs (a quantity that it measures
and a fact that its limits ask for) are the vocabulary's; the rest is limits/.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from axlebook.checks import limit_passed
from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.build import Record, build_book
from axlebook.records.vocabulary import Word
from axlebook.run import Outcome, run_entries
from axlebook.sources.vocabulary import read_vocabulary

from .cases import entries

SET = """kind: limit-set
title: Wheelsets, 1009 mm, Ostravania (invented)
source:
  title: Ostravanian wheel order (invented)
  edition: "7"
decision: {decision}
applies_to:
  track_gauge: {{at_least: 1000 mm, at_most: 1020 mm}}
limits:
  - {{id: gauge, quantity: back_to_back, stage: condemning, out_when: {{under: 935 mm, over: 941 mm}}, clause: art. 3}}
  - id: sum
    quantity: over_flanges
    where: at the white line
    stage: condemning
    out_when: {{over: 1000 mm}}
    clause: art. 4
  - id: thin
    quantity: tire_thickness
    stage: condemning
    applies_to: {{role: [driver, tender], traffic: [mountain, plain]}}
    out_when: {{under: table}}
    table:
      columns: [axle_load, thickness]
      each: at
      between_rows: straight line
      rows: [[8 t, 30 mm], [16 t, 40 mm]]
    clause: art. 5
  - id: chip
    stage: condemning
    out_when_all: {{chip_length: {{at_least: 20 mm}}, flange_height: {{over: 30 mm}}}}
    clause: art. 6
  - {{id: rust, stage: shop, applies_to: {{traffic: mountain}}, out_when: {{seen: rust_line}}, clause: art. 7}}
  - {{id: coupler, quantity: coupler_height, stage: condemning, out_when: {{under: 700 mm}}, clause: art. 8}}
"""
ENGINE = """kind: engine
weight_on_drivers: {value: 24 t}
overrides:
  track_gauge: 1009 mm
  limit_sets: [{set: ostravania, adopted_on: 2020-01-01}]
facets: {traffic: FACET}
wheelsets:
  - {at: driver-1, wheelset: d-1, from: 2020-01-01}
  - {at: driver-2, wheelset: d-2, from: 2020-01-01}
"""


def reading(quantity: str, place: str, value: str, where: str = "") -> str:
    plane = f", where: {where}" if where else ""
    return f"  - {{quantity: {quantity}, place: {place}, values: {{worst: {value}}}{plane}}}\n"


def run(
    readings: str, seen: str = "", traffic: str = "plain", decision: str = "as written", limits: str = SET
) -> Outcome:
    inspection = "kind: inspection\nmeasured_on: 2026-01-10\nengine: e-1\npurpose: periodic\nby: [lead]\n"
    inspection += f"readings:\n{readings}" if readings else ""
    inspection += f"observations:\n{seen}" if seen else ""
    files = {
        "limits/ostravania.yaml": limits.format(decision=decision),
        "engines/e-1.yaml": ENGINE.replace("FACET", traffic),
        "inspections/2026/2026-01-10-e-1.yaml": inspection,
    }
    return run_entries(entries("one-engine", dict(files)), as_of=None, today=date(2026, 3, 1))


def told(outcome: Outcome, quantity: str) -> list[tuple[str, str]]:
    found: list[Finding] = [*outcome.findings, *outcome.within]
    return [
        (str(f.verdict), f.subject)
        for f in found
        if f.quantity == quantity and "art." in f.source and f.check != "defect-not-recorded"
    ]


@pytest.mark.parametrize(
    ("quantity", "place", "value", "verdict"),
    [
        ("back_to_back", "driver-1", "935 mm", "within"),
        ("back_to_back", "driver-1", "934.9 mm", "outside"),
        ("back_to_back", "driver-1", "941 mm", "within"),
        ("back_to_back", "driver-1", "37 1/16 in", "outside"),  # 941.3875 mm
        ("tire_thickness", "driver-1 left", "35 mm", "within"),  # 12 t: half way from 30 to 40 mm
        ("tire_thickness", "driver-1 left", "34.99 mm", "outside"),
        ("coupler_height", "engine", "699 mm", "outside"),
        ("coupler_height", "engine", "700 mm", "within"),
    ],
)
def test_a_limit_of_the_new_set_judges(quantity: str, place: str, value: str, verdict: str) -> None:
    outcome = run(reading(quantity, place, value))
    assert told(outcome, quantity) == [(verdict, f"e-1 {place}")]
    assert not [f for f in outcome.findings if "230." in f.source]


def test_a_sum_in_a_plane_of_its_own_judges() -> None:
    flanges = "".join(
        reading("flange_thickness", f"driver-1 {s}", "32 mm", "at the white line") for s in ("left", "right")
    )
    outcome = run(reading("back_to_back", "driver-1", "938 mm") + flanges)
    assert told(outcome, "over_flanges") == [("outside", "e-1 driver-1")]


@pytest.mark.parametrize(("height", "verdict"), [("31 mm", "outside"), ("30 mm", "within")])
def test_what_was_seen_and_what_was_read_judge_together(height: str, verdict: str) -> None:
    seen = "  - {looked_for: flange_chip, place: driver-1 left, answer: seen, length: 20 mm}\n"
    outcome = run(reading("flange_height", "driver-1 left", height), seen)
    assert told(outcome, "flange_chip") == [(verdict, "e-1 driver-1 left")]


@pytest.mark.parametrize(("traffic", "verdict"), [("mountain", Verdict.OUTSIDE), ("plain", Verdict.SUSPECT)])
def test_a_thing_seen_is_judged_where_the_set_says_so_and_else_watched(traffic: str, verdict: Verdict) -> None:
    outcome = run("", "  - {looked_for: rust_line, place: driver-1 left, answer: seen}\n", traffic)
    found = [f for f in outcome.findings if f.check == "seen-condemned"]
    assert [(f.verdict, f.severity) for f in found] == [
        (verdict, Severity.SHOP if verdict is Verdict.OUTSIDE else Severity.WATCH)
    ]


def test_a_fact_that_nobody_wrote_down_is_asked_for_by_name() -> None:
    outcome = run(reading("tire_thickness", "driver-1 left", "50 mm"), traffic="unknown")
    (found,) = (f for f in outcome.findings if f.quantity == "tire_thickness")
    assert found.cause == "not on record: traffic"
    assert found.next.startswith("Write `traffic` under `facets` in the engine's record")


def test_a_fact_that_has_a_place_of_its_own_is_asked_for_there() -> None:
    by_wheel = SET.replace("traffic: [mountain, plain]", "wheel_diameter: {{over: 700 mm}}")
    read = reading("tire_thickness", "driver-1 left", "50 mm")
    (found,) = (f for f in run(read, limits=by_wheel).findings if f.quantity == "tire_thickness")
    assert found.cause == "not on record: wheel diameter"
    assert found.next.startswith("Write a reading of `tread_diameter`")
    followed = read + reading("tread_diameter", "driver-1 left", "701 mm")
    assert told(run(followed, limits=by_wheel), "tire_thickness") == [("within", "e-1 driver-1 left")]


def test_a_set_that_decides_by_guard_band_may_be_undecided() -> None:
    read = reading("back_to_back", "driver-1", "941 mm").replace("values", "expanded_uncertainty: 0.2 mm, values")
    assert told(run(read), "back_to_back") == [("within", "e-1 driver-1")]
    assert told(run(read, decision="guard band"), "back_to_back") == [("undecided", "e-1 driver-1")]


def test_a_quantity_that_the_new_set_does_not_speak_of_is_not_assessed_once() -> None:
    outcome = run(reading("tread_hollow", "driver-1 left", "9 mm"))
    found: list[Any] = [f for f in outcome.findings if f.check == "tread-hollow"]
    assert [(f.verdict, f.cause) for f in found] == [
        (Verdict.NOT_ASSESSED, "no limit on file for tread worn hollow"),
    ]


def test_a_quantity_that_is_new_to_everyone_needs_a_line_of_vocabulary_and_a_limit() -> None:
    words = read_vocabulary()
    rivet = Word("rivet_height", "height of a rivet", dimension="length", of="engine", wear="lowers", positions="one")
    vocabulary = replace(words, quantities={**words.quantities, "rivet_height": rivet})
    limit = {
        "id": "low",
        "quantity": "rivet_height",
        "stage": "shop",
        "out_when": {"under": "1/4 in"},
        "clause": "art. 9",
    }
    read = [{"quantity": "rivet_height", "place": f"frame {side}", "values": {"worst": v}} for side, v in SIDES]
    trees: dict[str, dict[str, Any]] = {
        "ledger": {"kind": "ledger", "railway": "Test (invented)", "defaults": {"limit_sets": [{"set": "ours"}]}},
        "ours": {"kind": "limit-set", "source": {"title": "Ours"}, "decision": "as written", "limits": [limit]},
        "e-1": {"kind": "engine", "wheelsets": []},
        "i-1": {"kind": "inspection", "measured_on": "2026-01-10", "engine": "e-1", "readings": read},
    }
    records = [Record(id, f"{id}.yaml", tree) for id, tree in trees.items()]
    book = build_book(records, vocabulary, as_of=date(2026, 2, 28), today=date(2026, 3, 1))
    found = [(f.subject, str(f.verdict)) for f in limit_passed.check(book)]
    assert found == [("e-1 frame left", "outside"), ("e-1 frame right", "within")]


SIDES = (("left", "6.3 mm"), ("right", "6.35 mm"))
