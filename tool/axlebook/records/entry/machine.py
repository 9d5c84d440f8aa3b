"""The conversation: a state and an answer give events to keep, words to say, and so the next state.

The caller keeps every event before it says the words. What is asked next follows from the state alone, so a
conversation can stop after any answer and go on from its events.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from . import doubt, second, with_what
from .answers import echoed, read_look, read_reason, read_size, read_value, require_on_the_wheel, without_space
from .header import (
    LEFT_OUT,
    Refused,
    as_listed,
    before_the_walk,
    insisted,
    numbered,
    offered,
    read_field,
    said_back,
)
from .question import Question, Slot
from .state import Event, State, apply, before_last, filled, fold, slots_of
from .told import News, Said, named, news, told_at_end, told_at_once
from .walk import (
    Asked,
    Setting,
    asked_now,
    candidates,
    draft_of,
    excused_slots,
    instrument_for,
    number_of,
    numbered_slots,
    open_slots,
    tally,
)
from .words import held_in, help_for, scope_of

BOUNDS = ("under ", "over ", "<", ">")  # how a reading may begin before its digits
SCOPES = ("here", "all")  # of n: every position here, every place
AGAIN = re.compile(r"(?:r|redo) ?(\d{1,4})", re.IGNORECASE)


@dataclass(frozen=True)
class Step:
    """What came of an answer."""

    state: State
    events: tuple[Event, ...] = ()
    said: tuple[Said, ...] = ()
    stop: bool = False  # the person goes; the draft stays
    write: bool = False  # the record is to be written


def answer(setting: Setting, state: State, text: str) -> Step:
    """Take one answer."""
    plain = " ".join(text.split())
    field = None if plain or state.mode else asked_now(setting, state).field
    if field is not None:
        plain = offered(field, setting.known, setting.last)  # Enter says what stands in the brackets
    try:
        return _command(setting, state, plain) or _answer(setting, state, plain)
    except Refused as refused:
        if refused.insist and state.refused == plain:
            return _insisted(setting, state, plain)
        return Step(replace(state, refused=plain if refused.insist else ""), said=(Said("no", refused.why),))


def _command(setting: Setting, state: State, text: str) -> Step | None:
    """What may be typed at any time."""
    match text.lower():
        case "q" | "quit":
            return Step(state, stop=True)
        case "u" | "undo":
            return _undone(setting, state)
        case "?" | "help":
            return Step(state, said=tuple(help_for(setting, state)))
    return None


def _undone(setting: Setting, state: State) -> Step:
    if state.mode:
        return Step(state.plain(), said=(Said("note", "Back to the question before."),))
    if not state.log:
        return Step(state, said=(Said("note", "There is nothing to take back."),))
    event: Event = {"undo": ""}
    said = Said("note", f"The last answer is taken back{_taken(setting, state)}.")
    return Step(apply(state, event), (event,), (said,))


def _taken(setting: Setting, state: State) -> str:
    """Which box the last answer was of, and what it said."""
    gone = state.log[len(before_last(state.log)) :]
    if "open" in gone[0]:
        return ": what was to be answered again stands as before"
    event = next((one for one in gone if slots_of(one)), None)
    if event is None:
        return ""
    slots = slots_of(event)
    number, told = number_of(setting, state, slots[0]), held_in(state, slots[0])
    told = f"the second reading {event['second']}" if "second" in event else told
    many = f" and {len(slots) - 1} more" if len(slots) > 1 else ""
    return f": box {number}{many}, {told}" if number and told else ""


def _answer(setting: Setting, state: State, text: str, *, again: bool = False) -> Step:
    if state.mode == "second":
        return _stepped_all(state, *second.taken(setting, state, state.held, doubt.reader(setting, text)))
    asked = asked_now(setting, state)
    if asked.field is not None:
        plain = before_the_walk(asked.field, text)
        known = read_field(asked.field, setting.known, plain, setting.last)
        return _stepped(state, {"header": asked.field.key, "is": known}, Said("echo", said_back(asked.field, known)))
    if second.is_second(text) and not asked.doubt:
        return _second(setting, state, text)
    if not asked.doubt and (box := AGAIN.fullmatch(text)):
        return _again(setting, state, int(box[1]))
    if asked.question is None or asked.slot is None:
        return _reviewed(setting, state, text)
    if asked.doubt:
        return _doubted(setting, state, asked, text)
    if state.mode == "because":
        return _excused(setting, state, asked.question, asked.slot, text)
    if asked.size is not None:
        if text.lower() in ("e", "end"):
            return Step(replace(state, mode="review"))
        size = read_size(asked.size, text, state.header.get("unit", ""))
        if not again:
            require_on_the_wheel(asked.question, asked.size, size)
        return _looked(setting, state, {"slot": list(asked.slot), "size": asked.size.key, "is": size}, size)
    commanded = _box_command(setting, state, asked.question, asked.slot, text)
    if commanded is not None:
        return commanded
    if asked.instrument:
        there = tuple(candidates(setting, state, asked.question))
        with_what.require_no_reading(asked.question, there, text, state.header.get("unit", ""))
        return _instrument(setting, state, asked.question, text)
    return _box(setting, state, asked.question, asked.slot, text)


def _insisted(setting: Setting, state: State, text: str) -> Step:
    """The same once more: taken as it is, though no record is there."""
    asked = asked_now(setting, state)
    if asked.field is not None:
        known = insisted(asked.field, setting.known, text)
        return _stepped(state, {"header": asked.field.key, "is": known}, Said("echo", said_back(asked.field, known)))
    if state.mode == "second":
        return _stepped_all(state, *second.taken(setting, state, state.held, as_listed(setting.known.people, text)))
    if asked.doubt and asked.slot is not None:
        who = as_listed(setting.known.people, text)
        return _stepped_all(state, *doubt.second(setting, state, asked.slot, state.held, who))
    if asked.size is not None:
        return _answer(setting, state, text, again=True)
    assert asked.question is not None
    return _instrument(setting, state, asked.question, text)


def _stepped(state: State, event: Event, *said: Said) -> Step:
    return Step(apply(state, event), (event,), said)


def _stepped_all(state: State, events: tuple[Event, ...], said: tuple[Said, ...]) -> Step:
    return Step(fold(events, state), events, said)


def _second(setting: Setting, state: State, text: str) -> Step:
    """A second reading of the box before; who took it is asked once."""
    held = second.held(setting, state, text)
    if second.WHO in state.header:
        return _stepped_all(state, *second.taken(setting, state, held, state.header[second.WHO]))
    return Step(replace(state.plain(), mode="second", held=held))


def _again(setting: Setting, state: State, number: int) -> Step:
    """A box by its number, to be answered again before all others."""
    slots = numbered_slots(setting, state)
    slot = slots[number - 1] if 1 <= number <= len(slots) else None
    if slot is None or slot not in state.boxes:
        raise Refused(f"Box {number} is not answered yet; it is asked in its turn.")
    told = held_in(state, slot)
    said = Said("note", f"Box {number} again; until now: {told}. u puts that back.")
    return _stepped(state, {"open": list(slot)}, said)


# -- a box ------------------------------------------------------------------------------------------------------------


def _box_command(setting: Setting, state: State, question: Question, slot: Slot, text: str) -> Step | None:
    word, _, rest = text.partition(" ")
    match word.lower():
        case "n":
            first, _, reason = rest.partition(" ")
            scope = first.lower() if first.lower() in SCOPES else ""
            reason = reason if scope else rest
            if not reason:
                return Step(replace(state, mode="because", held=scope))
            return _excused(setting, replace(state, held=scope), question, slot, reason)
        case "s" | "skip" if not rest:
            event = filled(slot, skipped=True)
            return _stepped(state, event, Said("note", "Skipped, this box alone; it is asked for again at the end."))
        case "e" | "end" if not rest:
            return Step(replace(state, mode="review"))
        case "w" | "with" if question.is_read:
            named = rest not in ("", "?")
            return _instrument(setting, state, question, rest) if named else _which(setting, state, question)
    return None


def _which(setting: Setting, state: State, question: Question) -> Step:
    there = numbered(tuple(candidates(setting, state, question)))
    return Step(
        state, said=(Said("note", f"Write w and the instrument: w 1, w gauge-2. There are: {there or 'none'}."),)
    )


def _instrument(setting: Setting, state: State, question: Question, text: str) -> Step:
    found, said = "", "It is not told what this is read with."
    if text not in ("", LEFT_OUT):
        there = tuple(candidates(setting, state, question))
        found = with_what.chosen(setting.known, there, text, asked=asked_now(setting, state).instrument)
        said = f"{question.title} with {found} from here on."
    return _stepped(state, {"with": found, "for": question.what}, Said("echo", said))


def _excused(setting: Setting, state: State, question: Question, slot: Slot, text: str) -> Step:
    """Not measured: at this box, here at every position that is open, or on every wheel that is."""
    because, note = read_reason(setting.known.reasons, text)
    slots = excused_slots(setting, state, question, slot)
    after = apply(state, filled(*slots, because=because, note=note))
    words = f": {note}" if note else ""
    said = [Said("echo", f"{scope_of(setting, state, question, slot)}: not measured, {because}{words}.")]
    if not open_slots(after, question) and any(after.boxes[one].value for one in question.slots):
        said += told_at_end(setting, after, question)
    return Step(after, (filled(*slots, because=because, note=note),), tuple(said))


def _box(setting: Setting, state: State, question: Question, slot: Slot, text: str) -> Step:
    if not text:
        raise Refused(
            "Nothing was typed, and a blank is never read as good. s skip, n not measured because ..., ? help."
        )
    if not question.is_read:
        event = filled(slot, seen=read_look(text))
        return _looked(setting, state, event, str(event["is"]["seen"]))
    return _read(setting, state, question, slot, text)


def _looked(setting: Setting, state: State, event: Event, told: str) -> Step:
    after = apply(state, event)
    found = news(setting, state, after)
    if found.refused:
        raise Refused(f"{found.refused[0].message} {found.refused[0].next}")
    return Step(after, (event,), (Said("echo", told or "Left out."), *told_at_once(found)))


def _read(setting: Setting, state: State, question: Question, slot: Slot, text: str) -> Step:
    """A figure: kept at once, and weighed against everything on record."""
    measure = read_value(question, text, state.header.get("unit", ""))
    before = apply(state.plain(), {"open": list(slot)})
    told = {"value": measure.text, "instrument": instrument_for(setting, state, question) or ""}
    found = news(setting, before, apply(before, filled(slot, **told)))
    if found.refused:
        raise Refused(f"{found.refused[0].message} {found.refused[0].next}")
    whose = _doubted_box(setting, before, slot, told, found)
    events: tuple[Event, ...] = (filled(slot, **told, unsettled=whose == slot),)
    if whose not in (None, slot):
        events += ({"slot": list(whose or ()), "doubt": "yes"},)
    after = fold(events, state)
    said = [Said("echo", echoed(measure)), *_lost_space(measure.text), *told_at_once(found)]
    if not found.unlikely and not open_slots(after, question):
        said += told_at_end(setting, after, question)
    return Step(after, events, tuple(said))


def _lost_space(text: str) -> list[Said]:
    """A word on a fraction of more than a whole, which a space lost by a thick finger makes too."""
    meant = without_space(text)
    words = f"{text} has no whole number before its fraction. If {meant} is meant: u, then {meant} with its space."
    return [Said("note", words)] if meant else []


def _doubted_box(setting: Setting, before: State, slot: Slot, told: dict[str, str], found: News) -> Slot | None:
    """The box that is asked about: the one just filled, or an earlier one that it shows to be unlikely."""
    boxes = named(setting, apply(before, filled(slot, **told)), found.unlikely)
    return None if not found.unlikely else slot if slot in boxes or not boxes else boxes[0]


# -- an unlikely reading ----------------------------------------------------------------------------------------------


def _doubted(setting: Setting, state: State, asked: Asked, text: str) -> Step:
    question, slot = asked.question, asked.slot
    assert question is not None
    assert slot is not None
    if second.is_second(text) and state.mode != "who":  # typed here as at any other box
        return _kept(setting, replace(state, mode="keep"), question, slot, text.partition(" ")[2].strip())
    if state.mode == "keep":
        return _kept(setting, state, question, slot, text)
    if state.mode == "who":
        by = doubt.reader(setting, text)
        return _stepped_all(state, *doubt.second(setting, state, slot, state.held, by))
    match text.lower():
        case "k" | "keep":
            return Step(replace(state, mode="keep"))
        case "r" | "re-measure" | "remeasure":
            return _stepped(state, {"open": list(slot)}, Said("note", "Measure it again."))
        case "s" | "skip":
            event = filled(slot, skipped=True)
            return _stepped(state, event, Said("note", "Not kept; it is asked for again at the end."))
    if text[:1].isdecimal() or text[:1] in (".", "-") or text.lower().startswith(BOUNDS):
        return _read(setting, state, question, slot, text)
    raise Refused("Write k (keep), r (re-measure) or s (skip), or type the new reading.")


def _kept(setting: Setting, state: State, question: Question, slot: Slot, text: str) -> Step:
    """Kept for a reason, or for a second reading that says the same."""
    if not text or text.lower() in ("k", "r", "s", "y", "yes", "keep"):
        raise Refused("A reading that is unlikely needs a second one, or the reason why it stands.")
    try:
        measure = read_value(question, text, state.header.get("unit", ""))
    except Refused:
        if text[:1].isdecimal():
            raise
        return _stepped_all(state, *doubt.with_reason(setting, state, slot, text))
    if state.boxes[slot].second:
        raise Refused(
            "Two readings stand here. Give the reason in words; or u, then type the third one in their place."
        )
    contradicted = doubt.contradicted(setting, state, slot, measure.text)
    if contradicted:
        return Step(state.plain(), said=(Said("no", contradicted),))
    return Step(replace(state, mode="who", held=measure.text))


# -- the end ----------------------------------------------------------------------------------------------------------


def _reviewed(setting: Setting, state: State, text: str) -> Step:
    match text.lower():
        case "w" | "write":
            if draft_of(setting, state).is_empty:
                raise Refused("Nothing was read, looked for or excused: there is nothing to write.")
            return Step(state, write=True)
        case "b" | "back":
            if state.mode == "review" and tally(setting, state).open:
                return Step(state.plain())
            event: Event = {"open": "skipped"}
            return _stepped(state, event, Said("note", "Back to what was skipped."))
    raise Refused("Write w (write the record), b (back to what is open), u (undo) or q (stop; the draft stays).")
