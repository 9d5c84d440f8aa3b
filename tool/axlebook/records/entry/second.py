"""The second person's reading of the box just filled: typed as `2nd 2 13/32 in`, as a sheet has it beside the first."""

from __future__ import annotations

from .answers import echoed, read_value
from .doubt import Outcome
from .header import LEFT_OUT, Refused
from .question import Slot
from .state import SECOND_BY, Event, State, fold
from .told import Said, news
from .walk import Setting, question_of

WORDS = ("2nd", "second")
WHO = SECOND_BY


def is_second(text: str) -> bool:
    """Whether a line is a second reading."""
    return text.lower().partition(" ")[0] in WORDS


def held(setting: Setting, state: State, text: str) -> str:
    """The second reading as it is kept, once it is known to be one of the box just filled."""
    question = question_of(setting, state, last(state))
    figure = text.partition(" ")[2].strip()
    if not figure:
        raise Refused(f"Write it behind the word: 2nd {question.least_count or '2 7/16 in'}.")
    return read_value(question, figure, state.header.get("unit", "")).text


def taken(setting: Setting, state: State, text: str, who: str) -> Outcome:
    """Keep it beside the first, `who` '' for the same people; where the two do not agree, that is asked about."""
    slot = last(state)
    by = "" if who == LEFT_OUT else who
    own = set(state.header.get("by", "").replace(",", " ").split())
    other = "" if set(by.replace(",", " ").split()) <= own else by
    events: tuple[Event, ...] = ({"slot": list(slot), "second": text, "by": other},)
    if state.header.get(WHO) != (by or LEFT_OUT):
        events = ({"header": WHO, "is": by or LEFT_OUT}, *events)
    found = news(setting, state.plain(), fold(events, state.plain()))
    if found.unlikely:
        events += ({"slot": list(slot), "doubt": "yes"},)
    measure = read_value(question_of(setting, state, slot), text, "")
    said = [Said("echo", f"{echoed(measure)}, the second reading{f' by {other}' if other else ''}")]
    return events, (*said, *(Said("unlikely", f"{f.message} {f.next}") for f in found.unlikely))


def last(state: State) -> Slot:
    """The box filled last, where that is a reading that stands alone."""
    for event in reversed(state.log):
        if "header" in event or "with" in event or "kept" in event or "doubt" in event:
            continue
        box = event.get("slot")
        slot = Slot(*map(str, box)) if isinstance(box, list) and len(box) == len(Slot._fields) else None
        entered = state.boxes.get(slot) if slot else None
        if slot is None or entered is None or not entered.value:
            break
        if entered.second:
            raise Refused("This box has its second reading already; u takes it back.")
        return slot
    raise Refused("A second reading is typed right after the first one of the same box.")
