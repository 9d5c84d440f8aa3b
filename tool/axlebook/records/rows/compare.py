"""What of a file is on record already: then it is not written again, and never over what was written.

A row is on record where a record says the same of the same place on the same day by the same people, figures
compared by what they measure. Where a record says something else there, the file is refused: a reading on record is
changed by a correction alone.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field

from axlebook.quantities import NotAMeasure, Quantity, parse_measure

from ..planes import plane_named
from ..session import Session
from .cells import spaced
from .columns import BY_KEY, PARTING, UNKNOWN, Column
from .lines import Line, Told
from .table import Wrong
from .told import all_lines

Same = tuple[object, ...]
_WHO_AND_WHERE = ("measured_on", "what", "place", "part", "position", "by", "where", "when", "angle")
_PLANES = frozenset({"where", "clock"})
_NOT_COMPARED = frozenset({"purpose", "engine"})  # the engine is compared where it says which place is meant


@dataclass
class Compared:
    """The lines of a file, parted."""

    new: list[Line] = field(default_factory=list)
    on_record: list[tuple[Line, str]] = field(default_factory=list)  # with the record's id
    again: int = 0  # rows that say once more that a thing was not measured
    wrong: list[Wrong] = field(default_factory=list)


class Shelf:
    """What is on record, by place, day and people."""

    def __init__(self, sessions: Iterable[Session]) -> None:
        self._lines: dict[Same, list[tuple[str, Line]]] = defaultdict(list)
        self._read: set[Same] = set()
        for session, line in all_lines(sessions):
            self._lines[_shelf_of(line)].append((session.id, line))
            if line.kind == "reading":
                self._read.add(_all_round(line, "excuse"))

    def find(self, line: Line) -> tuple[str, str]:
        """The record that says it and '', or '' and why it cannot be written; both '' where it is new."""
        found = [one for one in self._lines.get(_shelf_of(line), ()) if _meet(line, one[1])]
        mine = canonical(line.told)
        for record, other in found:
            if canonical(other.told) == mine or (line.kind == "excuse" and self._covers(other, line)):
                return record, ""
        for record, other in found:
            differs = _contradiction(line, other)
            if differs:
                return "", f"{record} has {differs}"
        return "", ""

    def _covers(self, other: Line, line: Line) -> bool:
        """Whether an excuse on record says what a row says, though one of the two names no position.

        What was not measured at all was not measured at a position of it. The other way round, where the rest was
        read, a row without a position is of a sheet that was written before sheets told it.
        """
        if canonical(line.told | {"position": ""}) != canonical(other.told | {"position": ""}):
            return False
        return not other.get("position") or (not line.get("position") and _all_round(line, "excuse") in self._read)


def _shelf_of(line: Line) -> Same:
    """Where a line is looked for; an excuse beside those of the other positions, of which one may hold it."""
    return _all_round(line, line.kind) if line.kind == "excuse" else place_of(line)


def _all_round(line: Line, kind: str) -> Same:
    """What a line is of, without its position, and what is told of readings alone."""
    keys = ("measured_on", "engine" if line.get("place") else "part", "what", "place", "part", "by")
    return (kind, *(_canonical(key, line.get(key)) for key in keys))


def _meet(line: Line, other: Line) -> bool:
    """Whether two lines of one shelf speak of the same: of one position, or one of the two of all."""
    if not line.get("position") or not other.get("position"):
        return True
    return place_of(line) == place_of(other)


def compare(lines: Iterable[Line], shelf: Shelf) -> Compared:
    """Part the lines of a file."""
    found = Compared()
    first: dict[Same, Line] = {}
    for line in lines:
        record, refused = shelf.find(line)
        if record:
            found.on_record.append((line, record))
            continue
        if refused:
            found.wrong.append(_changed(line, refused))
            continue
        key = (*place_of(line), _canonical("with", line.get("with")))
        earlier = first.setdefault(key, line)
        if earlier is line:
            found.new.append(line)
        elif line.kind == "excuse" and canonical(earlier.told) == canonical(line.told):
            found.again += 1
        else:
            found.wrong.append(_twice(line, earlier))
    return found


def _changed(line: Line, differs: str) -> Wrong:
    return Wrong(
        line.row, "", f"{line.get('what')} at {line.where} {line.get('position')}".rstrip() + f": {differs}.",
        "Import never alters a record: take the row out, or write a correction (axlebook new correction ID).",
    )  # fmt: skip


def _twice(line: Line, earlier: Line) -> Wrong:
    return Wrong(
        line.row, "", f"row {earlier.row} is of the same place, day and people.",
        "Take one out; a second reading of one place stands in the same cell, behind a semicolon."
        if line.kind == "reading" else "Take one out, or tell them apart by their angle.",
    )  # fmt: skip


def place_of(line: Line) -> Same:
    """What a line is of: two lines alike in this speak of one thing."""
    engine = line.get("engine") if line.get("place") else ""
    return (line.kind, engine, *(_canonical(key, line.get(key)) for key in _WHO_AND_WHERE))


def canonical(told: Told) -> dict[str, Same]:
    """What a line says, such that the same figures are equal however they are written."""
    return {key: _canonical(key, text) for key, text in told.items() if text and key not in _NOT_COMPARED}


def _canonical(key: str, text: str) -> Same:
    column: Column = BY_KEY[key]
    if column.sort == "names":
        return tuple(sorted(text.split()))
    if column.sort in ("value", "temperature", "angle", "length", "any", "position"):
        return tuple(_figure(part.strip()) for part in text.split(PARTING.strip()))
    return (plane_named(text) if key in _PLANES else spaced(text),)


def _figure(text: str) -> object:
    if not text or text == UNKNOWN:
        return text
    try:
        found = parse_measure(text)
    except NotAMeasure:
        return text
    return (found.kind, found.exact) if isinstance(found, Quantity) else (found.kind, found.low_exact, found.high_exact)


def _contradiction(line: Line, other: Line) -> str:
    """What a record has otherwise where a file speaks of the same; '' where both may stand side by side."""
    mine, its = canonical(line.told), canonical(other.told)
    same_instrument = mine.get("with") == its.get("with") or not (line.get("with") and other.get("with"))
    same_value = all(mine.get(key) == its.get(key) for key in ("value", "answer", "because"))
    if not same_instrument and not same_value:
        return ""  # read with another instrument, and so another reading
    keys = [key for key in BY_KEY if mine.get(key) != its.get(key)]
    key = "because" if "because" in keys else keys[0]
    return f"{other.get(key) or 'nothing'} there as {BY_KEY[key].head}, the row {line.get(key) or 'nothing'}"
