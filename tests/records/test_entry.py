"""Guided entry without a terminal: answers in, events, words and the record out. The judge is a stand-in."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from fractions import Fraction
from typing import Any

import pytest

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.records.entry.header import Known
from axlebook.records.entry.machine import Step, answer
from axlebook.records.entry.question import Earlier, Expected, Question, Size, Slot
from axlebook.records.entry.record import new_id
from axlebook.records.entry.state import State, fold
from axlebook.records.entry.walk import Setting, asked_now, draft_of, tally
from axlebook.records.entry.words import prompt

KNOWN = Known(
    date(2026, 3, 7), ("lead", "v3", "v5"), ("rule-1", "gauge-1", "gauge-2"),
    {"rule-1": ("tire_thickness",), "gauge-1": ("flange_height",), "gauge-2": ("flange_height",)},
    ("in the lathe", "on blocks", "loose on the rail", "under the engine"), ("annual", "daily"),
    ("no access", "no instrument", "no time", "too hot", "dirty", "not applicable", "other"),
)  # fmt: skip
THICK = Question(
    "tire_thickness", "tire thickness", "length", "driver-1 left", positions=("0 deg", "180 deg"),
    how="Rule, square to the tread.", least_count="1/32 in", earlier=(Earlier("0 deg", "2 3/4 in", "2025-02-08"),),
)  # fmt: skip
OTHER = Question("tire_thickness", "tire thickness", "length", "driver-1 right", positions=("0 deg",))
HEIGHT = Question("flange_height", "flange height", "length", "driver-1 left", positions=("worst",))
FLAT = Question(
    "flat", "flat spot", "", "driver-1 left",
    sizes=(Size("angle", "angle", "angle"), Size("length", "length of a flat", "length")),
)  # fmt: skip
HEADER = ["", "annual", "lead, v3", "under", "6 o'clock", "54 degF", "54 degF", "", "rule-1, gauge-1, gauge-2", "in"]


def finding(pointer: str, check: str, verdict: Verdict, message: str = "It is thick.") -> Finding:
    return Finding(check, verdict, Severity.DATA if verdict is Verdict.SUSPECT else Severity.CONDEMNING, "e-1",
                   Place("inspections/x.yaml", pointer), message, (), "book 7", "Measure again.",
                   where=pointer)  # fmt: skip


def judge(tree: Mapping[str, Any]) -> Sequence[Finding]:
    """Over 3 in is unlikely unless kept; under 2 in is outside; two readers who differ by 1 in disagree."""
    found: list[Finding] = []
    for index, reading in enumerate(tree.get("readings", ())):
        for position, value in reading["values"].items():
            at = f"/readings/{index}/values/{position}"
            for text in [value] if isinstance(value, str) else value:
                if text.startswith(("3", "4")) and "reason_kept" not in reading:
                    found.append(finding(at, "metal-added", Verdict.SUSPECT))
                if text.startswith("1 1/4"):
                    found.append(finding(at, "tire-thin", Verdict.OUTSIDE, "It is thin."))
                if text.startswith("2"):
                    found.append(finding(at, "tire-thin", Verdict.WITHIN, ""))
    return found


SETTING = Setting(KNOWN, lambda header: (THICK, OTHER, HEIGHT, FLAT), judge, "e-1", frozenset({"metal-added"}))


def after(*answers: str, setting: Setting = SETTING, state: State | None = None) -> Step:
    """The last step of some answers; what a draft would keep gives the same state again."""
    step = Step(state or State())
    events: list[Mapping[str, Any]] = list(step.state.log)
    for one in answers:
        step = answer(setting, step.state, one)
        events += step.events
        kept = fold(json.loads(json.dumps(events)))
        assert (kept.header, dict(kept.boxes), kept.instruments) == (
            step.state.header, dict(step.state.boxes), step.state.instruments,
        )  # fmt: skip
    return step


def at_the_wheel(*answers: str) -> Step:
    return after(*HEADER, *answers)


def words(step: Step) -> str:
    return " | ".join(f"{one.kind}: {one.text}" for one in step.said)


def record(step: Step) -> dict[str, Any]:
    return draft_of(SETTING, step.state).tree


def test_an_answer_that_no_plan_asks_for_any_more_is_told_at_the_end() -> None:
    step = at_the_wheel("2 3/4", "2 11/16", "2 1/2")
    setting = replace(SETTING, questions=lambda header: (OTHER, HEIGHT))
    left, told = prompt(setting, replace(step.state, mode="review")).details
    assert left == "Open: 2."
    assert told == (
        "NOT in the record, since no plan asks for it on this day and occasion: driver-1 left tire thickness 0 deg; "
        "driver-1 left tire thickness 180 deg. Write it down elsewhere."
    )
    assert prompt(SETTING, replace(step.state, mode="review")).details == ("Open: 4-5.",)


# -- a box again ---------------------------------------------------------------------------------------------------


def test_a_box_is_answered_again_by_its_number_and_what_came_after_it_stays() -> None:
    step = at_the_wheel("2 3/4", "2 11/16", "2 1/2", "r 1")
    assert asked_now(SETTING, step.state).slot == Slot("tire_thickness", "driver-1 left", "0 deg")
    assert prompt(SETTING, step.state).heading.startswith("1 of 5. ")
    step = after("2 25/32", state=step.state)
    assert record(step)["readings"][0]["values"] == {"0 deg": "2 25/32 in", "180 deg": "2 11/16 in"}
    assert prompt(SETTING, step.state).heading.startswith("Box 4, e-1 driver-1 left, flange height")


def test_one_box_of_a_quantity_that_was_excused_is_opened_alone() -> None:
    step = at_the_wheel("n here too hot", "r 2")
    assert words(step) == "note: Box 2 again; until now: not measured, too hot. u puts that back."
    assert asked_now(SETTING, step.state).slot == Slot("tire_thickness", "driver-1 left", "180 deg")
    assert record(step)["not_measured"] == [
        {"quantity": "tire_thickness", "places": ["driver-1 left"], "positions": ["0 deg"], "because": "too hot"}
    ]


def test_a_box_asked_for_by_its_number_is_asked_though_an_earlier_one_is_open() -> None:
    step = at_the_wheel("n no time", "2 11/16", "r 1", "r 2")
    assert asked_now(SETTING, step.state).slot == Slot("tire_thickness", "driver-1 left", "180 deg")
    assert asked_now(SETTING, fold(json.loads(json.dumps(step.state.log)))).slot == asked_now(SETTING, step.state).slot
    step = after("2 3/4", state=step.state)
    assert asked_now(SETTING, step.state).slot == Slot("tire_thickness", "driver-1 left", "0 deg")


def test_what_is_seen_at_a_box_asked_again_is_told_its_size_before_another_box_is_asked() -> None:
    step = at_the_wheel(*TO_THE_FLAT, "no", "r 1", "r 5", "yes")
    assert prompt(SETTING, step.state).asks == "angle"
    assert asked_now(SETTING, step.state).slot == Slot("flat", "driver-1 left", "")


def test_a_box_is_answered_again_from_the_end_too() -> None:
    step = at_the_wheel("2 3/4", "e", "r1")
    assert asked_now(SETTING, step.state).slot == Slot("tire_thickness", "driver-1 left", "0 deg")


@pytest.mark.parametrize("typed", ["r 2", "r 0", "r 99"])
def test_a_box_that_is_not_answered_yet_is_not_opened(typed: str) -> None:
    step = at_the_wheel("2 3/4", typed)
    assert (step.said[0].kind, step.events) == ("no", ())


def test_an_undo_fills_the_box_again() -> None:
    step = at_the_wheel("2 3/4", "2 11/16", "r 1", "u")
    assert record(step)["readings"][0]["values"] == {"0 deg": "2 3/4 in", "180 deg": "2 11/16 in"}


# -- the second person's reading ------------------------------------------------------------------------------------


def test_the_second_person_s_reading_stands_beside_the_first_as_a_reading_of_theirs() -> None:
    step = at_the_wheel("2 3/4", "2nd 2 25/32")
    assert prompt(SETTING, step.state).asks == "Who took the second reading"
    step = after("v5", state=step.state)
    assert words(step) == "echo: 2 25/32 in (70.644 mm), the second reading by v5"
    assert record(step)["readings"] == [
        {"quantity": "tire_thickness", "place": "driver-1 left", "with": "rule-1", "values": {"0 deg": "2 3/4 in"}},
        {"quantity": "tire_thickness", "place": "driver-1 left", "with": "rule-1", "by": ["v5"],
         "values": {"0 deg": "2 25/32 in"}},
    ]  # fmt: skip
    assert asked_now(SETTING, step.state).slot == Slot("tire_thickness", "driver-1 left", "180 deg")


def test_who_took_the_second_readings_is_asked_once() -> None:
    step = at_the_wheel("2 3/4", "2nd 2 25/32", "v5", "2 3/4", "second 2 3/4")
    assert [one.get("by") for one in record(step)["readings"]] == [None, ["v5"], None, ["v5"]]


def test_a_second_reading_by_the_same_people_is_one_reading_of_two_values() -> None:
    step = at_the_wheel("2 3/4", "2nd 2 25/32", "")
    assert record(step)["readings"][0]["values"] == {"0 deg": ["2 3/4 in", "2 25/32 in"]}


def test_a_second_reading_that_is_unlikely_beside_the_first_is_asked_about() -> None:
    step = at_the_wheel("2 3/4", "2nd 3 3/4", "v5")
    assert [one.kind for one in step.said] == ["echo", "unlikely"]
    assert prompt(SETTING, step.state).heading == "e-1 driver-1 left, tire thickness, 0 deg: unlikely."
    assert record(after("r", state=step.state)).get("readings") is None


def test_an_undo_takes_the_second_reading_back() -> None:
    step = at_the_wheel("2 3/4", "2nd 2 25/32", "v5", "u")
    assert record(step)["readings"] == [
        {"quantity": "tire_thickness", "place": "driver-1 left", "with": "rule-1", "values": {"0 deg": "2 3/4 in"}}
    ]


@pytest.mark.parametrize(
    ("answers", "why"),
    [
        (["2nd 2 3/4"], "typed right after the first one"),
        (["2 3/4", "2nd"], "Write it behind the word: 2nd 1/32 in."),
        (["2 3/4", "2nd 2,75"], "comma"),
        (["2 3/4", "2nd 5 kg"], "is a mass"),
        (["2 3/4", "2nd 2 3/4", "v5", "2nd 2 3/4"], "its second reading already"),
        (["2 3/4", "n too hot", "2nd 2 3/4"], "typed right after the first one"),
    ],
)
def test_a_second_reading_of_nothing_or_of_no_figure_is_refused(answers: list[str], why: str) -> None:
    step = at_the_wheel(*answers)
    assert (step.said[0].kind, step.events) == ("no", ())
    assert why in step.said[0].text


def test_a_second_reader_without_a_record_is_taken_when_named_twice() -> None:
    step = at_the_wheel("2 3/4", "2nd 2 25/32", "v9", "v9")
    assert record(step)["readings"][1]["by"] == ["v9"]


# -- before the walk ----------------------------------------------------------------------------------------------


def test_what_is_asked_first_is_day_occasion_who_hold_temperatures_and_instruments() -> None:
    tree = record(at_the_wheel("2 3/4"))
    assert tree["measured_on"] == "2026-03-07"
    assert (tree["engine"], tree["purpose"], tree["by"]) == ("e-1", "annual", ["lead", "v3"])
    assert tree["setup"] == {
        "hold": "under the engine", "clock": "6 o'clock", "air_temperature": "54 degF", "part_temperature": "54 degF",
    }  # fmt: skip
    assert tree["instruments"] == ["rule-1"]


@pytest.mark.parametrize(
    ("answers", "why"),
    [
        (["7/3/2026"], "Write 2026-07-03 or 2026-03-07, whichever is meant."),
        (["2026-03-08"], "is not yet here"),
        (["", ""], "This is needed"),
        (["", "yearly"], "is no purpose"),
        (["", "annual", "v9"], "No person v9 is on record"),
        (["", "annual", "Lead!"], "cannot be a name"),
        (["", "annual", "-", "hanging"], "is no way to hold"),
        (["", "annual", "-", "-", "-", "54"], "54 F or 54 C"),
        (["", "annual", "-", "-", "-", "54 in"], "degF"),
        (["", "annual", "-", "-", "60"], "is no hour of the clock"),
        (["", "annual", "-", "-", "23/8"], "is no hour of the clock"),
        (["", "annual", "-", "-", "e"], "is for the boxes"),
        (["", "annual", "n no time"], "is for the boxes"),
        (["", "annual", "r 3"], "is for the boxes"),
        (["", "s"], "This is needed"),
    ],
)
def test_what_is_no_answer_before_the_walk_is_asked_again(answers: list[str], why: str) -> None:
    step = after(*answers)
    assert (step.said[0].kind, step.events) == ("no", ())
    assert why in step.said[0].text


@pytest.mark.parametrize(
    ("answers", "key", "kept"),
    [
        (["", "ann"], "purpose", "annual"),
        (["", "annual", "1 3"], "by", "lead, v5"),
        (["", "annual", "Lead, V3"], "by", "lead, v3"),
        (["", "annual", "-", "rail"], "hold", "loose on the rail"),
        (["", "annual", "-", "-", "s"], "clock", ""),
        (["", "annual", "-", "-", "6"], "clock", "6 o'clock"),
        (["", "annual", "-", "-", "3 oclock"], "clock", "3 o'clock"),
        (["", "annual", "-", "-", "level with the axle", "level with the axle"], "clock", "level with the axle"),
        (["", "annual", "-", "-", "-", "skip"], "air_temperature", ""),
        (["", "annual", "-", "-", "-", "54F"], "air_temperature", "54 degF"),
        (["", "annual", "-", "-", "-", "12.5 °C"], "air_temperature", "12.5 degC"),
        (["", "annual", "-", "-", "-", "-5 f"], "air_temperature", "-5 degF"),
        (["", "annual", *["-"] * 6, "1, Gauge-2"], "instruments", "rule-1, gauge-2"),
        (["", "annual", *["-"] * 7, "inch"], "unit", "in"),
        (["", "annual", *["-"] * 7, "2"], "unit", "mm"),
    ],
)
def test_what_is_typed_in_a_hurry_is_understood_where_it_can_mean_one_thing_only(
    answers: list[str], key: str, kept: str
) -> None:
    assert after(*answers).state.header[key] == kept


def test_a_temperature_without_a_scale_is_asked_again() -> None:
    assert "air_temperature" not in after("", "annual", "-", "-", "-", "54").state.header


def test_enter_alone_at_a_reading_is_no_answer_and_what_may_be_typed_is_told() -> None:
    step = at_the_wheel("")
    assert words(step) == (
        "no: Nothing was typed, and a blank is never read as good. s skip, n not measured because ..., ? help."
    )


def test_what_is_asked_only_if_it_can_be_had_says_so() -> None:
    setting = replace(SETTING, questions=lambda header: (replace(THICK, wanted=True), replace(FLAT, wanted=True)))
    assert prompt(setting, after(*HEADER, setting=setting).state).details[0].startswith("If you can.")
    assert "If you can." in prompt(setting, after(*HEADER, "s", setting=setting).state).details[0]


def test_a_person_without_a_record_is_taken_when_named_twice() -> None:
    step = after("", "annual", "v9", "v9")
    assert step.state.header["by"] == "v9"


def test_what_cannot_be_a_name_is_not_taken_however_often_it_is_typed() -> None:
    step = after("", "annual", "v9 7_0", "v9 7_0")
    assert "'7_0' cannot be a name here" in step.said[0].text
    assert "by" not in step.state.header


MANY = tuple(f"rule-{number}" for number in range(1, 15))


@pytest.mark.parametrize("number", ["0", "4", "99"])
def test_a_number_that_is_not_in_the_list_is_answered_with_the_list(number: str) -> None:
    listed = "1 rule-1, 2 gauge-1, 3 gauge-2"
    at_hand = after(*HEADER[:-2], f"1 {number}", f"1 {number}")
    assert words(at_hand) == f"no: There is no {number} in the list: {listed}."
    asked = at_the_wheel("2 3/4", "2 3/4", "2 3/4", number)
    first = "What this is read with is asked first."
    assert words(asked) == f"no: There is no {number} in the list: 1 gauge-1, 2 gauge-2. {first} Enter: not told."
    instead = at_the_wheel(f"w {number}" if number != "0" else "w 2")
    assert words(instead) == f"no: There is no {number.replace('0', '2')} in the list: 1 rule-1. -: not told."


def test_a_number_where_the_list_is_too_long_for_numbers_is_answered_with_the_names() -> None:
    setting = replace(SETTING, known=replace(KNOWN, instruments=MANY))
    step = after(*HEADER[:-2], "2", setting=setting)
    assert words(step) == f"no: 2 is no name, and there are too many for numbers: {', '.join(MANY)}."
    assert after("?", setting=setting, state=step.state).said[0].text.endswith(f"There are: {', '.join(MANY)}.")
    assert "There are: " not in words(after(*HEADER[:-2], "?"))


def test_w_with_a_question_mark_or_a_name_that_is_not_there_tells_what_there_is() -> None:
    assert words(at_the_wheel("w ?")).startswith("note: Write w and the instrument: w 1, w gauge-2. There are: 1 rule")
    assert words(at_the_wheel("w pi")) == "no: 'pi' is no instrument on record. There are: 1 rule-1. -: not told."


def test_another_name_is_not_taken_for_the_second_time() -> None:
    assert "by" not in after("", "annual", "v9", "v8").state.header


def test_someone_without_a_record_who_was_taken_last_time_is_asked_about_and_not_lost_by_enter() -> None:
    setting = replace(SETTING, last={"by": "v9"})
    step = after("", "annual", "", setting=setting)
    assert "No person v9" in words(step)
    assert after("", setting=setting, state=step.state).state.header["by"] == "v9"


def test_what_was_said_last_time_is_taken_by_enter() -> None:
    setting = Setting(KNOWN, lambda header: (), judge, "e-1", last={"by": "v3", "air_temperature": "90 degF"})
    state = after("", "1", "", "-", "-", "", setting=setting).state
    assert (state.header["by"], state.header["air_temperature"]) == ("v3", "")


def shown_by_the_next(tree: Mapping[str, Any]) -> Sequence[Finding]:
    """The reading at 0 deg is unlikely as soon as one at 180 deg is there."""
    found = []
    for index, reading in enumerate(tree.get("readings", ())):
        values = reading["values"]
        if values.get("0 deg", "").startswith("44") and "180 deg" in values and "reason_kept" not in reading:
            found.append(finding(f"/readings/{index}/values/0 deg", "metal-added", Verdict.SUSPECT))
    return found


def test_where_a_reading_shows_an_earlier_one_to_be_unlikely_that_one_is_asked_about() -> None:
    setting = replace(SETTING, judge=shown_by_the_next)
    step = after(*HEADER, "44 1/4", "2 3/4", setting=setting)
    assert [one.kind for one in step.said] == ["echo", "unlikely"]
    assert prompt(setting, step.state).heading == "e-1 driver-1 left, tire thickness, 0 deg: unlikely."
    again = after("r", setting=setting, state=step.state)
    assert asked_now(setting, again.state).slot == Slot("tire_thickness", "driver-1 left", "0 deg")
    mended = after("2 11/16", setting=setting, state=again.state)
    assert draft_of(setting, mended.state).tree["readings"][0]["values"] == {
        "0 deg": "2 11/16 in",
        "180 deg": "2 3/4 in",
    }


def test_an_undo_takes_the_reading_back_that_made_an_earlier_one_unlikely() -> None:
    setting = replace(SETTING, judge=shown_by_the_next)
    step = after(*HEADER, "44 1/4", "2 3/4", "u", setting=setting)
    assert asked_now(setting, step.state).slot == Slot("tire_thickness", "driver-1 left", "180 deg")
    assert step.state.unsettled is None


# -- readings -----------------------------------------------------------------------------------------------------


def test_a_reading_is_echoed_in_both_units_and_kept_as_written() -> None:
    step = at_the_wheel('2-3/4"')
    assert words(step).startswith('echo: 2-3/4" (69.85 mm)')
    assert record(step)["readings"][0]["values"] == {"0 deg": '2-3/4"'}


def test_the_unit_of_the_session_is_written_where_none_was_typed() -> None:
    assert record(at_the_wheel("2 3/4"))["readings"][0]["values"] == {"0 deg": "2 3/4 in"}
    assert record(at_the_wheel("70 mm"))["readings"][0]["values"] == {"0 deg": "70 mm"}


def test_without_a_unit_of_the_session_a_bare_number_is_refused() -> None:
    step = after(*HEADER[:-1], "-", "2 3/4")
    assert (step.said[0].kind, step.events) == ("no", ())


@pytest.mark.parametrize("text", ["", "2,75 in", "54 degF", "thick", "2 5/4 in", "1/0 in", "2 3/4 in in"])
def test_what_is_no_measure_is_refused_and_asked_again(text: str) -> None:
    step = at_the_wheel(text)
    assert (step.said[0].kind, step.events) == ("no", ())
    assert asked_now(SETTING, step.state).slot == Slot("tire_thickness", "driver-1 left", "0 deg")


def test_a_fraction_of_which_the_space_may_be_lost_is_told_so_and_kept_as_typed() -> None:
    step = at_the_wheel("23/8")
    assert "note: 23/8 in has no whole number before its fraction. If 2 3/8 is meant: u, then 2 3/8" in words(step)
    assert record(step)["readings"][0]["values"] == {"0 deg": "23/8 in"}
    assert "note" not in words(at_the_wheel("11/16"))


def test_a_mistyped_unit_of_a_length_is_not_answered_with_one_of_time() -> None:
    assert words(at_the_wheel("71 mn")) == "no: The unit 'mn' is not known. Write it such as 2 7/16 in or 62 mm."


def test_an_interval_is_kept_as_one() -> None:
    assert record(at_the_wheel("under 2 1/2"))["readings"][0]["values"] == {"0 deg": "under 2 1/2 in"}


def test_the_walk_goes_position_by_position_and_says_within_when_a_reading_is_whole() -> None:
    assert "within" not in words(at_the_wheel("2 3/4"))
    step = at_the_wheel("2 3/4", "2 11/16")
    assert "Within the limits on file: book 7." in words(step)
    assert record(step)["readings"] == [
        {"quantity": "tire_thickness", "place": "driver-1 left", "with": "rule-1",
         "values": {"0 deg": "2 3/4 in", "180 deg": "2 11/16 in"}},
    ]  # fmt: skip


def test_what_is_outside_is_said_and_does_not_stop_the_walk() -> None:
    step = at_the_wheel("1 1/4")
    assert "outside: It is thin. (book 7) Measure again." in words(step)
    assert asked_now(SETTING, step.state).slot == Slot("tire_thickness", "driver-1 left", "180 deg")


def test_the_question_shows_what_was_read_last_and_with_what() -> None:
    asked = prompt(SETTING, at_the_wheel().state)
    assert asked.heading == "1 of 5. e-1 driver-1 left, tire thickness, 0 deg"
    assert asked.details == ("Last time 2 3/4 in on 2025-02-08. With rule-1.",)


def test_how_to_take_a_reading_is_what_the_plan_says() -> None:
    assert "Rule, square to the tread. To 1/32 in." in words(at_the_wheel("?"))


def test_where_two_instruments_fit_it_is_asked_once() -> None:
    step = at_the_wheel("2 3/4", "2 3/4", "2 3/4")
    assert asked_now(SETTING, step.state).instrument
    step = after("9", state=step.state)
    assert words(step) == (
        "no: There is no 9 in the list: 1 gauge-1, 2 gauge-2. What this is read with is asked first. Enter: not told."
    )
    step = after("gauge-2", "1 1/8", state=step.state)
    assert record(step)["readings"][-1]["with"] == "gauge-2"


def test_a_number_at_the_instrument_that_may_be_a_reading_is_asked_about_once() -> None:
    step = at_the_wheel("2 3/4", "2 3/4", "2 3/4", "1")
    assert words(step) == (
        "no: 1 is gauge-1 in the list, or is it a reading of 1 in? The reading is asked next. For the instrument "
        "write 1 once more."
    )
    assert asked_now(SETTING, step.state).instrument
    assert words(after("1/2", state=step.state)).startswith("no: '1/2' is no instrument on record, and what this is")
    assert words(after("1", state=step.state)) == "echo: flange height with gauge-1 from here on."
    assert words(after("w 2", state=step.state)) == "echo: flange height with gauge-2 from here on."


def test_where_a_unit_is_written_with_every_reading_a_bare_number_is_that_of_the_instrument() -> None:
    step = after(*HEADER[:-1], "-", "2 3/4 in", "2 3/4 in", "2 3/4 in", "1")
    assert words(step) == "echo: flange height with gauge-1 from here on."


def test_an_instrument_that_is_missing_is_told_by_what_can_be_typed() -> None:
    def untold(tree: Mapping[str, Any]) -> Sequence[Finding]:
        missing = [number for number, one in enumerate(tree.get("readings", ())) if "with" not in one]
        found = [finding(f"/readings/{n}", "instrument-not-told", Verdict.NOT_ASSESSED) for n in missing[:1]]
        return [replace(one, cause="the instrument is not named", next="Add `with:`.") for one in found]

    setting = replace(SETTING, judge=untold)
    step = after(*HEADER, "2 3/4", "2 3/4", "2 3/4", "", "1 1/8", setting=setting)
    assert "The reading is kept. Name it here: w gauge-1, then r 4." in words(step)
    none = replace(setting, known=replace(KNOWN, instruments=(), measures={}))
    step = after(*HEADER[:-2], "-", "in", "2 3/4", "2 3/4", setting=none)
    assert "The reading is kept. Once the record is written, add `with:` and the instrument's id there." in words(step)


@pytest.mark.parametrize(
    ("planes", "told"),
    [
        ({"gauge-2": "3/8 in above tread"}, "Where it was read there already, with gauge-2: w gauge-2, then r 4."),
        ({"gauge-2": "1/2 in above tread"}, "once the record is written, add `where: 3/8 in above tread` there."),
    ],
)  # fmt: skip
def test_a_plane_that_is_missing_is_told_by_what_can_be_typed(planes: dict[str, str], told: str) -> None:
    def without_plane(tree: Mapping[str, Any]) -> Sequence[Finding]:
        found = finding("/readings/2/values/worst", "flange-thin", Verdict.NOT_ASSESSED)
        step = "Read it there; where it was read there already, write `where: 3/8 in above tread`."
        cause = "book 7 judges flange height `3/8 in above tread`, and the reading does not say where it was taken"
        read = [one for one in tree.get("readings", ()) if one["quantity"] == "flange_height"]
        return [replace(found, cause=cause, next=step)] if read else []

    setting = replace(SETTING, known=replace(KNOWN, planes=planes), judge=without_plane)
    step = after(*HEADER, "2 3/4", "2 3/4", "2 3/4", "gauge-1", "1 1/8", setting=setting)
    assert told in words(step)


def test_the_instrument_can_be_changed_on_the_way() -> None:
    tree = record(at_the_wheel("2 3/4", "w gauge-1", "2 3/4"))
    assert [(r["with"], list(r["values"])) for r in tree["readings"]] == [
        ("rule-1", ["0 deg"]),
        ("gauge-1", ["180 deg"]),
    ]


# -- the unlikely -------------------------------------------------------------------------------------------------


def test_an_unlikely_reading_stops_the_walk() -> None:
    step = at_the_wheel("3 3/4")
    assert "unlikely: It is thick. Measure again." in words(step)
    assert asked_now(SETTING, step.state).doubt


def with_a_defect(tree: Mapping[str, Any]) -> Sequence[Finding]:
    """As the judge, and of a reading of 3 3/4 in, kept or not, that no defect is on record for it."""
    thick = [index for index, reading in enumerate(tree.get("readings", ())) if "3 3/4 in" in str(reading["values"])]
    return [*judge(tree), *(finding(f"/readings/{index}/values/0 deg", "defect-not-recorded", Verdict.SUSPECT,
                                    "No defect is on record.") for index in thick)]  # fmt: skip


def test_a_note_on_an_unlikely_reading_waits_until_it_stands() -> None:
    setting = replace(SETTING, judge=with_a_defect)
    step = after(*HEADER, "3 3/4", setting=setting)
    assert [one.kind for one in step.said] == ["echo", "unlikely"]
    for answers in (["k", "caliper checked"], ["k", "3 11/16", ""], ["k", "3 11/16", "v5"]):
        kept = after(*answers, setting=setting, state=step.state)
        assert [one.kind for one in kept.said] == ["echo", "note"]
        assert "No defect is on record." in words(kept)
    assert "note: No defect" not in words(after("2 3/4", setting=setting, state=step.state))


def test_a_place_whose_last_reading_is_kept_in_spite_of_doubt_is_told_within_as_any_other() -> None:
    step = at_the_wheel("2 3/4", "3 3/4", "k", "caliper checked")
    assert words(step) == "echo: Kept: caliper checked | within: Within the limits on file: book 7."


def test_measuring_again_asks_for_the_same_again() -> None:
    step = at_the_wheel("3 3/4", "r", "2 3/4")
    assert record(step)["readings"][0]["values"] == {"0 deg": "2 3/4 in"}


def test_the_new_reading_may_be_typed_at_once() -> None:
    assert record(at_the_wheel("3 3/4", "2 3/4"))["readings"][0]["values"] == {"0 deg": "2 3/4 in"}


def test_keeping_it_needs_a_reason_which_is_written_beside_that_value_alone() -> None:
    step = at_the_wheel("3 3/4", "k", "")
    assert step.said[0].kind == "no"
    tree = record(at_the_wheel("3 3/4", "k", "y", "new tire, its card is missing", "2 3/4"))
    assert [(r["values"], r.get("reason_kept")) for r in tree["readings"]] == [
        ({"0 deg": "3 3/4 in"}, "new tire, its card is missing"),
        ({"180 deg": "2 3/4 in"}, None),
    ]


def test_a_second_reading_by_the_same_people_is_kept_beside_the_first() -> None:
    reading = record(at_the_wheel("3 3/4", "k", "3 11/16", ""))["readings"][0]
    assert reading["values"] == {"0 deg": ["3 3/4 in", "3 11/16 in"]}
    assert reading["reason_kept"] == "read again: 3 11/16 in"


def test_a_second_reading_of_an_unlikely_one_may_be_typed_as_at_any_other_box() -> None:
    for answers in (("2nd 3 11/16",), ("k", "2nd 3 11/16")):
        first, second = record(at_the_wheel("3 3/4", *answers, "v5"))["readings"]
        assert (first["reason_kept"], second["values"]) == ("read again by v5: 3 11/16 in", {"0 deg": "3 11/16 in"})


def test_a_second_reader_stands_as_a_reading_of_his_own() -> None:
    first, second = record(at_the_wheel("3 3/4", "k", "3 11/16", "v5"))["readings"]
    assert (first["values"], first["reason_kept"]) == ({"0 deg": "3 3/4 in"}, "read again by v5: 3 11/16 in")
    assert (second["by"], second["values"]) == (["v5"], {"0 deg": "3 11/16 in"})


def test_a_second_reading_that_speaks_against_the_first_does_not_keep_it() -> None:
    step = at_the_wheel("3 3/4", "k", "2 3/4")
    assert "does not bear the first out" in words(step)
    assert asked_now(SETTING, step.state).doubt
    assert record(after("2 3/4", state=step.state))["readings"][0]["values"] == {"0 deg": "2 3/4 in"}


def test_an_unknown_second_reader_is_asked_for_once_more() -> None:
    step = at_the_wheel("3 3/4", "k", "3 11/16", "v8")
    assert "No person v8" in words(step)
    assert record(after("v8", state=step.state))["readings"][1]["by"] == ["v8"]


def test_where_a_second_reading_stands_keeping_asks_for_the_reason_alone() -> None:
    step = at_the_wheel("2 3/4", "2nd 3 3/4", "v5", "k")
    asked = prompt(SETTING, step.state)
    assert (asked.asks, asked.details) == ("Reason", ("2 3/4 in and 3 3/4 in stand here: why both do, in words.",))
    for third in ("2 3/4", "2nd 2 3/4"):
        again = after(third, state=step.state)
        assert words(again) == (
            "no: Two readings stand here. Give the reason in words; or u, then type the third one in their place."
        )
    assert "too far" in record(after("too far round for one of us", state=step.state))["readings"][0]["reason_kept"]
    assert record(after("u", "2 3/4", state=step.state))["readings"][0]["values"] == {"0 deg": "2 3/4 in"}


@pytest.mark.parametrize("asked_so", [("3 3/4", "k", "3 11/16"), ("2 3/4", "2nd 2 25/32")])
def test_who_took_a_second_reading_is_asked_with_the_people_and_a_command_is_no_name(asked_so: list[str]) -> None:
    step = at_the_wheel(*asked_so)
    asked = prompt(SETTING, step.state)
    assert (asked.details, asked.asks) == (
        ("1 lead, 2 v3, 3 v5", "Enter: the same people."), "Who took the second reading",
    )  # fmt: skip
    assert asked.heading.endswith(f"{' '.join(asked_so[-1].split()[-2:])} in as well.")
    for typed in ("k", "r", "s", "n", "e", "r 3"):
        step = after(typed, typed, state=step.state)
        assert words(step) == (
            f"no: {typed} is for the boxes. Here: who took the second reading; Enter: the same people, u goes back."
        )
    assert record(after("3", state=step.state))["readings"][1]["by"] == ["v5"]


@pytest.mark.parametrize(
    ("answers", "told"),
    [
        (["3 3/4", "k", "3 11/16"], "By number, or as their files in people/ are named: lead, v3."),
        (["2 3/4", "2nd 2 25/32"], "By number, or as their files in people/ are named: lead, v3."),
        (["3 3/4", "k"], "A second reading such as 2 7/16 in; or why it stands, in words that are kept with it."),
        (["2 3/4", "2nd 3 3/4", "v5", "k"], "Why it stands, in words that are kept with it."),
        (["n"], "By number, or in your own words."),
        (["2 3/4", "2 3/4", "2 3/4"], "By number, or as its file in instruments/ is named"),
    ],
)
def test_what_is_asked_in_between_has_a_help_of_its_own(answers: list[str], told: str) -> None:
    step = at_the_wheel(*answers, "?")
    assert step.said[0].kind == "help"
    assert step.said[0].text.startswith(told)


def test_skipping_an_unlikely_one_leaves_it_out() -> None:
    step = at_the_wheel("3 3/4", "s")
    assert "readings" not in record(step)
    assert tally(SETTING, step.state).skipped == 1


def test_a_conversation_cut_in_the_middle_of_a_doubt_goes_on_at_the_doubt() -> None:
    step = at_the_wheel("3 3/4", "k")
    again = fold(json.loads(json.dumps(step.state.log)))
    assert asked_now(SETTING, again).doubt


# -- not measured, skipped, undone ----------------------------------------------------------------------------------


def test_not_measured_has_a_reason_by_number_by_word_or_in_own_words() -> None:
    for typed, told in (
        (["n", "1"], {"because": "no access"}),
        (["n too hot"], {"because": "too hot"}),
        (["n brake gear in the way"], {"because": "other", "note": "brake gear in the way"}),
        (["n no access, brake gear"], {"because": "no access", "note": "brake gear"}),
    ):
        assert record(at_the_wheel(*typed))["not_measured"] == [
            {"quantity": "tire_thickness", "places": ["driver-1 left"], "positions": ["0 deg"], **told}
        ]


def test_not_measured_at_one_position_leaves_the_next_to_be_asked_and_never_stands_beside_its_reading() -> None:
    step = at_the_wheel("n no time")
    assert words(step) == "echo: e-1 driver-1 left, tire thickness, 0 deg: not measured, no time."
    assert asked_now(SETTING, step.state).slot == Slot("tire_thickness", "driver-1 left", "180 deg")
    tree = record(after("2 11/16", state=step.state))
    assert tree["readings"][0]["values"] == {"180 deg": "2 11/16 in"}
    assert tree["not_measured"] == [
        {"quantity": "tire_thickness", "places": ["driver-1 left"], "positions": ["0 deg"], "because": "no time"}
    ]


def test_every_position_left_out_for_one_reason_is_the_whole_quantity() -> None:
    whole = [{"quantity": "tire_thickness", "places": ["driver-1 left"], "because": "no time"}]
    assert record(at_the_wheel("n no time", "n no time"))["not_measured"] == whole
    assert record(at_the_wheel("n here", "3"))["not_measured"] == whole


def test_each_position_keeps_its_own_reason() -> None:
    assert record(at_the_wheel("n no time", "n too hot"))["not_measured"] == [
        {"quantity": "tire_thickness", "places": ["driver-1 left"], "positions": ["0 deg"], "because": "no time"},
        {"quantity": "tire_thickness", "places": ["driver-1 left"], "positions": ["180 deg"], "because": "too hot"},
    ]


def test_how_many_boxes_a_reason_reaches_is_told_before_it_is_given() -> None:
    assert prompt(SETTING, at_the_wheel("n all").state).heading == "tire thickness, 3 boxes (1-3): not measured."
    heading = prompt(SETTING, at_the_wheel("2 3/4", "n here").state).heading
    assert heading == "e-1 driver-1 left, tire thickness, 180 deg: not measured."


def test_a_skip_leaves_one_box_out_and_no_other() -> None:
    step = at_the_wheel("s")
    assert asked_now(SETTING, step.state).slot == Slot("tire_thickness", "driver-1 left", "180 deg")
    assert tally(SETTING, step.state).skipped == 1


@pytest.mark.parametrize("typed", ["s", "e", "n", "k"])
def test_a_command_is_no_reason(typed: str) -> None:
    step = at_the_wheel("n", typed)
    assert (step.said[0].kind, step.events) == ("no", ())


def test_without_a_reason_nothing_is_excused() -> None:
    step = at_the_wheel("n", "")
    assert step.said[0].kind == "no"
    assert "not_measured" not in record(step)


def test_all_wheels_left_can_be_excused_at_once_and_undone_at_once() -> None:
    step = at_the_wheel("n all no instrument")
    assert record(step)["not_measured"] == [
        {"quantity": "tire_thickness", "places": ["driver-1 left", "driver-1 right"], "because": "no instrument"}
    ]
    assert "not_measured" not in record(after("u", state=step.state))


def test_undo_takes_back_answer_by_answer_to_the_very_first() -> None:
    step = at_the_wheel("2 3/4", "2 11/16", "u")
    assert record(step)["readings"][0]["values"] == {"0 deg": "2 3/4 in"}
    step = after(*["u"] * 11, state=step.state)
    assert (step.state.log, step.state.header) == ((), {})
    assert "nothing to take back" in words(after("u", state=step.state))


def test_undo_of_a_kept_reading_takes_the_reading_with_it() -> None:
    step = at_the_wheel("3 3/4", "k", "3 11/16", "v5", "u")
    assert "readings" not in record(step)
    assert asked_now(SETTING, step.state).slot == Slot("tire_thickness", "driver-1 left", "0 deg")


def test_undo_of_a_second_reading_leaves_the_first() -> None:
    step = at_the_wheel("2 3/4", "2nd 2 25/32", "v5", "2 11/16", "2nd 2 3/4", "u")
    assert "box 2, the second reading 2 3/4 in" in words(step)
    assert [(one.get("by"), one["values"]) for one in record(step)["readings"]] == [
        (None, {"0 deg": "2 3/4 in"}),
        (["v5"], {"0 deg": "2 25/32 in"}),
        (None, {"180 deg": "2 11/16 in"}),
    ]


def test_a_second_reading_is_never_filed_under_a_box_before_the_one_just_told_of() -> None:
    for between in ("r 1", "n all too hot", "s"):
        step = at_the_wheel("2 3/4", "2 11/16", between, "2nd 2 3/4")
        assert (step.said[0].kind, step.events) == ("no", ()), between


def test_undo_within_a_question_in_between_only_leaves_that() -> None:
    step = at_the_wheel("n", "u")
    assert (step.events, step.state.mode) == ((), "")


# -- looking ----------------------------------------------------------------------------------------------------------

TO_THE_FLAT = ["n 1", "n 1", "n 1", "n 1"]


def test_enter_alone_is_no_answer_to_whether_something_was_seen() -> None:
    assert at_the_wheel(*TO_THE_FLAT, "").said[0].kind == "no"


def test_not_seen_is_said_and_ends_it() -> None:
    step = at_the_wheel(*TO_THE_FLAT, "no")
    assert record(step)["observations"] == [{"looked_for": "flat", "place": "driver-1 left", "answer": "not seen"}]


def test_what_is_seen_is_asked_for_its_angle_and_size() -> None:
    step = at_the_wheel(*TO_THE_FLAT, "yes", "140", "54 degF", "1 1/4")
    assert record(step)["observations"][0] == {
        "looked_for": "flat", "place": "driver-1 left", "answer": "seen", "angle": "140 deg", "length": "1 1/4 in",
    }  # fmt: skip


def test_a_size_longer_than_the_wheel_is_across_is_asked_about_and_taken_when_typed_twice() -> None:
    flat = replace(FLAT, across=Fraction("1.27"))  # 50 in
    setting = replace(SETTING, questions=lambda header: (flat,))
    for fits in ("50", "1270 mm", "12.0"):
        assert "length" in draft_of(setting, after(*HEADER, "yes", "140", fits, setting=setting).state).tree[
            "observations"
        ][0]  # fmt: skip
    step = after(*HEADER, "yes", "140", "120", setting=setting)
    assert words(step) == (
        "no: 120 in is more than the wheel is across, 50 in. Look at the point and the unit; if it stands, "
        "write it once more."
    )
    assert prompt(setting, step.state).asks == "length of a flat"
    again = after("120", setting=setting, state=step.state)
    assert draft_of(setting, again.state).tree["observations"][0]["length"] == "120 in"
    other = after("12", setting=setting, state=step.state)
    assert draft_of(setting, other.state).tree["observations"][0]["length"] == "12 in"


def test_n_for_a_look_means_that_nobody_looked() -> None:
    step = at_the_wheel(*TO_THE_FLAT, "n", "dirty")
    assert record(step)["not_measured"][-1] == {"looked_for": "flat", "places": ["driver-1 left"], "because": "dirty"}


# -- the end ----------------------------------------------------------------------------------------------------------


def test_at_the_end_it_is_counted_and_written_only_when_asked() -> None:
    step = at_the_wheel("2 3/4", "2 3/4", "s", "n 1", "no")
    assert prompt(SETTING, step.state).heading == "The end: 2 read, 1 looked for, 1 not measured, 1 skipped."
    assert not after("yes please", state=step.state).write
    assert after("w", state=step.state).write


def test_what_was_skipped_is_asked_again_on_the_way_back() -> None:
    step = after("b", state=at_the_wheel("2 3/4", "2 3/4", "s", "n 1", "no").state)
    assert asked_now(SETTING, step.state).slot == Slot("tire_thickness", "driver-1 right", "0 deg")


def test_it_can_be_ended_early_and_gone_back_to() -> None:
    step = at_the_wheel("2 3/4", "e")
    assert prompt(SETTING, step.state).heading.endswith("4 still open.")
    assert asked_now(SETTING, after("b", state=step.state).state) != asked_now(SETTING, step.state)


def test_nothing_is_no_record() -> None:
    assert "there is nothing to write" in words(at_the_wheel("e", "w"))


def test_q_stops_anywhere_and_keeps_all() -> None:
    for answers in ([], HEADER[:3], [*HEADER, "3 3/4"], [*HEADER, "n"], [*HEADER, "e"]):
        assert after(*answers, "q").stop


def test_an_id_that_is_taken_gets_the_next_number() -> None:
    taken = ["2026-03-07-d-2-annual", "2026-03-07-d-2-annual-2"]
    assert new_id("2026-03-07", "d-2", "annual", taken) == "2026-03-07-d-2-annual-3"
    assert len(new_id("2026-03-07", "d" * 40, "a" * 40, [])) <= 60


def test_events_that_nobody_understands_change_nothing() -> None:
    odd: list[Any] = [{}, {"slot": "x", "is": {"value": "1"}}, {"slots": 7}, {"slot": [1], "kept": 3}, {"else": ""}]
    assert fold(odd) == State()


def test_what_is_expected_is_said_with_the_instrument_that_it_holds_for() -> None:
    expected = (Expected("0 deg", "2 11/16 to 2 27/32 in", "rule-1"),)
    setting = replace(SETTING, questions=lambda header: (replace(THICK, expected=expected),))
    assert "Expect 2 11/16 to 2 27/32 in. With rule-1." in prompt(setting, at_the_wheel().state).details[0]
    without = after(*HEADER[:8], "-", "in", setting=setting)
    assert prompt(setting, without.state).details[0].endswith("Expect 2 11/16 to 2 27/32 in with rule-1.")
