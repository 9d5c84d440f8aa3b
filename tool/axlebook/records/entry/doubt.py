"""What becomes of an unlikely reading: kept for a reason, or for a second reading that says the same."""

from __future__ import annotations

from axlebook.quantities import Quantity, parse_measure

from .header import HEADER, OF_THE_WALK, Refused, read_field
from .question import Slot
from .state import Event, State, apply, filled, fold
from .told import Said, boxes_of, news, told_at_end, told_once_kept, with_the_usual
from .walk import Setting, draft_of, open_slots, question_of

Outcome = tuple[tuple[Event, ...], tuple[Said, ...]]
_BY = next(field for field in HEADER if field.key == "by")
_AT_A_BOX = ("r", "s", "skip", "keep", "y", "yes")


def _without(state: State, slot: Slot) -> State:
    return apply(state.plain(), {"open": list(slot)})


def said_of(setting: Setting, state: State, slot: Slot) -> list[Said]:
    """Why the reading in a box is unlikely."""
    found = news(setting, _without(state, slot), state).unlikely
    return [Said("unlikely", f"{finding.message} {finding.next}") for finding in found]


def with_reason(setting: Setting, state: State, slot: Slot, reason: str, *before: Event) -> Outcome:
    """Kept, with the reason; other boxes that the same doubt speaks of are kept with it."""
    without = _without(state, slot)
    doubted = news(setting, without, state)
    slots = [list(one) for one in boxes_of(setting, state, doubted.unlikely, slot)]
    events: tuple[Event, ...] = (*before, {"slots": slots, "kept": reason})
    after, question = fold(events, state.plain()), question_of(setting, state, slot)
    said = [Said("echo", f"Kept: {reason}"), *told_once_kept(setting, without, doubted, after)]
    if not open_slots(after, question):
        said += told_at_end(setting, after, question)
    return events, tuple(said)


def contradicted(setting: Setting, state: State, slot: Slot, text: str) -> str:
    """Why a second reading does not bear the first out; '' where it does."""
    before = _without(state, slot)
    alone = apply(before, filled(slot, value=text, instrument=state.boxes[slot].instrument))
    first = state.boxes[slot].value
    if not news(setting, before, alone).unlikely:
        why = f"{text} by itself fits what is on record, and {first} does not: the second does not bear the first out."
    elif _are_apart(setting, state, slot, text):
        why = f"{first} and {text} are too far apart for one to bear the other out."
    else:
        return ""
    return f"{why} Type {text} to put it in its place, or keep {first} with a reason."


def _are_apart(setting: Setting, state: State, slot: Slot, text: str) -> bool:
    """Whether two readings of one box are two different figures, so that neither is a word for the other.

    By the instrument, where its record says what two readings may differ by; and the second must lie nearer to the
    first than half of what the first is off by, which holds where no instrument is on record too.
    """
    event: Event = {"slot": list(slot), "second": text, "by": ""}
    both = apply(state.plain(), event)
    draft = draft_of(setting, both)
    found = setting.judge(with_the_usual(setting, both))
    if any(one.check == "repeats-apart" and slot in draft.slots_at(one.place.pointer) for one in found):
        return True
    first, second = parse_measure(state.boxes[slot].value), parse_measure(text)
    expected = _expected(setting, state, slot)
    if expected is None or not isinstance(first, Quantity) or not isinstance(second, Quantity):
        return False
    return abs(float(second.exact - first.exact)) > abs(float(first.exact) - expected) / 2


def _expected(setting: Setting, state: State, slot: Slot) -> float | None:
    """What the reading in a box was held against, in metres; None where no figure says."""
    found = news(setting, _without(state, slot), state).unlikely
    told = (figure for one in found for figure in one.figures if figure.name == "expected" and figure.unit == "mm")
    return next((float(figure.value) / 1000 for figure in told), None)


def reader(setting: Setting, text: str) -> str:
    """Who took the second reading; '' for the same people. What only a box can be told is nobody's name."""
    if text not in setting.known.people and (OF_THE_WALK.fullmatch(text) or text.lower() in _AT_A_BOX):
        raise Refused(f"{text[:30]} is for the boxes. Here: who took the second reading; Enter: the same people, "
                      "u goes back.")  # fmt: skip
    return "" if text in ("", "-", "=") else read_field(_BY, setting.known, text, {})


def second(setting: Setting, state: State, slot: Slot, text: str, by: str) -> Outcome:
    """Kept, for a second reading; one by other people stands as a reading of theirs."""
    own = set(state.header.get("by", "").replace(",", " ").split())
    other = "" if set(by.replace(",", " ").split()) <= own else by
    event: Event = {"slot": list(slot), "second": text, "by": other}
    found = news(setting, state.plain(), apply(state, event))
    differs = [finding for finding in found.unlikely if finding.check == "second-reader-disagrees"]
    if differs:
        raise Refused(f"{differs[0].message} The two cannot both stand: re-measure, or keep with a reason.")
    who = f" by {other}" if other else ""
    return with_reason(setting, state, slot, f"read again{who}: {text}", event)
