"""Where the conversation stands: what is asked next, as the answers so far leave it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from axlebook.findings import Finding

from .header import HEADER, Field, Known
from .question import Question, Size, Slot
from .record import Draft, names
from .state import Entered, State

Judge = Callable[[Mapping[str, Any]], Sequence[Finding]]


@dataclass(frozen=True)
class Setting:
    """What the conversation is about and may ask of the ledger; nothing of it changes on the way."""

    known: Known
    questions: Callable[[Mapping[str, str]], tuple[Question, ...]]  # by what was said before the walk
    judge: Judge  # the findings that the record so far has, were it written now
    engine: str
    stopping: frozenset[str] = frozenset()  # the checks that make a reading unlikely
    last: Mapping[str, str] = field(default_factory=dict)  # what was said before the walk last time
    sheet: str = ""  # the paper sheet that is typed in
    doubt: Judge | None = None  # those of them alone that make a reading unlikely, where that is found sooner


@dataclass(frozen=True)
class Asked:
    """What is asked now; one of these is filled, and none at the review."""

    field: Field | None = None
    question: Question | None = None
    slot: Slot | None = None
    size: Size | None = None
    instrument: bool = False  # with what the question is read
    doubt: bool = False  # an unlikely reading waits for an answer


def asked_now(setting: Setting, state: State) -> Asked:
    """What is asked next."""
    for one in HEADER:
        if one.key not in state.header:
            return Asked(field=one)
    questions = setting.questions(state.header)
    if state.unsettled is not None:
        return Asked(question=_of(questions, state.unsettled), slot=state.unsettled, doubt=True)
    if state.mode == "review":
        return Asked()
    return _unfinished(state, questions) or _open(setting, state, questions) or Asked()


def question_of(setting: Setting, state: State, slot: Slot) -> Question:
    """The question that a box is of."""
    return _of(setting.questions(state.header), slot)


def _of(questions: Sequence[Question], slot: Slot) -> Question:
    """The question of a box; one that no plan asks any more is asked by its own name."""
    for question in questions:
        if slot in question.slots:
            return question
    return Question(slot.what, slot.what.replace("_", " "), "length", slot.where, positions=(slot.position,))


def _unfinished(state: State, questions: Sequence[Question]) -> Asked | None:
    """What was seen and is not told the size of yet; it was answered last, wherever it stands in the walk."""
    for question in questions:
        for slot in question.slots:
            box = state.boxes.get(slot)
            if box is not None and box.seen == "seen" and len(box.sizes) < len(question.sizes):
                return Asked(question=question, slot=slot, size=question.sizes[len(box.sizes)])
    return None


def _open(setting: Setting, state: State, questions: Sequence[Question]) -> Asked | None:
    """The box that was asked for by its number; else the first that is open."""
    found = [(question, slot) for question in questions for slot in open_slots(state, question)]
    if not found:
        return None
    question, slot = next((one for one in found if one[1] == state.again), found[0])
    asks_with = question.is_read and instrument_for(setting, state, question) is None
    return Asked(question=question, slot=slot, instrument=asks_with)


def open_slots(state: State, question: Question) -> list[Slot]:
    """The boxes of a question that wait for an answer."""
    return [slot for slot in question.slots if slot not in state.boxes]


def candidates(setting: Setting, state: State, question: Question) -> list[str]:
    """The instruments to choose from: those at hand that are for the quantity, else those on record that are."""
    at_hand, fitting = names(state.header.get("instruments", "")), setting.known.instruments_for(question.what)
    return [id for id in at_hand if id in fitting] or fitting or at_hand


def instrument_for(setting: Setting, state: State, question: Question) -> str | None:
    """What a quantity is read with, '' where that is not told; None where it has to be asked."""
    if question.what in state.instruments:
        return state.instruments[question.what]
    at_hand = names(state.header.get("instruments", ""))
    if not at_hand:
        return ""
    fitting = [id for id in at_hand if id in setting.known.instruments_for(question.what)]
    return fitting[0] if len(fitting) == 1 else None


def numbered_slots(setting: Setting, state: State) -> list[Slot]:
    """Every box, in the order they are asked; the first is number 1."""
    return [slot for one in setting.questions(state.header) for slot in one.slots]


def number_of(setting: Setting, state: State, slot: Slot) -> int:
    """The number of a box; 0 where no plan asks for it."""
    slots = numbered_slots(setting, state)
    return slots.index(slot) + 1 if slot in slots else 0


def excused_slots(setting: Setting, state: State, question: Question, slot: Slot) -> list[Slot]:
    """The boxes that one reason is for, by how far it was said to reach (`held`)."""
    if state.held not in ("here", "all"):
        return [slot]
    same = [one for one in setting.questions(state.header) if one.what == question.what]
    about = same if state.held == "all" else [question]
    return [open for one in about for open in open_slots(state, one)]


def draft_of(setting: Setting, state: State) -> Draft:
    """The record of the answers so far."""
    return Draft(state, setting.questions(state.header), setting.engine, setting.sheet)


@dataclass(frozen=True)
class Tally:
    """What the answers come to."""

    read: int
    seen: int
    excused: int
    kept: int
    skipped: int
    open: int


def tally(setting: Setting, state: State) -> Tally:
    """Count the boxes by what stands in them."""
    questions = setting.questions(state.header)
    boxes: list[Entered] = list(state.boxes.values())
    return Tally(
        sum(bool(box.value) for box in boxes),
        sum(bool(box.seen) for box in boxes),
        sum(bool(box.because) for box in boxes),
        sum(bool(box.kept) for box in boxes),
        sum(box.skipped for box in boxes),
        sum(len(open_slots(state, question)) for question in questions),
    )
