"""What of a record cannot be used because of a fault in it.

Less than the faulty value is never left out, and more where dropping the value alone would let something else
speak in its place: a reading without its own temperature takes that of its record, a limit without its
conditions judges everything, an engine without its own gauge takes the ledger's.
"""

from __future__ import annotations

import copy
from typing import Any

from axlebook.sources.schema_files import Schema, subschemas

WHOLE = ""

#: Kinds that decide on other records: used as they were meant, or not at all.
_ALL_OR_NOTHING = frozenset({"limit-set", "plan", "waiver", "correction"})
_DECIDES_NOTHING = frozenset({"note", "attachments", "title", "transcribed"})

Steps = tuple[Any, ...]


def left_out(kind: str, schema: Schema, lists: frozenset[str], tree: dict[str, Any], steps: Steps) -> Steps:
    """Return the steps to the part to leave out for a fault at `steps`; () is the whole record."""
    if not steps:
        return ()
    in_entry = steps[0] in lists and len(steps) > 1
    if in_entry:
        return _of_entry(steps)
    if steps[0] == "overrides" or (kind in _ALL_OR_NOTHING and steps[0] not in _DECIDES_NOTHING):
        return ()
    return _not_required(schema, tree, steps)


def _of_entry(steps: Steps) -> Steps:
    """An entry of a list stands or falls as one, but for its note and for single values by position."""
    if steps[2:3] == ("note",):
        return steps
    if steps[2:3] == ("values",) and len(steps) > 3:
        return steps[:4]
    return steps[:2]


def _not_required(schema: Schema, tree: Any, steps: Steps) -> Steps:
    """Climb from a faulty value until what falls is not required by what holds it."""
    holders: list[tuple[Any, Schema]] = []  # each value on the way that holds the next step
    for step in steps:
        holders.append((tree, schema))
        if isinstance(tree, list) or step in tree:
            tree = tree[step]
        schema = _inside(schema, step, tree)
    while steps:
        holder, asked = holders[len(steps) - 1]
        if isinstance(holder, dict):
            if steps[-1] not in asked.get("required", ()):
                return steps
        elif isinstance(holder[steps[-1]], str) and len(holder) > 1 and len(holders) == len(steps):
            return steps  # one text of a list, such as one of several people
        steps = steps[:-1]
    return ()


def _inside(schema: Schema, step: Any, value: Any) -> Schema:
    found: Any = schema.get("properties", {}).get(step) if isinstance(step, str) else None
    if found is None:
        found = schema.get("items" if isinstance(step, int) else "additionalProperties")
    if not isinstance(found, dict):
        return next((at for branch in schema.get("anyOf", ()) if (at := _inside(branch, step, value))), {})
    branches = [branch for branch in subschemas(found) if branch.get("type") == _type_of(value)]
    return branches[0] if "anyOf" in found and branches else found


def _type_of(value: Any) -> str:
    return "object" if isinstance(value, dict) else "array" if isinstance(value, list) else "string"


def without(tree: dict[str, Any], pointers: set[str], entries: frozenset[str]) -> dict[str, Any] | None:
    """Return the tree without the parts at these JSON Pointers.

    Left-out entries of lists become None, so that the others keep their number; a list of words that would be empty
    then goes as a whole. `entries` are the lists of the kind that hold entries.
    """
    if not pointers:
        return tree
    if WHOLE in pointers:
        return None
    rest = copy.deepcopy(tree)
    for pointer in sorted(pointers):
        steps = [step.replace("~1", "/").replace("~0", "~") for step in pointer.split("/")[1:]]
        _take_out(rest, steps, entries)
    return rest


def _take_out(tree: dict[str, Any], steps: list[str], entries: frozenset[str]) -> None:
    holders: list[Any] = [tree]
    for step in steps[:-1]:
        holder = holders[-1]
        below = holder[int(step)] if isinstance(holder, list) else holder.get(step)
        if below is None:  # a larger part that held it is gone already
            return
        holders.append(below)
    last = holders[-1]
    if isinstance(last, list):
        last[int(steps[-1])] = None
        if not any(last) and isinstance(holders[-2], dict) and steps[0] not in entries:
            holders[-2].pop(steps[-2])  # a list of words that is empty now would be another fault
        return
    last.pop(steps[-1], None)
    if not last and len(steps) == 4 and steps[2] == "values":
        tree[steps[0]][int(steps[1])] = None  # a reading without any value is none
