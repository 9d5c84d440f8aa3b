"""The record that the answers make: an inspection as a tree, and which boxes stand where in it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from .question import Question, Slot
from .state import Entered, State

SETUP = ("hold", "clock", "air_temperature", "part_temperature", "instrument_temperature")
Tree = dict[str, Any]


class Draft:
    """The tree of the answers so far; `where` tells the boxes behind each entry of its lists."""

    def __init__(self, state: State, questions: Sequence[Question], engine: str, sheet: str = "") -> None:
        """Build it."""
        self.where: dict[str, tuple[Slot, ...]] = {}
        self.readings: list[Tree] = []
        self.observations: list[Tree] = []
        self.not_measured: list[Tree] = []
        for question in questions:
            boxes = [(slot, state.boxes[slot]) for slot in question.slots if slot in state.boxes]
            if question.is_read:
                self._readings(question, [(slot, box) for slot, box in boxes if box.value])
            else:
                self._observations(question, [(slot, box) for slot, box in boxes if box.seen])
            self._excuse(question, [(slot, box) for slot, box in boxes if box.because])
        self.tree = self._tree(state, engine, sheet)

    def _tree(self, state: State, engine: str, sheet: str) -> Tree:
        header = state.header
        tree: Tree = {"kind": "inspection", "measured_on": header.get("measured_on", "unknown")}
        if engine:
            tree["engine"] = engine
        tree["purpose"] = header.get("purpose", "shop")
        by = names(header.get("by", ""))
        if by:
            tree["by"] = by
        setup = {key: header[key] for key in SETUP if header.get(key)}
        if setup:
            tree["setup"] = setup
        used = sorted({reading["with"] for reading in self.readings if "with" in reading})
        if used:
            tree["instruments"] = used
        for key in ("readings", "observations", "not_measured"):
            if getattr(self, key):
                tree[key] = getattr(self, key)
        if sheet:
            tree["note"] = f"Typed in from the sheet {sheet}."
        return tree

    def _readings(self, question: Question, boxes: Sequence[tuple[Slot, Entered]]) -> None:
        """One entry for an instrument; what was kept in spite of doubt stands by itself, with its reason."""
        plain: dict[str, list[tuple[Slot, Entered]]] = {}
        for slot, box in boxes:
            if box.kept or box.second:
                self._add_reading(question, [(slot, box)], box.kept)
                if box.second and box.second_by:
                    self._add_second(question, slot, box)
            else:
                plain.setdefault(box.instrument, []).append((slot, box))
        for many in plain.values():
            self._add_reading(question, many)

    def _add_reading(self, question: Question, boxes: Sequence[tuple[Slot, Entered]], kept: str = "") -> None:
        tree = _named(question, "quantity")
        if boxes[0][1].instrument:
            tree["with"] = boxes[0][1].instrument
        tree["values"] = {slot.position: _values(box) for slot, box in boxes}
        if kept:
            tree["reason_kept"] = kept
        self._add("readings", tree, (slot for slot, _ in boxes))

    def _add_second(self, question: Question, slot: Slot, box: Entered) -> None:
        tree = _named(question, "quantity")
        if box.instrument:
            tree["with"] = box.instrument
        tree |= {"by": names(box.second_by), "values": {slot.position: box.second}}
        self._add("readings", tree, (slot,))

    def _observations(self, question: Question, boxes: Sequence[tuple[Slot, Entered]]) -> None:
        for slot, box in boxes:
            tree = _named(question, "looked_for")
            tree["answer"] = box.seen
            tree |= {key: text for key, text in box.sizes if text}
            self._add("observations", tree, (slot,))

    def _excuse(self, question: Question, boxes: Sequence[tuple[Slot, Entered]]) -> None:
        """What was not measured: by position, unless all of them were left out for the same reason."""
        reasons: dict[tuple[str, str], list[str]] = {}
        for slot, box in boxes:
            reasons.setdefault((box.because, box.note), []).append(slot.position)
        for (because, note), positions in reasons.items():
            head: Tree = {"quantity" if question.is_read else "looked_for": question.what}
            at: Tree = {} if len(positions) == len(question.positions) else {"positions": positions}
            tail = {"because": because} | ({"note": note} if note else {})
            self._add_excuse("parts" if question.by_part else "places", question.where, head, at | tail)

    def _add_excuse(self, key: str, where: str, head: Tree, tail: Tree) -> None:
        """Places of one reason together."""
        for entry in self.not_measured:
            if key in entry and {k: v for k, v in entry.items() if k != key} == head | tail:
                entry[key].append(where)
                return
        self.not_measured.append(head | {key: [where]} | tail)

    def _add(self, key: str, tree: Tree, slots: Iterable[Slot]) -> None:
        entries: list[Tree] = getattr(self, key)
        self.where[f"/{key}/{len(entries)}"] = tuple(slots)
        entries.append(tree)

    def slots_at(self, pointer: str) -> tuple[Slot, ...]:
        """The boxes behind a place in the record; of a reading the one position, where it is named."""
        entry = "/".join(pointer.split("/")[:3])
        slots = self.where.get(entry, ())
        named = pointer.rpartition("/values/")[2].replace("~1", "/").replace("~0", "~")
        return tuple(slot for slot in slots if slot.position == named) or slots

    @property
    def is_empty(self) -> bool:
        """Whether nothing was read, seen or excused."""
        return not (self.readings or self.observations or self.not_measured)


def names(text: str) -> list[str]:
    """People or instruments in one text.

    >>> names("lead, v3 v5")
    ['lead', 'v3', 'v5']
    """
    return list(dict.fromkeys(text.replace(",", " ").split()))


def _named(question: Question, key: str) -> Tree:
    return {key: question.what, "part" if question.by_part else "place": question.where}


def _values(box: Entered) -> str | list[str]:
    return [box.value, box.second] if box.second and not box.second_by else box.value


def new_id(day: str, about: str, purpose: str, taken: Mapping[str, Any] | Iterable[str]) -> str:
    """An id that is free: date, what it is about, purpose, and a number where that is taken.

    >>> new_id("2026-03-07", "d-2", "annual", {"2026-03-07-d-2-annual": ""})
    '2026-03-07-d-2-annual-2'
    """
    there = set(taken)
    stem = f"{day}-{about}-{purpose}"[:56].rstrip("-")
    found, number = stem, 1
    while found in there:
        number += 1
        found = f"{stem}-{number}"
    return found
