"""What was answered so far: a fold over events. A draft keeps the events, one a line, and so can always go on.

An event is a small mapping of texts:
    {"header": key, "is": text}                     something asked before the walk
    {"with": instrument, "for": quantity}           what a quantity is read with from here on
    {"slot": [what, where, position], "is": {...}}  a box filled: value, seen, because (not measured) or skipped
    {"slot": [...], "size": key, "is": text}        how large a thing is that was seen; '' where it was not told
    {"slot": [...], "kept": reason}                 an unlikely reading that stands
    {"slot": [...], "doubt": "yes"}                 another answer made the reading in this box unlikely
    {"slot": [...], "second": text, "by": person}   the same read again; by '' the same people
    {"open": [...]}                                 a box is emptied, to be read again; [[...], [...]]: several
    {"open": "skipped"}                             what was skipped is asked again
    {"undo": ""}                                    the last answer is taken back
In place of one `slot` there may be several `slots` that are answered at once.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from .question import Slot

Event = Mapping[str, Any]
EMPTY: Mapping[str, Any] = {}
SECOND_BY = "second_by"  # what is asked between two readings, and kept with what is asked before the walk
TEXTS = ("value", "instrument", "seen", "because", "note")


@dataclass(frozen=True)
class Entered:
    """What stands in a box."""

    value: str = ""
    instrument: str = ""
    seen: str = ""  # seen, not seen, unknown
    sizes: tuple[tuple[str, str], ...] = ()
    because: str = ""
    note: str = ""
    skipped: bool = False
    settled: bool = True  # False: an unlikely reading of which nobody has said yet what to do
    kept: str = ""
    second: str = ""
    second_by: str = ""


@dataclass(frozen=True)
class State:
    """All answers so far; `mode` and `held` are of a question asked in between, which no draft keeps."""

    log: tuple[Event, ...] = ()
    header: Mapping[str, str] = field(default_factory=dict)
    instruments: Mapping[str, str] = field(default_factory=dict)
    boxes: Mapping[Slot, Entered] = field(default_factory=dict)
    again: Slot | None = None  # the box opened last: asked before all others while it is empty
    mode: str = ""  # because, keep, who, review
    held: str = ""
    refused: str = ""  # an answer that is taken when it comes once more

    def plain(self) -> State:
        """The state with nothing asked in between."""
        return replace(self, mode="", held="", refused="")

    @property
    def unsettled(self) -> Slot | None:
        """The box with an unlikely reading that waits for an answer."""
        return next((slot for slot, entered in self.boxes.items() if not entered.settled), None)


def fold(events: Iterable[Event], state: State | None = None) -> State:
    """The state after some events.

    >>> slot = ["flange_height", "driver-1 left", "worst"]
    >>> fold([{"slot": slot, "is": {"value": "1 1/8 in"}}, {"undo": ""}]).boxes
    {}
    """
    found = state or State()
    for event in events:
        found = apply(found, event)
    return found


def apply(state: State, event: Event) -> State:
    """The state after one event more; one that is not understood changes nothing."""
    if "undo" in event:
        return fold(before_last(state.log))
    logged = replace(state.plain(), log=(*state.log, event))
    if "header" in event:
        return replace(logged, header={**state.header, str(event["header"]): str(event.get("is", ""))})
    if "with" in event:
        return replace(logged, instruments={**state.instruments, str(event.get("for", "")): str(event["with"])})
    if "open" in event:
        opened = _named(event["open"])
        kept = {slot: box for slot, box in state.boxes.items() if slot not in opened}
        if event["open"] == "skipped":
            kept = {slot: box for slot, box in state.boxes.items() if not box.skipped}
        return replace(logged, boxes=kept, again=opened[0] if opened else None)
    slots = slots_of(event)
    if not slots:
        return state
    return replace(logged, boxes={**state.boxes, **{slot: _filled(state.boxes, slot, event) for slot in slots}})


def _named(which: object) -> list[Slot]:
    many = which if isinstance(which, (list, tuple)) and all(isinstance(o, (list, tuple)) for o in which) else [which]
    return [slot for slot in map(_slot, many) if slot is not None]


def before_last(log: tuple[Event, ...]) -> tuple[Event, ...]:
    """The events without those of the last answer."""
    return log[: _last_answer(log)]


def _last_answer(log: tuple[Event, ...]) -> int:
    """Where the last answer begins: what only adds to a box goes with the box, a second reading after it does not."""
    for index in range(len(log) - 1, -1, -1):
        event = log[index]
        if "header" in event or "with" in event or "open" in event or isinstance(event.get("is"), Mapping):
            return index
        if "second" in event and not any("kept" in one for one in log[index + 1 : index + 2]):
            asked_for = index > 0 and log[index - 1].get("header") == SECOND_BY
            return index - asked_for
    return 0


def slots_of(event: Event) -> list[Slot]:
    """The boxes that an event is about."""
    named = event.get("slots", [event.get("slot")])
    found = map(_slot, named) if isinstance(named, (list, tuple)) else ()
    return [slot for slot in found if slot is not None]


def _slot(named: object) -> Slot | None:
    if not isinstance(named, (list, tuple)) or len(named) != 3:
        return None
    return Slot(*map(str, named))


def _filled(boxes: Mapping[Slot, Entered], slot: Slot, event: Event) -> Entered:
    was = boxes.get(slot, Entered())
    if "size" in event:
        return replace(was, sizes=(*was.sizes, (str(event["size"]), str(event.get("is", "")))))
    if "doubt" in event:
        return replace(was, settled=False)
    if "kept" in event:
        return replace(was, kept=str(event["kept"]), settled=True)
    if "second" in event:
        return replace(was, second=str(event["second"]), second_by=str(event.get("by", "")), settled=True)
    told = event.get("is")
    told = told if isinstance(told, Mapping) else EMPTY
    value, instrument, seen, because, note = (str(told.get(key, "")) for key in TEXTS)
    return Entered(value, instrument, seen, (), because, note, bool(told.get("skipped")), not told.get("unsettled"))


def filled(*slots: Slot, **told: Any) -> Event:
    """The event of boxes that are filled."""
    known = {key: value for key, value in told.items() if value}
    if len(slots) == 1:
        return {"slot": list(slots[0]), "is": known}
    return {"slots": [list(slot) for slot in slots], "is": known}
