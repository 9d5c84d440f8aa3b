"""`enter` through a pipe: answers one a line; what ends early is kept; one new record and nothing else."""

from __future__ import annotations

import io
import json
import re
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from tests.cli.commands import TOP, Called, call, promised, small_ledger
from tests.cli.sheet_ledger import sheet_ledger

from axlebook.sources.schemas import judge
from axlebook.sources.yaml_text import read_tree

Enter = Callable[[Path, list[str], list[str]], Called]
HEADER = ["2026-01-10", "lead", "4", "6 o'clock", "54 degF", "54 degF", "-", "rule-1 gauge-1 micrometer-1", "in"]
PLAN = """kind: plan
purposes: [annual]
asks:
  - {quantity: tire_thickness, roles: [driver], positions: [0 deg, 180 deg], how: "Rule.", stage: asked}
  - {quantity: back_to_back, roles: [driver], positions: [0 deg, 120 deg, 240 deg], hold: on blocks, stage: asked}
  - {looked_for: flat, roles: [driver], stage: asked}
  - {quantity: piston_travel, positions: [worst], stage: asked}
"""
# driver-2: left wheel, the pair, right wheel
WHEELSET = ["2 7/16", "2 1/2", "no", "53.25 in", "53.251", "1352.5 mm", "62 mm", "2 1/2", "yes", "140", "1 1/4", ""]


@pytest.fixture
def ledger(tmp_path: Path) -> Path:
    root = small_ledger(tmp_path)
    for path in (root / "plans").iterdir():
        path.unlink()
    (root / "plans/own-annual.yaml").write_text(PLAN, encoding="utf-8")
    for id, quantity in (("rule-1", "tire_thickness"), ("micrometer-1", "back_to_back")):
        with open(root / f"instruments/{id}.yaml", "a", encoding="utf-8") as file:
            file.write(f"measures: [{quantity}]\n")
    return root


@pytest.fixture
def enter(monkeypatch: pytest.MonkeyPatch) -> Enter:
    def run(at: Path, arguments: list[str], answers: list[str]) -> Called:
        monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO("\n".join([*answers, ""]).encode())))
        return call("enter", *arguments, at=at)

    return run


def drafts(ledger: Path) -> list[Path]:
    return sorted((ledger / ".drafts").glob("*.jsonl"))


def records(ledger: Path) -> list[Path]:
    return sorted((ledger / "inspections").rglob("*.yaml")) if (ledger / "inspections").exists() else []


def test_a_wheelset_through_a_pipe_is_one_sound_record(ledger: Path, enter: Enter) -> None:
    called = enter(ledger, ["d-2", "--purpose", "annual"], [*HEADER, *WHEELSET, "w"])
    assert called.code == 0, called.err
    assert called.out == "inspections/2026/2026-01-10-d-2-annual.yaml\n"
    content = (ledger / called.lines[0]).read_bytes()
    tree = read_tree(content)
    assert judge(tree, called.lines[0]) == []
    assert tree == {
        "kind": "inspection", "measured_on": "2026-01-10", "engine": "e-1", "purpose": "annual", "by": ["lead"],
        "setup": {"hold": "under the engine", "clock": "6 o'clock", "air_temperature": "54 degF",
                  "part_temperature": "54 degF"},
        "instruments": ["micrometer-1", "rule-1"],
        "readings": [
            {"quantity": "tire_thickness", "place": "driver-2 left", "with": "rule-1",
             "values": {"0 deg": "2 7/16 in", "180 deg": "2 1/2 in"}},
            {"quantity": "back_to_back", "place": "driver-2", "with": "micrometer-1",
             "values": {"0 deg": "53.25 in", "120 deg": "53.251 in", "240 deg": "1352.5 mm"}},
            {"quantity": "tire_thickness", "place": "driver-2 right", "with": "rule-1",
             "values": {"0 deg": "62 mm", "180 deg": "2 1/2 in"}},
        ],
        "observations": [
            {"looked_for": "flat", "place": "driver-2 left", "answer": "not seen"},
            {"looked_for": "flat", "place": "driver-2 right", "answer": "seen", "angle": "140 deg",
             "length": "1 1/4 in"},
        ],
    }  # fmt: skip
    first = content.decode().splitlines()[0]
    assert first.startswith("# yaml-language-server: $schema=")
    assert not drafts(ledger)


