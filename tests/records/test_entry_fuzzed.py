"""Whatever is typed at guided entry: no fault, a draft that gives the same state again, a record that is sound."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.records.entry.header import Known
from axlebook.records.entry.machine import answer
from axlebook.records.entry.question import Question, Size
from axlebook.records.entry.state import State, fold
from axlebook.records.entry.walk import Setting, draft_of, tally
from axlebook.records.entry.words import help_for, prompt
from axlebook.sources.schemas import judge as judge_form

KNOWN = Known(
    date(2026, 3, 7), ("lead", "v3"), ("rule-1", "gauge-1"), {"rule-1": ("tire_thickness",)},
    ("on blocks", "under the engine"), ("annual", "daily"), ("no access", "too hot", "other"),
)  # fmt: skip
QUESTIONS = (
    Question("tire_thickness", "tire thickness", "length", "driver-1 left", positions=("0 deg", "180 deg")),
    Question("crack", "crack", "", "driver-1 left", sizes=(Size("angle", "angle", "angle"),
                                                           Size("length", "length of a crack", "length"))),
    Question("tire_thickness", "tire thickness", "length", "t-9", by_part=True, positions=("0 deg", "180 deg")),
)  # fmt: skip
HEADER = ["", "annual", "lead", "1", "6 o'clock", "54 F", "-", "-", "1 2", "in"]
TYPED = st.one_of(
    st.sampled_from([
        "", "-", "2 3/4", "2 7/16 in", "70 mm", "3 1/2", "44 1/4", "2,5", "1/2", ".5in", "5 kg", "u", "u", "q", "?",
        "b", "k", "r", "s", "n", "n all", "n all too hot", "n gear in the way", "e", "w", "w 1", "w rule-1", "no",
        "yes", "unknown", "140", "chips there", "2nd 2 3/4", "2nd 3 1/2", "2nd", "second 70 mm", "v3", "v9", "v9",
        "1", "2", "r 1", "r2", "r 9", "annual", "2026-03-07", "54F", "12 C", "on blocks", "rule-1", "rule-9", "in",
        "mm", "lead v9",
    ]),
    st.text(max_size=8),
)  # fmt: skip


def judge(tree: Mapping[str, Any]) -> Sequence[Finding]:
    """Over 3 in is unlikely unless kept; with a second value, so is the first."""
    found = []
    for index, reading in enumerate(tree.get("readings", ())):
        for position, value in reading["values"].items():
            if str(value).strip("['").startswith(("3", "4")) and "reason_kept" not in reading:
                place = Place("x.yaml", f"/readings/{index}/values/{position}")
                found.append(Finding("metal-added", Verdict.SUSPECT, Severity.DATA, "e-1", place, f"{value} is thick.",
                                     (), "book", "Measure again."))  # fmt: skip
    return found


SETTING = Setting(KNOWN, lambda header: QUESTIONS, judge, "e-1", frozenset({"metal-added"}))


def whatever_is_typed(answers: list[str], setting: Setting) -> None:
    state = State()
    events: list[Mapping[str, Any]] = []
    for text in answers:
        before = state
        step = answer(setting, state, text)
        state = step.state
        events += step.events
        if step.stop or step.write:
            assert (state.header, state.boxes) == (before.header, before.boxes)
        asked = prompt(setting, state)
        assert asked.asks
        assert all(said.text for said in help_for(setting, state))
        tally(setting, state)
    again = fold(json.loads(json.dumps(events)))
    assert (again.header, dict(again.boxes), again.instruments) == (
        state.header, dict(state.boxes), state.instruments,
    )  # fmt: skip
    draft = draft_of(setting, state)
    if not draft.is_empty:
        assert judge_form(draft.tree, "inspections/2026/2026-03-07-x.yaml") == []


@given(answers=st.lists(TYPED, max_size=30))
@settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)
def test_whatever_is_typed_after_the_head_gives_a_sound_record_and_a_draft_that_goes_on(answers: list[str]) -> None:
    whatever_is_typed([*HEADER, *answers], SETTING)


@given(answers=st.lists(TYPED, max_size=40))
@settings(max_examples=80, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)
def test_whatever_is_typed_from_the_first_question_on_is_answered(answers: list[str]) -> None:
    whatever_is_typed(answers, replace(SETTING, sheet="e-1-annual-2026-03-07-0123abcd"))


def test_a_number_in_a_list_of_names_that_is_insisted_on_stands_for_its_name() -> None:
    whatever_is_typed([*HEADER, "1", "2nd 2 3/4", "w 1", "w 1"], SETTING)


@pytest.mark.fuzz
@given(answers=st.lists(TYPED, max_size=60))
@settings(max_examples=1200, deadline=None, suppress_health_check=list(HealthCheck))
def test_much_that_is_typed_gives_sound_records(answers: list[str]) -> None:
    whatever_is_typed([*HEADER, *answers], SETTING)


@pytest.mark.fuzz
@given(answers=st.lists(TYPED, max_size=80))
@settings(max_examples=1200, deadline=None, suppress_health_check=list(HealthCheck))
def test_much_that_is_typed_from_the_first_question_on_is_answered(answers: list[str]) -> None:
    whatever_is_typed(answers, SETTING)
