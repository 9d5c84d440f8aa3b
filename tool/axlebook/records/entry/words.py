"""What a question looks like, and what `?` says: the same lines in every terminal."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from . import second
from .header import LISTED, Field, numbered, offered
from .question import Question, Slot
from .state import State
from .told import Said
from .walk import (
    Asked,
    Setting,
    asked_now,
    candidates,
    excused_slots,
    instrument_for,
    number_of,
    numbered_slots,
    question_of,
    tally,
)

OFFERED = 20  # signs of an answer that is offered right before it; a longer one stands above
ALWAYS = "u undo, q stop (the draft stays)"


@dataclass(frozen=True)
class Prompt:
    """What is asked: a heading, what helps to answer it, and the words right before the answer."""

    heading: str
    details: tuple[str, ...]
    asks: str


def prompt(setting: Setting, state: State) -> Prompt:
    """What is asked now."""
    asked = asked_now(setting, state)
    if state.mode == "second":
        return _who(setting, state, second.last(state))
    if asked.field is not None:
        return _of_field(setting, asked.field)
    if asked.question is None or asked.slot is None:
        return _review(setting, state)
    heading = heading_of(setting, asked.question, asked.slot)
    if asked.doubt:
        return _doubt(setting, state, heading, asked.slot)
    if state.mode == "because":
        scope = scope_of(setting, state, asked.question, asked.slot)
        return Prompt(f"{scope}: not measured.", (numbered(setting.known.reasons),), "Because")
    if asked.instrument:
        there = numbered(tuple(candidates(setting, state, asked.question)))
        number = number_of(setting, state, asked.slot)
        return Prompt(f"Box {number}, {heading}: read with which instrument?", (there, "Enter: not told"), "With")
    if asked.size is not None:
        return Prompt(f"{heading}: seen.", ("Enter: not told",), asked.size.title)
    slots = numbered_slots(setting, state)
    box = f"{slots.index(asked.slot) + 1} of {len(slots)}. {heading}"
    details = tuple(_details(setting, state, asked.question, asked.slot))
    return Prompt(box, details, "Reading" if asked.question.is_read else "Seen?")


def heading_of(setting: Setting, question: Question, slot: Slot) -> str:
    """The box in shop words."""
    where = slot.where if question.by_part else f"{setting.engine} {slot.where}".strip()
    return f"{where}, {question.title}{f', {slot.position}' if slot.position else ''}"


def _who(setting: Setting, state: State, slot: Slot) -> Prompt:
    """Who took the second reading of a box."""
    heading = heading_of(setting, question_of(setting, state, slot), slot)
    people = (numbered(setting.known.people),) if 0 < len(setting.known.people) <= LISTED else ()
    return Prompt(
        f"Box {number_of(setting, state, slot)}, {heading}: {state.held} as well.",
        (*people, "Enter: the same people."), "Who took the second reading",
    )  # fmt: skip


def scope_of(setting: Setting, state: State, question: Question, slot: Slot) -> str:
    """How far a reason for not measuring reaches, so that nothing is left out unseen."""
    slots = excused_slots(setting, state, question, slot)
    if len(slots) < 2:
        return heading_of(setting, question, *slots) if slots else question.title
    numbers = in_runs(number_of(setting, state, one) for one in slots)
    return f"{question.title}, {len(slots)} boxes ({numbers})"


def in_runs(numbers: Iterable[int]) -> str:
    """Numbers, those that follow each other as a run.

    >>> in_runs([1, 2, 3, 5, 8, 9])
    '1-3, 5, 8-9'
    """
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(f"{run[0]}-{run[-1]}" if len(run) > 1 else str(run[0]) for run in runs)


def held_in(state: State, slot: Slot) -> str:
    """What stands in a box; '' where it is empty."""
    box = state.boxes.get(slot)
    if box is None:
        return ""
    if box.because:
        return f"not measured, {box.because}"
    second = f" and {box.second}" if box.second else ""
    return "skipped" if box.skipped else f"{box.value or box.seen}{second}"


def _details(setting: Setting, state: State, question: Question, slot: Slot) -> list[str]:
    if not question.is_read:
        asked = [question.how] if question.how else []
        return [" ".join([*asked, *(["If you can."] if question.wanted else []), "(no: looked, not seen; yes: seen)"])]
    found = ["If you can."] if question.wanted else []
    instrument = instrument_for(setting, state, question)
    earlier = question.earlier_at(slot.position)
    if earlier is not None:
        at = f" at {earlier.position}" if earlier.position != slot.position else ""
        found.append(f"Last time {earlier.text}{at} on {earlier.day}{f' ({earlier.note})' if earlier.note else ''}.")
    expected = question.expected_at(slot.position, instrument or "")
    if expected:
        found.append(f"Expect {expected}.")
    if instrument:
        found.append(f"With {instrument}.")
    if question.hold and state.header.get("hold") and question.hold != state.header["hold"]:
        found.append(f"The plan wants it {question.hold}; you said {state.header['hold']}.")
    return [" ".join(found)] if found else []


def _of_field(setting: Setting, field: Field) -> Prompt:
    choices = field.choices(setting.known)
    default = offered(field, setting.known, setting.last)
    listed = (numbered(choices),) if choices and len(choices) <= LISTED else ()
    if len(default) > OFFERED:  # the words right before an answer are not wrapped
        return Prompt("", (*listed, f"Last time: {default}."), f"{field.asks} [as last time]")
    enter = f"[{default}]" if default else "[left out]" if not field.needed else ""
    return Prompt("", listed, f"{field.asks} {enter}".strip())


def _doubt(setting: Setting, state: State, heading: str, slot: Slot) -> Prompt:
    if state.mode == "keep" and state.boxes[slot].second:
        both = f"{state.boxes[slot].value} and {state.boxes[slot].second} stand here: why both do, in words."
        return Prompt(f"{heading}: keep them.", (both,), "Reason")
    if state.mode == "keep":
        return Prompt(
            f"{heading}: keep it.", ("A second reading, or the reason in words.",), "Second reading or reason"
        )
    if state.mode == "who":
        return _who(setting, state, slot)
    return Prompt(f"{heading}: unlikely.", (), "k keep, r re-measure, s skip, or the new reading")


def _review(setting: Setting, state: State) -> Prompt:
    found = tally(setting, state)
    parts = [f"{found.read} read", f"{found.seen} looked for", f"{found.excused} not measured"]
    parts += [f"{found.kept} kept in spite of doubt"] if found.kept else []
    parts += [f"{found.skipped} skipped"] if found.skipped else []
    parts += [f"{found.open} still open"] if found.open else []
    details = (*_left_open(setting, state), *_no_more_asked(setting, state))
    return Prompt(f"The end: {', '.join(parts)}.", details, "w write, b back to what is open, u undo, q stop")


def _left_open(setting: Setting, state: State) -> tuple[str, ...]:
    """Which boxes are open or skipped, by number, as `r` takes them."""
    slots = list(enumerate(numbered_slots(setting, state), 1))
    left = [number for number, slot in slots if slot not in state.boxes]
    skipped = [number for number, slot in slots if slot in state.boxes and state.boxes[slot].skipped]
    found = [f"Open: {in_runs(left)}."] if left else []
    return (" ".join([*found, *([f"Skipped: {in_runs(skipped)}."] if skipped else [])]),) if left or skipped else ()


def _no_more_asked(setting: Setting, state: State) -> tuple[str, ...]:
    """Answers that no plan asks for, since a plan, the day or the occasion is another than when they were given."""
    asked = set(numbered_slots(setting, state))
    left = [slot for slot, box in state.boxes.items() if slot not in asked and not box.skipped]
    if not left:
        return ()
    named = "; ".join(
        " ".join(filter(None, (slot.where, slot.what.replace("_", " "), slot.position))) for slot in left[:4]
    )
    return (f"NOT in the record, since no plan asks for it on this day and occasion: {named}"
            f"{f'; and {len(left) - 4} more' if len(left) > 4 else ''}. Write it down elsewhere.",)  # fmt: skip


def help_for(setting: Setting, state: State) -> list[Said]:
    """What `?` says: how to take this reading, then what may be typed."""
    asked = asked_now(setting, state)
    between = _help_between(state, asked)
    if between:
        return [Said("help", f"{between} u goes back, q stops (the draft stays).")]
    if asked.field is not None:
        there = asked.field.choices(setting.known)  # a list that is short enough stands with the question
        names = f" There are: {', '.join(there)}." if len(there) > LISTED else ""
        return [
            Said("help", f"{asked.field.help}{names}"),
            Said("help", f"Enter takes what stands in brackets, s or - leaves it out, {ALWAYS}."),
        ]
    if asked.question is None:
        return [Said("help", "w writes the record as shown; b goes back; nothing that is open is taken for good.")]
    if asked.doubt:
        return [Said("help", "k keeps it with a second reading or a reason; r asks again; s leaves it out for now.")]
    if asked.size is not None:
        sizes = f"Type {asked.size.title}; Enter, s or - leaves it out, e ends here, {ALWAYS}."
        return [Said("help", text) for text in (*_how(asked.question), sizes)]
    return [Said("help", text) for text in (*_how(asked.question), _commands(asked.question))]


def _help_between(state: State, asked: Asked) -> str:
    """What `?` says at what is asked between two boxes; '' at a box."""
    match state.mode:
        case "second" | "who":
            return "By number, or as their files in people/ are named: lead, v3. Enter: the same people."
        case "because":
            return "By number, or in your own words. It stands in the record beside what was not measured."
        case "keep":
            twice = asked.slot is not None and state.boxes[asked.slot].second
            return "Why it stands, in words that are kept with it." if twice else (
                "A second reading such as 2 7/16 in; or why it stands, in words that are kept with it."
            )  # fmt: skip
    if asked.instrument and asked.question is not None and not asked.doubt:
        return (
            f"By number, or as its file in instruments/ is named: what {asked.question.title} is read with from here "
            "on. Enter: not told. Or as at any box: s skip, n not measured because ..., e end here."
        )
    return ""


def _how(question: Question) -> list[str]:
    found = [question.how or f"No plan says how to take {question.title}."]
    if question.least_count:
        found.append(f"To {question.least_count}.")
    if question.hold:
        found.append(f"Held: {question.hold}.")
    if question.needs_temperature:
        found.append("Part and instrument as warm as each other; write both temperatures.")
    found += [question.limit] if question.limit else []
    return [" ".join(found)]


def _commands(question: Question) -> str:
    what = "2 7/16 in, 62 mm, under 0.0015 in" if question.is_read else "no, yes or unknown"
    with_what = ", w change the instrument, 2nd 2 13/32 in the second person's reading" if question.is_read else ""
    here = ", n here ... the same at every position here" if len(question.positions) > 1 else ""
    return (
        f"Type {what}. s skip, n not measured because ...{here}, n all ... on every wheel still open{with_what}, "
        f"r 3 box number 3 again, e end here, {ALWAYS}."
    )
