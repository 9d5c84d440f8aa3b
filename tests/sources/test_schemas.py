"""What is wrong in a record: which check, where, in which words, and what of the record is still used."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.sources.reference import build_validator

from axlebook.sources import schemas
from axlebook.sources.schema_files import read_schemas
from axlebook.sources.schema_problems import Problem
from axlebook.sources.schemas import FOLDERS, judge, sound_part
from axlebook.sources.yaml_text import read_places, read_tree


def _samples() -> Any:
    spec = importlib.util.spec_from_file_location("samples", Path(__file__).with_name("samples.py"))
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


SAMPLES: dict[str, bytes] = _samples().SAMPLES
DRIVER, TIRE, INSPECTION, APPLIED, LIMITS, ENGINE = SAMPLES


def problems(path: str, written: str, instead: str) -> list[Problem]:
    """The problems of a sample in which one text was replaced; each must have a line of the file."""
    content = SAMPLES[path].replace(written.encode(), instead.encode(), 1)
    assert content != SAMPLES[path]
    places = read_places(content)
    found = judge(read_tree(content), path)
    assert all(problem.pointer in places for problem in found)
    return found


@pytest.mark.parametrize("path", SAMPLES)
def test_a_sample_is_clean_and_all_of_it_is_used(path: str) -> None:
    tree = read_tree(SAMPLES[path])
    assert judge(tree, path) == []
    assert sound_part(tree, []) is tree


CASES = [
    # sample, written, instead, check, place, part left out, words
    (INSPECTION, "2024-03-09\n", "3/14/2025\n", "not-a-date", "/measured_on", "", "Write 2025-03-14."),
    (INSPECTION, "2024-03-09\n", "2024-02-30\n", "not-a-date", "/measured_on", "", "no such day"),
    (INSPECTION, "2024-03-10", "2024-03", "not-a-date", "/signed/signed_on", "/signed", "the day is missing"),
    (INSPECTION, "measured_on: 2024-03-09\n", "", "missing-key", "", "", "`measured_on` is missing"),
    (INSPECTION, "73 mm", "73", "not-a-measure", "/readings/0/values/90 deg", "/readings/0/values/90 deg", "no unit"),
    (INSPECTION, "73 mm", "16-Jan", "not-a-measure", "/readings/0/values/90 deg", "/readings/0/values/90 deg",
     "a date"),
    (INSPECTION, "73 mm", "73 kg", "wrong-dimension", "/readings/0/values/90 deg", "/readings/0/values/90 deg",
     "a length is asked for, and this is a mass"),
    (INSPECTION, "2 29/32 in", "2 kg", "wrong-dimension", "/readings/0/values/270 deg/1",
     "/readings/0/values/270 deg", "this is a mass"),
    (INSPECTION, "2 29/32 in", "2 29/32", "not-a-measure", "/readings/0/values/270 deg/1",
     "/readings/0/values/270 deg", "no unit"),
    (INSPECTION, "11 degC", "11 mm", "wrong-dimension", "/setup/air_temperature", "/setup/air_temperature",
     "a temperature is asked for, and this is a length"),
    (INSPECTION, "11 degC", "under 11 degC", "not-a-measure", "/setup/air_temperature", "/setup/air_temperature",
     "one value is asked for, not an interval"),
    (INSPECTION, "under 0.0015 in", "", "blank-value", "/readings/2/values/0 deg", "/readings/2/values/0 deg",
     "nothing is written here"),
    (INSPECTION, "by: [foreman, v2]", "by: []", "blank-value", "/by", "/by", "list is empty"),
    (INSPECTION, "setup: {hold: on blocks, clock: 6 o'clock, air_temperature: 11 degC}", "setup: on blocks",
     "wrong-shape", "/setup", "/setup", "`setup` must be a group of names with values, not one value"),
    (INSPECTION, "engine: e-7", "engine: [e-7]", "wrong-shape", "/engine", "/engine", "one value, not a list"),
    (INSPECTION, "by: [foreman, v2]", "by: {who: v2}", "wrong-shape", "/by", "/by", "one value or a list"),
    (INSPECTION, "180 deg: 2.875", "3 o'clock: 2.875", "not-a-position", "/readings/0/values/3 o'clock#key",
     "/readings/0/values/3 o'clock", "no position round a wheel"),
    (INSPECTION, "flange_height", "flange_hieght", "unknown-word", "/readings/1/quantity", "/readings/1",
     "Write flange_height if that is meant."),
    (INSPECTION, "on blocks", "hung up", "unknown-word", "/setup/hold", "/setup/hold",
     "on blocks, loose on the rail or"),
    (INSPECTION, "tender-2 right", "R2", "not-a-place", "/readings/1/place", "/readings/1", "driver-2 right"),
    (INSPECTION, "part: t-612", "part: T 612", "not-a-part", "/readings/2/part", "/readings/2", "et-1 A"),
    (INSPECTION, "place: tender-2 right,", "place: tender-2 right, part: t-1,", "place-and-part", "/readings/1",
     "/readings/1", "A reading names a place or a part: one of them, not both."),
    (INSPECTION, "place: tender-2 right, ", "", "missing-key", "/readings/1", "/readings/1",
     "A reading names a place or a part: one of them, not both."),
    (INSPECTION, "part: d-2, of", "of", "missing-key", "/examinations/0", "/examinations/0", "An examination names"),
    (INSPECTION, "part: d-2-left, answer", "answer", "missing-key", "/observations/1", "/observations/1",
     "An observation names"),
    (INSPECTION, "with: gauge-3", "wiht: gauge-3", "unknown-key", "/readings/1/wiht#key", "/readings/1",
     "Write `with` if that is meant."),
    (INSPECTION, "purpose: annual", "weather: rain\npurpose: annual", "unknown-key", "/weather#key", "/weather",
     "Put it into `note`"),
    (INSPECTION, "with: gauge-3", "with: Gauge 3", "not-an-id", "/readings/1/with", "/readings/1", "Write gauge-3"),
    (INSPECTION, "[foreman, v2]", "[foreman, V 2]", "not-an-id", "/by/1", "/by/1", "Write v-2"),
    (INSPECTION, "count: 2", "count: two", "not-a-whole-number", "/observations/1/count", "/observations/1", "digits"),
    (INSPECTION, "kind: inspection", "kind: inspectoin", "unknown-kind", "/kind", "", "Write `kind: inspection`"),
    (INSPECTION, "kind: inspection\n", "", "unknown-kind", "", "", "`kind: inspection`"),
    (INSPECTION, "kind: inspection", "kind:", "unknown-kind", "/kind", "", "`kind: inspection`"),
    (INSPECTION, "kind: inspection", "kind: [inspection]", "unknown-kind", "/kind", "", "one word"),
    (APPLIED, '"13:09"', "789", "not-a-time", "/seating/seated", "/seating/seated", '"09:05"'),
    (APPLIED, "0.030 in", "0.030", "not-a-measure", "/shims/0/thickness", "/shims", "0.030 in or 0.030 mm"),
    (APPLIED, "over 375 degF", "over 375 in", "wrong-dimension", "/heat/1/read", "/heat/1", "a temperature is asked"),
    (DRIVER, "d-2-left:", "D 2 left:", "not-an-id", "/centers/D 2 left#key", "/centers/D 2 left", "Write d-2-left"),
    (DRIVER, "first_side: left", "first_side: north", "unknown-word", "/centers/d-2-left/first_side",
     "/centers/d-2-left", "left or right"),
    (LIMITS, "7/8 in", "7/8", "not-a-measure", "/limits/0/out_when/at_most", "/limits/0", "Or write table."),
    (LIMITS, "7/8 in", "7/8 lb", "wrong-dimension", "/limits/0/out_when/at_most", "/limits/0", "this is a mass"),
    (LIMITS, "7/8 in", "under 7/8 in", "not-a-measure", "/limits/0/out_when/at_most", "/limits/0", "not an interval"),
    (LIMITS, "track_gauge:", "trak_gauge:", "unknown-word", "/applies_to/trak_gauge#key", "", "track_gauge"),
    (LIMITS, "at_least: 30", "atleast: 30", "unknown-key", "/applies_to/track_gauge/atleast#key", "", "`at_least`"),
    (LIMITS, "31 service days", "31 in", "not-a-period", "/intervals/0/every", "/intervals/0",
     "no whole number of days, months, years or service days"),
    (ENGINE, "3 ft", "3", "not-a-measure", "/overrides/track_gauge", "", "no unit"),
    (ENGINE, "engine-truck-1", "Truck 1", "not-a-place", "/wheelsets/1/at", "/wheelsets/1", "engine-truck-1"),
]  # fmt: skip


@pytest.mark.parametrize(("path", "written", "instead", "check", "pointer", "out", "words"), CASES)
def test_a_fault_is_named_at_its_place_and_spoils_no_more_than_it_must(
    path: str, written: str, instead: str, check: str, pointer: str, out: str, words: str
) -> None:
    found = problems(path, written, instead)
    assert [(problem.check, problem.pointer, problem.left_out) for problem in found] == [(check, pointer, out)]
    assert words in f"{found[0].message} {found[0].next}"


def test_every_problem_is_worded_without_the_words_of_a_schema() -> None:
    for path, written, instead, *_ in CASES:
        for problem in problems(path, written, instead):
            said = f"{problem.message} {problem.next}".lower()
            assert not any(word in said for word in ("invalid", "schema", "property", "array", "string", "[a-z]"))


def test_a_checksum_that_is_none_is_named() -> None:
    tree = {"kind": "tire", "attachments": [{"file": "a.jpg", "sha256": "12ab"}, {"file": "b.jpg", "sha256": "0" * 64}]}
    (found,) = judge(tree, "tires/t-1.yaml")
    assert (found.check, found.pointer, found.left_out) == ("wrong-form", "/attachments/0/sha256", "/attachments/0")
    assert "SHA-256" in found.next


def test_a_record_in_the_wrong_folder_is_named_and_used() -> None:
    tree = read_tree(SAMPLES[TIRE])
    (found,) = judge(tree, "drivers/t-612.yaml")
    assert (found.check, found.pointer) == ("wrong-folder", "/kind")
    assert "`tires/`" in found.next
    assert sound_part(tree, [found]) == tree


def test_a_second_ledger_record_is_not_used() -> None:
    tree: dict[str, Any] = {"kind": "ledger", "railway": "An invented railway"}
    assert judge(tree, "ledger.yaml") == []
    found = judge(tree, "tires/ledger-2.yaml")
    assert [problem.check for problem in found] == ["wrong-folder"]
    assert sound_part(tree, found) is None


def test_every_kind_has_a_folder_and_every_folder_a_kind() -> None:
    assert set(FOLDERS) == set(read_schemas())


def test_an_entry_left_out_leaves_its_number_free() -> None:
    content = SAMPLES[INSPECTION].replace(b"flange_height", b"flange_hieght")
    tree = read_tree(content)
    sound = sound_part(tree, judge(tree, INSPECTION))
    assert sound is not None
    assert [entry and entry["quantity"] for entry in sound["readings"]] == ["tire_thickness", None, "register_gap"]
    assert tree["readings"][1] is not None, "the tree itself is not altered"


def test_a_reading_that_lost_its_only_value_is_left_out() -> None:
    tree = read_tree(SAMPLES[INSPECTION].replace(b"1 1/32 in", b"1 1/32"))
    sound = sound_part(tree, judge(tree, INSPECTION))
    assert sound is not None
    assert sound["readings"][1] is None


def test_a_reading_with_a_bad_temperature_of_its_own_does_not_take_that_of_its_record() -> None:
    tree = read_tree(SAMPLES[APPLIED].replace(b"61 degF", b"61"))
    sound = sound_part(tree, judge(tree, APPLIED))
    assert sound is not None
    assert sound["readings"] == [None]


def test_a_name_that_has_its_place_in_a_group_is_sent_there() -> None:
    tree = {"kind": "tire", "nominal_width": "5 3/4 in"}
    assert [p.next for p in judge(tree, "tires/t-1.yaml")] == ["Write it under `form:`, two spaces further in."]


def test_two_faults_in_one_record_are_both_named() -> None:
    tree = {"kind": "tire", "marcs": {}, "form": {"flange": "flangd"}}
    assert [(p.check, p.pointer) for p in judge(tree, "tires/t-1.yaml")] == [
        ("unknown-word", "/form/flange"), ("unknown-key", "/marcs#key")]  # fmt: skip


def test_two_missing_keys_are_both_named() -> None:
    found = judge({"kind": "correction", "record": "t-1"}, "corrections/c-1.yaml")
    assert [problem.message.split("`")[1] for problem in found] == ["corrected_on", "reason"]


def test_a_record_full_of_faults_is_cut_short_and_says_so() -> None:
    tree = {"kind": "inspection", "measured_on": "2024", "purpose": "annual", "readings": ["x"] * 5000}
    found = judge(tree, "inspections/2024/x.yaml")
    assert found[-1].check == "too-many-problems"
    assert len(found) == 51
    assert sound_part(tree, found) is None


@pytest.mark.parametrize("value", ["", "x", "x" * 100_000, [], [[]], {}, {"": ""}, {"~/": {"": [""]}}, "\x1b[31m", "½"])
@pytest.mark.parametrize("key", ["by", "readings", "setup", "note", "nothing", "", "measured_on", "attachments"])
def test_no_value_anywhere_breaks_the_judge(key: str, value: Any) -> None:
    tree = {"kind": "inspection", "measured_on": "2024", "purpose": "annual", key: value}
    found = judge(tree, "inspections/2024/x.yaml")
    assert all("\x1b" not in problem.message + problem.next for problem in found)
    assert all(len(problem.message) < 1000 for problem in found)
    sound = sound_part(tree, found)
    assert sound is None or isinstance(sound, dict)


# --- the memo ---------------------------------------------------------------------------------------------

TREES = {path: read_tree(content) for path, content in SAMPLES.items()}
VALIDATORS = {tree["kind"]: build_validator(read_schemas()[str(tree["kind"])]) for tree in TREES.values()}
ODD = ["", "yes", "no", "unknown", "none", "table", "driver", "t-1", "T 1", "2024", "2024-02-30", "3/14/2025", "10:48",
       "14",
       "1 in", "2.5 mm", "under 1 in", "350 to 375 degF", "11 degC", "1 lb", "3 spokes", "15 years", "0 deg",
       "0 deg inner",
       "worst", "driver-1 left", "et-1 A", "crack", "flat", "tire_bore", "role", "0" * 64, "01-31",
       "free words"]  # fmt: skip
KEYS = ["quantity", "place", "part", "values", "kind", "note", "by", "role", "track_gauge", "0 deg", "t-1", "at_most",
        "zzz"]  # fmt: skip
SCALARS = st.sampled_from(ODD)
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(KEYS), inner, max_size=3),
    max_leaves=4,
)


def _places(tree: Any, steps: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    inside = tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ()
    return [steps, *(place for step, value in inside for place in _places(value, (*steps, step)))]


def _mutated(tree: Any, steps: tuple[Any, ...], value: Any, key: str | None) -> Any:
    """The tree with one value replaced (None: taken away), or put under another key."""
    if not steps:
        return tree if value is None else value
    step, *rest = steps
    if isinstance(tree, list):
        new = None if value is None and not rest else _mutated(tree[step], tuple(rest), value, key)
        return [*tree[:step], *([] if new is None else [new]), *tree[step + 1 :]]
    if rest:
        return {**tree, step: _mutated(tree[step], tuple(rest), value, key)}
    others = {name: below for name, below in tree.items() if name != step}
    return others if value is None else {**others, key or step: value}


@settings(max_examples=400, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.data())
def test_the_memo_gives_the_verdict_of_the_whole_schema_and_the_sound_part_is_sound(data: st.DataObject) -> None:
    path = data.draw(st.sampled_from(sorted(TREES)))
    tree: Any = TREES[path]
    kind = str(tree["kind"])
    for _ in range(data.draw(st.integers(1, 3))):
        places = [place for place in _places(tree) if place and place != ("kind",)]
        place = data.draw(st.sampled_from(places))
        tree = _mutated(tree, place, data.draw(st.none() | VALUES), data.draw(st.none() | st.sampled_from(KEYS)))
        tree["kind"] = kind
    found = judge(tree, path)
    assert (found == []) is VALIDATORS[kind].is_valid(tree)
    sound = sound_part(tree, found)
    if sound is not None:
        assert judge(_without_holes(sound), path) == []


def _without_holes(tree: Any) -> Any:
    if isinstance(tree, list):
        return [_without_holes(item) for item in tree if item is not None]
    return {key: _without_holes(value) for key, value in tree.items()} if isinstance(tree, dict) else tree


def test_a_second_record_of_one_shape_does_not_meet_the_library_again(monkeypatch: pytest.MonkeyPatch) -> None:
    tree = read_tree(SAMPLES[TIRE])
    judge(tree, TIRE)
    monkeypatch.setattr(schemas._Judge, "judge_new", None)
    assert judge({**tree, "ordered": {**tree["ordered"], "for_center": "d-99-right"}}, TIRE) == []
