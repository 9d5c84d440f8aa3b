"""New records from the lines of a file: one inspection a session, its entries in the order of the rows."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from ..forms import position_named
from .columns import COLUMNS, PARTING, SETUP
from .compare import canonical
from .lines import Line, Told

AIR = "air_temperature"
ANYWHERE = "worst"  # the one position of what is asked for at none: left out there, it was left out
Tree = dict[str, Any]
Asked = Callable[[Line], Collection[str]]
_ENTRY = ("place", "part", *(c.key for c in COLUMNS if c.of in ("reading", "look", "both") and c.key != "value"))
_LISTS = frozenset({"spokes"})


@dataclass
class New:
    """A record to be written; `rows` tells the row of the file behind a place in it."""

    tree: Tree
    about: str
    lines: tuple[Line, ...]
    rows: dict[str, int] = field(default_factory=dict)

    def row_at(self, pointer: str) -> int:
        """The row behind a place in the record, or behind what holds it."""
        found = pointer.removesuffix("#key")
        while found and found not in self.rows:
            found = found.rpartition("/")[0]
        return self.rows.get(found, self.lines[0].row)

    def count(self, kind: str) -> int:
        """How many lines of a kind it holds."""
        return sum(line.kind == kind for line in self.lines)


def build_new(lines: Iterable[Line], quantities: Collection[str], asked: Asked = lambda _: ()) -> list[New]:
    """The records of some lines, in the order of their first rows.

    `quantities` tells what is measured, `asked` the positions at which the plans ask for what a line is of.
    """
    sessions: dict[tuple[str, ...], list[Line]] = defaultdict(list)
    for line in lines:
        day, engine, purpose, by = line.session
        sessions[day, engine or line.where.partition(" ")[0], purpose, *sorted(by.split())].append(line)
    return [_record(many, quantities, asked) for many in sessions.values()]


def _record(lines: Sequence[Line], quantities: Collection[str], asked: Asked) -> New:
    day, engine, purpose, by = lines[0].session
    tree: Tree = {"kind": "inspection", "measured_on": day}
    if engine:
        tree["engine"] = engine
    tree["purpose"] = purpose
    if by:
        tree["by"] = by.split()
    setup = _setup([line for line in lines if line.kind == "reading"])
    if setup:
        tree["setup"] = setup
    used = sorted({line.get("with") for line in lines if line.get("with")})
    if used:
        tree["instruments"] = used
    new = New(tree, engine or lines[0].where.partition(" ")[0], tuple(lines))
    _readings(new, setup)
    _looks(new)
    _excuses(new, quantities, asked)
    return new


def _setup(readings: Sequence[Line]) -> Told:
    """What all readings share of how they were held and how warm it was."""
    shared = {}
    for key in SETUP:
        said = {str(canonical({key: line.get(key)})): line.get(key) for line in readings}
        if len(said) == 1 and (text := next(iter(said.values()))):
            shared[key] = text
    return shared


def _readings(new: New, setup: Told) -> None:
    grouped: dict[tuple[tuple[str, str], ...], list[Line]] = defaultdict(list)
    for line in new.lines:
        if line.kind == "reading":
            own = {
                key: text for key, text in line.told.items() if key not in setup and key not in ("position", "value")
            }
            grouped[tuple(sorted(own.items()))].append(line)
    for many in grouped.values():
        entry = {"quantity": many[0].get("what")} | _entry(many[0])
        own_setup = {key: many[0].get(key) for key in SETUP if key not in setup and many[0].get(key)}
        entry |= {key: text for key, text in own_setup.items() if key != AIR}
        values = {line.get("position"): _values(line.get("value")) for line in many}
        pointer = _add(new, "readings", _with_values(entry, values), many[0].row)
        for line in many:
            new.rows[f"{pointer}/values/{line.get('position')}"] = line.row


def _with_values(entry: Tree, values: Tree) -> Tree:
    """The values before the free words that end an entry."""
    last = {key: entry.pop(key) for key in ("reason_kept", "note") if key in entry}
    return entry | {"values": values} | last


def _values(text: str) -> str | list[str]:
    parts = [part.strip() for part in text.split(PARTING.strip())]
    return parts[0] if len(parts) == 1 else parts


def _looks(new: New) -> None:
    for line in new.lines:
        if line.kind == "look":
            _add(new, "observations", {"looked_for": line.get("what")} | _entry(line), line.row)


def _excuses(new: New, quantities: Collection[str], asked: Asked) -> None:
    """What was not measured: by position, unless a row says it of all, or all that are asked for were left out."""
    grouped: dict[tuple[str, ...], list[Line]] = defaultdict(list)
    for line in new.lines:
        if line.kind == "excuse":
            key = "places" if line.get("place") else "parts"
            grouped[line.get("what"), key, line.get("because"), line.get("note"), line.where].append(line)
    entries: dict[tuple[tuple[str, ...], ...], list[Line]] = defaultdict(list)
    for (*same, _), many in grouped.items():
        left = tuple(dict.fromkeys(position_named(line.get("position")) for line in many))
        whole = "" in left or set(left) >= set(asked(many[0]) or (ANYWHERE,))
        entries[tuple(same), () if whole else left].append(many[0])
    for ((what, key, because, note), positions), many in entries.items():
        entry: Tree = {
            "quantity" if what in quantities else "looked_for": what,
            key: [line.where for line in many],
        }
        entry |= {"positions": list(positions)} if positions else {}
        _add(new, "not_measured", entry | {"because": because} | ({"note": note} if note else {}), many[0].row)


def _entry(line: Line) -> Tree:
    return {key: line.get(key).split() if key in _LISTS else line.get(key) for key in _ENTRY if line.get(key)}


def _add(new: New, key: str, entry: Tree, row: int) -> str:
    entries = new.tree.setdefault(key, [])
    pointer = f"/{key}/{len(entries)}"
    entries.append(entry)
    new.rows[pointer] = row
    return pointer


def with_one_air(lines: Sequence[Line], refuse: Callable[[Line, str], None]) -> list[Line]:
    """The lines, the air temperature of a session's first reading that tells it told for all its readings.

    A record has one air temperature; a session that was given two is refused at the second.
    """
    found: dict[tuple[str, ...], str] = {}
    for line in lines:
        told = line.get(AIR)
        if told and line.kind == "reading":
            first = found.setdefault(line.session, told)
            if canonical({AIR: first}) != canonical({AIR: told}):
                refuse(line, first)
    return [
        replace(line, told=line.told | {AIR: found[line.session]})
        if line.kind == "reading" and line.session in found
        else line
        for line in lines
    ]
