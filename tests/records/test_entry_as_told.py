"""Whatever order boxes are answered, redone, skipped and excused in, the record says what was told, box by box.

The model keeps what a person with a pencil would: by the number that the prompt showed, what was answered to it.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.records.entry.header import Known
from axlebook.records.entry.machine import Step, answer
from axlebook.records.entry.question import Question, Size, Slot
from axlebook.records.entry.state import State, fold
from axlebook.records.entry.walk import Setting, draft_of
from axlebook.records.entry.words import prompt

KNOWN = Known(date(2026, 3, 7), ("lead", "v3"), (), {}, ("on blocks",), ("annual",), ("no time", "too hot", "other"))
AROUND = ("0 deg", "120 deg", "240 deg")
QUESTIONS = (
    Question("tire_thickness", "tire thickness", "length", "driver-1 left", positions=AROUND),
    Question("tire_thickness", "tire thickness", "length", "driver-1 right", positions=AROUND),
    Question("flange_height", "flange height", "length", "driver-1 left", positions=("worst",)),
    Question("crack", "crack", "", "driver-1 left", sizes=(Size("angle", "angle", "angle"),)),
    Question("tire_thickness", "tire thickness", "length", "t-9", by_part=True, positions=AROUND[:2]),
)
SLOTS = [slot for question in QUESTIONS for slot in question.slots]
HEADER = ["", "annual", "lead", "-", "-", "-", "-", "-", "-", "in"]
FIGURES = ("2 3/4", "2 11/16", "2 5/8", "2 1/2", "2 7/16")
UNLIKELY = ("3 1/2", "4 1/4")
REASONS = ("no time", "too hot")
BOX = re.compile(r"(\d+) of (\d+)\. (.*)")
ACTS = st.tuples(
    st.sampled_from(["box", "box", "box", "unlikely", "n", "n here", "n all", "s", "again", "again", "2nd", "u", "e",
                     "cut", "junk"]),
    st.integers(0, 9),
)  # fmt: skip


def judge(tree: Mapping[str, Any]) -> Sequence[Finding]:
    """Over 3 in is unlikely unless it is kept."""
    return [
        Finding("metal-added", Verdict.SUSPECT, Severity.DATA, "e-1",
                Place("x.yaml", f"/readings/{index}/values/{position}"), f"{value} is thick.", (), "book", "Again.")
        for index, reading in enumerate(tree.get("readings", ()))
        for position, value in reading["values"].items()
        if str(value).startswith(("3", "4")) and "reason_kept" not in reading
    ]  # fmt: skip


SETTING = Setting(KNOWN, lambda header: QUESTIONS, judge, "e-1", frozenset({"metal-added"}))
Boxes = dict[int, str]


class Pencil:
    """A person who answers, and notes by number what was answered."""

    def __init__(self) -> None:
        self.state = State()
        self.events: list[Mapping[str, Any]] = []
        self.boxes: Boxes = {}
        self.before: list[tuple[Boxes, int]] = []  # by answer, for u
        self.headings: dict[int, str] = {}
        self.last = 0  # the box read last, while nothing else was answered
        for text in HEADER:
            self.say(text)

    def say(self, text: str) -> Step:
        """Type one line."""
        step = answer(SETTING, self.state, text)
        self.state = step.state
        self.events += step.events
        return step

    def note(self, told: Mapping[int, str]) -> None:
        """Note one answer."""
        self.before.append((dict(self.boxes), self.last))
        self.boxes.update(told)
        self.last = 0

    def asked(self) -> int:
        """The number of the box that is asked, whose question never changes; 0 at the end."""
        match = BOX.fullmatch(prompt(SETTING, self.state).heading)
        if match is None:
            return 0
        number = int(match[1])
        assert self.headings.setdefault(number, match[3]) == match[3]
        return number

    def do(self, act: str, pick: int) -> None:
        """One thing that a person does."""
        if self.state.unsettled is not None and act not in ("u", "cut"):
            self.keep(SLOTS.index(self.state.unsettled) + 1)
        number = self.asked()
        if act == "cut":  # the power goes; what was asked in between is not kept
            self.state = fold(json.loads(json.dumps(self.events)))
        elif act == "u":
            self.undo()
        elif act == "again":
            self.again(sorted(self.boxes)[pick % len(self.boxes)] if self.boxes else 1)
        elif act == "e":
            self.end(number, pick)
        elif act == "2nd":
            self.second(pick)
        elif number and act == "junk":
            assert not self.say(("", "thick", "5 kg", "r 99", "n", "x")[pick % 6]).events
            if self.state.mode:
                assert not self.say("s").events
                self.say("u")
        elif number and act.startswith("n"):
            self.excuse(number, act, REASONS[pick % len(REASONS)])
        elif number and act == "s":
            self.say("s")
            self.note({number: "skipped"})
        elif number:
            self.fill(number, act, pick)

    def undo(self) -> None:
        if self.state.mode:  # from the end back to what is open: no answer is taken back
            assert not self.say("u").events
        elif self.before:
            self.say("u")
            self.boxes, self.last = self.before.pop()

    def again(self, number: int) -> None:
        if number in self.boxes:
            self.say(f"r {number}")
            self.before.append((dict(self.boxes), self.last))
            del self.boxes[number]
            self.last = 0
            assert self.asked() == number

    def end(self, number: int, pick: int) -> None:
        if not number:
            return
        self.say("e")
        assert not self.asked()
        if pick % 2:
            self.say("b")
            assert self.asked() == number

    def second(self, pick: int) -> None:
        figure = FIGURES[pick % len(FIGURES)]
        step = self.say(f"2nd {figure}")
        if not self.last:
            assert [one.kind for one in step.said] == ["no"]
            return
        number = self.last
        if self.state.mode:
            self.say("")
        self.note({number: f"{self.boxes[number]} and {figure} in"})

    def excuse(self, number: int, act: str, reason: str) -> None:
        slot = SLOTS[number - 1]
        reach = {"n": 3, "n here": 2, "n all": 1}[act]
        told = {
            other: f"not measured: {reason}"
            for other, one in enumerate(SLOTS, 1)
            if one[:reach] == slot[:reach] and other not in self.boxes
        }
        self.say(f"{act} {reason}")
        self.note(told)

    def fill(self, number: int, act: str, pick: int) -> None:
        if SLOTS[number - 1].what == "crack":
            self.look(number, seen=bool(pick % 2))
        elif act == "unlikely":
            self.doubt(number, pick)
        else:
            self.read(number, FIGURES[pick % len(FIGURES)])

    def read(self, number: int, figure: str) -> None:
        self.say(figure)
        self.note({number: f"{figure} in"})
        self.last = number

    def keep(self, number: int) -> None:
        self.say("k")
        self.say("new tire")
        self.boxes[number] += ", kept"
        self.last = number

    def look(self, number: int, *, seen: bool) -> None:
        self.say("yes" if seen else "no")
        if seen:
            self.say("140")
        self.note({number: "seen at 140 deg" if seen else "not seen"})

    def doubt(self, number: int, pick: int) -> None:
        figure = UNLIKELY[pick % len(UNLIKELY)]
        self.say(figure)
        self.note({number: f"{figure} in"})
        match pick % 5:
            case 0:
                self.keep(number)
            case 1:
                self.say("r")
                self.before.append((dict(self.boxes), self.last))
                del self.boxes[number]
                assert self.asked() == number
            case 2:
                self.say("s")
                self.note({number: "skipped"})
            case 3:
                self.read(number, FIGURES[pick % len(FIGURES)])
            case _:
                self.undo()


def in_record(tree: Mapping[str, Any]) -> dict[Slot, str]:
    """What a record says of every box, each told once."""
    found: dict[Slot, str] = {}

    def tell(slot: Slot, told: str) -> None:
        assert slot not in found, f"{slot} is told twice: {found[slot]}, {told}"
        found[slot] = told

    for reading in tree.get("readings", ()):
        for position, value in reading["values"].items():
            told = value if isinstance(value, str) else " and ".join(value)
            if "reason_kept" in reading:
                first, *more = told.split(" and ")
                told = " and ".join([f"{first}, kept", *more])
            tell(Slot(reading["quantity"], reading.get("place") or reading["part"], position), told)
    for seen in tree.get("observations", ()):
        at = f" at {seen['angle']}" if "angle" in seen else ""
        tell(Slot(seen["looked_for"], seen["place"]), f"{seen['answer']}{at}")
    for left in tree.get("not_measured", ()):
        what = left.get("quantity") or left["looked_for"]
        for where in (*left.get("places", ()), *left.get("parts", ())):
            every = [slot.position for slot in SLOTS if slot[:2] == (what, where)]
            for position in left.get("positions", every):
                tell(Slot(what, where, position), f"not measured: {left['because']}")
    return found


def the_record_says_what_was_told(acts: list[tuple[str, int]]) -> None:
    pencil = Pencil()
    for act, pick in acts:
        pencil.do(act, pick)
        told = {SLOTS[number - 1]: text for number, text in pencil.boxes.items() if text != "skipped"}
        assert in_record(draft_of(SETTING, pencil.state).tree) == told, (act, pick)
        kept = fold(json.loads(json.dumps(pencil.events)))
        assert in_record(draft_of(SETTING, kept).tree) == told


@given(acts=st.lists(ACTS, max_size=25))
@settings(max_examples=200, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)
def test_the_record_says_what_was_told_box_by_box_in_whatever_order(acts: list[tuple[str, int]]) -> None:
    the_record_says_what_was_told(acts)


@pytest.mark.fuzz
@given(acts=st.lists(ACTS, max_size=60))
@settings(max_examples=800, deadline=None, suppress_health_check=list(HealthCheck))
def test_many_orders_of_answers_make_the_record_that_was_told(acts: list[tuple[str, int]]) -> None:
    the_record_says_what_was_told(acts)