def test_the_record_is_shown_before_it_is_written_and_the_git_lines_after(ledger: Path, enter: Enter) -> None:
    called = enter(ledger, ["d-2", "--purpose", "annual"], [*HEADER, *WHEELSET, "w"])
    shown, _, after = called.err.partition("w write, b back")
    assert "The record as it will be written:" in shown
    assert "      180 deg: 2 1/2 in" in shown
    assert "safe on this disk, with or without git" in after


def test_the_plan_s_hold_is_told_where_the_pair_is_held_another_way(ledger: Path, enter: Enter) -> None:
    called = enter(ledger, ["d-2", "--purpose", "annual"], [*HEADER, *WHEELSET, "w"])
    assert "The plan wants it on blocks; you said under the engine." in called.err


def test_a_pipe_that_ends_early_keeps_the_draft_and_says_so(ledger: Path, enter: Enter) -> None:
    called = enter(ledger, ["d-2", "--purpose", "annual"], [*HEADER, *WHEELSET[:4]])
    assert (called.code, called.out) == (2, "")
    assert "the answers ended early. 14 answers are kept as a draft; no record was written." in called.err
    assert "axlebook enter d-2 --purpose annual --resume" in called.err
    assert (len(drafts(ledger)), records(ledger)) == (1, [])
    again = enter(ledger, ["d-2", "--purpose", "annual", "--resume"], [*WHEELSET[4:], "w"])
    assert again.code == 0, again.err
    assert (drafts(ledger), len(records(ledger))) == ([], 1)


def test_what_to_type_to_go_on_names_the_ledger_once_outside_of_it(ledger: Path, enter: Enter) -> None:
    asked = ["d-2", "--purpose", "annual", "--ledger", ledger.name]
    ended = " ".join(enter(ledger.parent, asked, [*HEADER, "2 7/16"]).err.split())
    left = " ".join(enter(ledger.parent, [*asked, "--resume"], ["q"]).err.split())
    for said in (ended, left):
        assert f"axlebook enter --ledger {ledger.name} d-2 --purpose annual --resume" in said


def test_resume_alone_goes_on_with_the_last_draft(ledger: Path, enter: Enter) -> None:
    enter(ledger, ["d-2", "--purpose", "annual"], [*HEADER, *WHEELSET[:4]])
    assert enter(ledger, ["--resume"], [*WHEELSET[4:], "w"]).code == 0


def test_stopping_keeps_the_draft_and_is_no_fault(ledger: Path, enter: Enter) -> None:
    called = enter(ledger, ["d-2", "--purpose", "annual"], [*HEADER, "2 7/16", "q"])
    assert called.code == 0
    assert "are kept as a draft; no record was written" in called.err
    assert "  axlebook enter d-2 --purpose annual --resume" in called.err.splitlines()  # whole, to be copied


def test_help_at_a_box_says_of_how_much_a_reason_is(ledger: Path, enter: Enter) -> None:
    said = " ".join(enter(ledger, ["d-2", "--purpose", "annual"], [*HEADER, "?", "q"]).err.split())
    assert "n here ... the same at every position here, n all ... on every wheel still open" in said


@pytest.mark.parametrize("answers", [["q"], []])
def test_where_nothing_was_answered_no_draft_is_kept(ledger: Path, enter: Enter, answers: list[str]) -> None:
    called = enter(ledger, ["d-2", "--purpose", "annual"], answers)
    assert called.code == (0 if answers else 2)
    assert "Nothing was answered: no draft is kept, and no record was written." in called.err
    assert not drafts(ledger)


def test_a_line_cut_by_a_power_failure_costs_that_line_only(ledger: Path, enter: Enter) -> None:
    enter(ledger, ["d-2", "--purpose", "annual"], [*HEADER, *WHEELSET[:4]])
    draft = drafts(ledger)[0]
    draft.write_bytes(draft.read_bytes()[:-20])
    called = enter(ledger, ["--resume"], [*WHEELSET[3:], "w"])
    assert called.code == 0, called.err
    assert "53.25 in" in records(ledger)[0].read_text(encoding="utf-8")


