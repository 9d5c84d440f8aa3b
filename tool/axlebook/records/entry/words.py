"""What a question looks like, and what `?` says: the same lines in every terminal."""

from __future__ import annotations

from dataclasses import dataclass

from .header import LISTED, Field, numbered, offered
from .question import Question, Slot
from .state import State
from .told import Said
from .walk import Setting, asked_now, candidates, instrument_for, numbered_slots, tally

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
        people = (numbered(setting.known.people),) if 0 < len(setting.known.people) <= LISTED else ()
        return Prompt("", (*people, "Enter: the same people."), "Who took the second reading")
    if asked.field is not None:
        return _of_field(setting, asked.field)
    if asked.question is None or asked.slot is None:
        return _review(setting, state)
    heading = heading_of(setting, asked.question, asked.slot)
    if asked.doubt:
        return _doubt(setting, state, heading)
    if state.mode == "because":
        where = "everywhere that is still open" if state.held == "all" else "here"
        return Prompt(f"{heading}: not measured {where}.", (numbered(setting.known.reasons),), "Because")
    if asked.instrument:
        there = numbered(tuple(candidates(setting, state, asked.question)))
        return Prompt(f"{heading}: read with which instrument?", (there, "Enter: not told"), "With")
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
    expected = question.expected_at(slot.position)
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
    enter = f"[{default}]" if default else "[left out]" if not field.needed else ""
    return Prompt(
        "", (numbered(choices),) if choices and len(choices) <= LISTED else (), f"{field.asks} {enter}".strip()
    )


def _doubt(setting: Setting, state: State, heading: str) -> Prompt:
    if state.mode == "keep":
        return Prompt(
            f"{heading}: keep it.", ("A second reading, or the reason in words.",), "Second reading or reason"
        )
    if state.mode == "who":
        return Prompt("", ("Enter: the same people.",), "Who took the second reading")
    return Prompt(f"{heading}: unlikely.", (), "k keep, r re-measure, s skip, or the new reading")


def _review(setting: Setting, state: State) -> Prompt:
    found = tally(setting, state)
    parts = [f"{found.read} read", f"{found.seen} looked for", f"{found.excused} not measured"]
    parts += [f"{found.kept} kept in spite of doubt"] if found.kept else []
    parts += [f"{found.skipped} skipped"] if found.skipped else []
    parts += [f"{found.open} still open"] if found.open else []
    details = _no_more_asked(setting, state)
    return Prompt(f"The end: {', '.join(parts)}.", details, "w write, b back to what is open, u undo, q stop")


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
    if asked.field is not None:
        return [
            Said("help", asked.field.help),
            Said("help", f"Enter takes what stands in brackets, - leaves it out, {ALWAYS}."),
        ]
    if asked.question is None:
        return [Said("help", "w writes the record as shown; b goes back; nothing that is open is taken for good.")]
    if asked.doubt:
        return [Said("help", "k keeps it with a second reading or a reason; r asks again; s leaves it out for now.")]
    return [Said("help", text) for text in (*_how(asked.question), _commands(asked.question))]


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
    return (
        f"Type {what}. s skip, n not measured because ..., n all (on every wheel left){with_what}, "
        f"r 3 box number 3 again, e end here, {ALWAYS}."
    )