def test_a_record_whose_draft_a_power_cut_left_is_not_written_twice(ledger: Path, enter: Enter) -> None:
    enter(ledger, ["d-2", "--purpose", "annual"], [*HEADER, *WHEELSET])
    left = {path: path.read_bytes() for path in drafts(ledger)}
    enter(ledger, ["--resume"], ["w"])
    for path, content in left.items():
        path.write_bytes(content)
    called = enter(ledger, ["--resume"], ["w"])
    assert called.out == "inspections/2026/2026-01-10-d-2-annual.yaml\n"
    assert "was written already" in called.err
    assert (len(records(ledger)), drafts(ledger)) == (1, [])


def test_an_answer_is_on_the_disk_before_the_next_question(ledger: Path, enter: Enter) -> None:
    enter(ledger, ["d-2", "--purpose", "annual"], [*HEADER, "2 7/16"])
    last = json.loads(drafts(ledger)[0].read_text(encoding="utf-8").splitlines()[-1])
    assert last == {
        "slot": ["tire_thickness", "driver-2 left", "0 deg"],
        "is": {"value": "2 7/16 in", "instrument": "rule-1"},
    }


def test_the_next_record_of_a_day_gets_a_number_and_the_first_stays_as_it_is(ledger: Path, enter: Enter) -> None:
    enter(ledger, ["d-2", "--purpose", "annual"], [*HEADER, *WHEELSET, "w"])
    was = records(ledger)[0].read_bytes()
    called = enter(ledger, ["d-2", "--purpose", "annual"], [*HEADER, *WHEELSET, "w"])
    assert called.out == "inspections/2026/2026-01-10-d-2-annual-2.yaml\n"
    assert (ledger / "inspections/2026/2026-01-10-d-2-annual.yaml").read_bytes() == was


def test_a_file_that_took_the_name_meanwhile_is_not_written_over(ledger: Path, enter: Enter) -> None:
    taken = ledger / "inspections/2026/2026-01-10-d-2-annual.yaml"
    taken.parent.mkdir(parents=True)
    taken.write_bytes(b"half a record: {")
    called = enter(ledger, ["d-2", "--purpose", "annual"], [*HEADER, *WHEELSET, "w"])
    assert called.out == "inspections/2026/2026-01-10-d-2-annual-2.yaml\n"
    assert taken.read_bytes() == b"half a record: {"


def test_an_engine_is_walked_from_the_front_and_its_own_places_come_last(ledger: Path, enter: Enter) -> None:
    called = enter(ledger, ["e-1", "--purpose", "annual"], [*HEADER, *["n here no time"] * 11, "w"])
    asked = [line for line in called.err.splitlines() if " of 19. " in line]
    assert asked[0].startswith("1 of 19. e-1 driver-1 left, tire thickness, 0 deg.")
    order = [line.split("e-1 ")[1].split(",")[0] for line in asked]
    assert "e-1 engine, brake piston travel, worst: read with which instrument?" in called.err
    assert list(dict.fromkeys(order)) == [
        "driver-1 left", "driver-1", "driver-1 right", "driver-2 left", "driver-2", "driver-2 right",
    ]  # fmt: skip


def test_a_tire_by_itself_is_asked_what_the_plan_for_receiving_says(ledger: Path, enter: Enter) -> None:
    (ledger / "plans/own-receiving.yaml").write_text(
        "kind: plan\npurposes: [receiving]\nasks:\n  - {quantity: tire_thickness, positions: [0 deg]}\n"
        "  - {quantity: back_to_back, positions: [0 deg]}\n",
        encoding="utf-8",
    )
    (ledger / "tires/t-9.yaml").write_text("kind: tire\n", encoding="utf-8")
    called = enter(ledger, ["t-9", "--purpose", "receiving"], ["2026-01-10", *HEADER[1:], "3 in", "w"])
    assert called.code == 0, called.err
    tree = read_tree((ledger / called.lines[0]).read_bytes())
    assert "engine" not in tree
    assert tree["readings"] == [
        {"quantity": "tire_thickness", "part": "t-9", "with": "rule-1", "values": {"0 deg": "3 in"}}
    ]


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ([], "name what is measured"),
        (["d-22"], "Did you mean d-2?"),
        (["lead"], "there is no engine, wheelset, center or tire 'lead'"),
        (["d-2", "--purpose", "yearly"], "no plan is for 'yearly'"),
        (["d-2", "--resume"], "there is no draft to go on with"),
        (["et-1", "--purpose", "annual"], "no plan asks anything of et-1"),
    ],
)
def test_what_cannot_be_entered_is_said_in_a_sentence(
    ledger: Path, enter: Enter, arguments: list[str], words: str
) -> None:  # fmt: skip
    called = enter(ledger, arguments, [])
    assert called.code == 2
    assert words in called.err
    assert not drafts(ledger)


def test_signs_that_would_move_a_terminal_or_are_no_text_are_never_kept(ledger: Path, enter: Enter) -> None:
    answers = [*HEADER, "2 7/16\x1b[2J", "n \x1b]0;x\x07gear in the way\u202e", "e", "w"]
    called = enter(ledger, ["d-2", "--purpose", "annual"], answers)
    assert called.code == 0, called.err
    assert "\x1b" not in called.err
    note = str(read_tree((ledger / called.lines[0]).read_bytes())["not_measured"][0]["note"])  # type: ignore[index,call-overload]
    assert "gear in the way" in note
    assert note.isprintable()


def test_on_a_ledger_made_by_init_the_whole_way_can_be_gone(tmp_path: Path, enter: Enter) -> None:
    assert call("init", "book", at=tmp_path).code == 0
    root = tmp_path / "book"
    (root / "engines/e-5.yaml").write_text(
        "kind: engine\nnumber: '5'\nwheelsets:\n  - {at: driver-1, wheelset: d-1, from: 2020-01-01}\n", encoding="utf-8"
    )
    (root / "drivers/d-1.yaml").write_text(
        "kind: driver\naxle: {main: yes}\ncenters:\n  d-1-left: {first_side: left}\n  d-1-right: {first_side: right}\n",
        encoding="utf-8",
    )
    # nobody and no instrument is on record yet: both are named twice
    header = ["2026-01-10", "annual", "jo", "jo", "4", "-", "-", "-", "-", "rule", "rule", "in"]
    called = enter(root, ["d-1"], [*header, "e", "w", "b", "n no time", "e", "w"])
    assert called.code == 0, called.err
    assert "there is nothing to write" in called.err
    assert judge(read_tree((root / called.lines[0]).read_bytes()), called.lines[0]) == []
    assert (root / ".gitignore").read_text(encoding="utf-8").count(".drafts/") == 1


def test_what_was_kept_with_a_reason_at_the_wheel_is_not_asked_about_again_by_check(
    tmp_path: Path, enter: Enter
) -> None:
    root = tmp_path / "book"
    shutil.copytree(TOP / "demo-ledger", root)
    header = ["2026-02-27", "lead", "4", "6 o'clock", "45 degF", "45 degF", "45 degF", "rule-1", "in"]
    answers = ["2 3/16", "k", "a sliver is out of the tread there", "2 13/16", "2 13/16", "2 13/16", "e", "w"]
    called = enter(root, ["d-2", "--purpose", "annual"], [*header, *answers])
    assert called.code == 0, called.err
    assert called.err.count("UNLIKELY.") == 1
    text = (root / called.lines[0]).read_text(encoding="utf-8")
    assert 'reason_kept: "a sliver is out of the tread there"' in text
    told = promised(call("check", called.lines[0], "--format", "json", at=root).out)
    assert [f["check"] for f in told["findings"] if f["verdict"] == "suspect"] == []


def _as_last_time(printed: list[dict[str, Any]]) -> tuple[list[dict[str, Any]], list[str]]:
    """The boxes that are asked one by one, and their answers: what was read last; a quantity never read is skipped."""
    asked, answers, skipped = [], [], set()
    for box in printed:
        question = box["what"], box["where"]
        if question not in skipped:
            plain = box["last"] if not box["last_in_doubt"] else ""
            asked.append(box)
            answers.append(plain or "s")
            skipped |= {question} if not plain else set()
    return asked, answers


def test_each_question_tells_the_last_reading_and_the_range_that_the_sheet_of_that_day_prints(
    tmp_path: Path, enter: Enter
) -> None:
    root = tmp_path / "book"
    shutil.copytree(TOP / "demo-ledger", root)
    sheet = call("sheet", "d-2", "--as-of", "2026-02-28", "--format", "json", at=root)
    asked, answers = _as_last_time(promised(sheet.out)["result"]["rows"])
    said = enter(root, ["d-2", "--purpose", "annual"], ["2026-02-28", "lead", *["-"] * 7, *answers]).err.splitlines()
    prompts = [line for line in said if re.match(r"\d+ of 44\. ", line)]
    assert len(prompts) == len(asked)
    for box, prompt in zip(asked, prompts, strict=True):
        assert box["where"] in prompt
        tells = f"Expect {box['expected']}" if box["expected"] else ""
        assert tells in prompt
        assert ("Expect " in prompt) is bool(tells)
        if box["last"]:
            assert f"Last time {box['last']} on {box['last_on']}" in prompt
            assert ("IN DOUBT" in prompt) is box["last_in_doubt"]
    assert sum(bool(box["expected"]) for box in asked) >= 8


@pytest.mark.parametrize(("instrument", "told"), [("rule-1", ""), ("", " with rule-1")])
@pytest.mark.parametrize(
    ("read", "is_unlikely"),
    [("2 27/32 in", False), ("2 29/32 in", False), ("2 13/16 in", True), ("2 15/16 in", True)],
)
def test_what_lies_within_the_range_told_is_not_asked_about_and_what_lies_beyond_it_is(
    tmp_path: Path, enter: Enter, read: str, is_unlikely: bool, instrument: str, told: str
) -> None:
    root = sheet_ledger(tmp_path)
    header = ["2026-02-20", "lead", "4", "-", "-", "-", "-", "rule-1", "-"]
    called = enter(root, ["d-2", "--purpose", "yearly"], [*header, instrument, read])
    assert f"Expect 2 27/32 to 2 29/32 in{told}." in called.err
    assert ("UNLIKELY." in called.err) is is_unlikely
    assert ("k keep, r re-measure, s skip" in called.err) is is_unlikely


def test_of_a_card_typed_in_late_no_range_is_told_where_it_was_read_since(tmp_path: Path, enter: Enter) -> None:
    root = sheet_ledger(tmp_path)
    called = enter(root, ["d-2", "--purpose", "yearly"], ["2025-06-01", "lead", *["-"] * 5, "rule-1", "-", "-"])
    assert "Last time 2 29/32 in on 2025-01-10." in called.err
    assert "Expect" not in called.err


@pytest.mark.parametrize("told", [["rule-1", "in", "rule-1"], ["-", "in"]])
@pytest.mark.parametrize(("again", "is_kept"), [("2 3/8 in", False), ("72 in", False), ("2 1/2 in", True)])
def test_an_unlikely_reading_is_kept_for_a_second_one_only_if_the_two_are_near_each_other(
    tmp_path: Path, enter: Enter, again: str, is_kept: bool, told: list[str]
) -> None:
    root = sheet_ledger(tmp_path)
    header = ["2026-02-20", "lead", "4", "-", "-", "-", "-", *told]
    called = enter(root, ["d-2", "--purpose", "yearly"], [*header, "2 1/2 in", "k", again, "", "q"])
    assert (f"Kept: read again: {again}" in called.err) is is_kept
    refused = f"2 1/2 in and {again} are too far apart for one to bear the other out."
    assert (refused in called.err) is not is_kept


def test_a_second_reading_by_the_same_people_that_the_instrument_does_not_explain_is_asked_about(
    tmp_path: Path, enter: Enter
) -> None:
    rule = 'kind: instrument\ntype: rule\nresolution: 1/32 in\nexpanded_uncertainty: 1/32 in\ncoverage_factor: "2"\n'
    root = sheet_ledger(tmp_path, {"instruments/rule-1.yaml": rule})
    header = ["2026-02-20", "lead", "4", "-", "-", "-", "-", "rule-1", "in", "rule-1"]
    called = enter(root, ["d-2", "--purpose", "yearly"], [*header, "2 27/32 in", "2nd 2 31/32 in", "", "q"])
    assert "2 27/32 in and 2 31/32 in, 1/8 in (3.175 mm) apart." in " ".join(called.err.split())
    assert "k keep, r re-measure, s skip" in called.err
