"""What the schemas find wrong, in our own words: one problem for each place, one cause for each problem."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import islice
from typing import Any

from axlebook.sources.refusals import shown
from axlebook.sources.schema_faults import Fault
from axlebook.sources.schema_files import Schema
from axlebook.sources.schema_problems import KEY, Wording, format_wording, nearest

_LISTED = 12
_MOST_KEYS = 50
_TYPES: dict[str, type] = {"object": dict, "array": list, "string": str, "number": str, "integer": str, "boolean": str}
_SHAPES: dict[Any, str] = {dict: "a group of names with values", list: "a list", str: "one value"}
_ITEMS = {"quantity": "a reading", "looked_for": "an observation", "of": "an examination"}

_NAMED_ALREADY = frozenset({"missing-key", "place-and-part", "wrong-shape", "unknown-key"})

Found = tuple[tuple[Any, ...], Wording]  # the steps to the place, with KEY last for a key's own place


def word_faults(faults: Iterable[Fault]) -> Iterator[Found]:
    """Yield place and words of faults, each place once."""
    seen: set[tuple[Any, ...]] = set()
    for fault in faults:
        for steps, wording in _word(fault):
            if (steps, wording.message) not in seen and steps not in seen:
                seen.add((steps, wording.message) if wording.check == "missing-key" else steps)
                yield steps, _with_name(steps, wording)


def _with_name(steps: tuple[Any, ...], wording: Wording) -> Wording:
    """Say under which name a faulty value stands, where its words do not say so yet."""
    names = [step for step in steps if isinstance(step, str)]
    if not names or names[-1] == KEY or wording.check in _NAMED_ALREADY:
        return wording
    said = wording.message[:1].lower() + wording.message[1:]
    return wording._replace(message=f"`{shown(names[-1])}`: {said}")


def _word(fault: Fault) -> Iterator[Found]:
    steps = fault.steps
    if fault.of_key:
        yield (*steps, fault.value, KEY), _value_wording(fault)
    elif fault.keyword == "anyOf" and fault.value != "":
        yield from _best_branch(fault, steps)
    elif fault.keyword == "additionalProperties":
        yield from _unknown_keys(fault, steps)
    elif fault.keyword == "required":
        yield from _missing_keys(fault, steps)
    elif fault.keyword == "oneOf":
        yield _place_or_part(fault, steps)
    else:
        yield steps, _value_wording(fault)


def _best_branch(fault: Fault, steps: tuple[Any, ...]) -> Iterator[Found]:
    """Go on with the branch that is of the value's shape: the others would only confuse."""
    branches = fault.asked
    fitting = [number for number, branch in enumerate(branches) if _fits(branch, fault.value)]
    if not fitting:
        wanted = list(dict.fromkeys(_SHAPES[_kind_of(branch)] for branch in branches))
        yield steps, Wording("wrong-shape", f"{_named(steps)} must be {' or '.join(wanted)}, not "
                             f"{_SHAPES[type(fault.value)]}.", "Write it as the template of this kind shows.")
        return
    words = [word for number in fitting for word in _words(branches[number])]
    for inner in fault.branches[fitting[0]]:
        for place, wording in _word(inner):
            also = f" Or write {_either(words)}." if words and wording.check == "not-a-measure" else ""
            yield place, wording._replace(next=wording.next + also)


def _kind_of(schema: Schema) -> type:
    said = schema.get("type", "string")
    return _TYPES[said if isinstance(said, str) else said[0]]


def _fits(schema: Schema, value: Any) -> bool:
    return isinstance(value, _kind_of(schema))


def _words(schema: Schema) -> list[str]:
    found = schema["enum"] if "enum" in schema else [schema["const"]] if "const" in schema else []
    return [word for word in found if isinstance(word, str)]


def _either(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} or {words[-1]}"


def _named(steps: tuple[Any, ...]) -> str:
    names = [step for step in steps if isinstance(step, str)]
    if not names:
        return "This" if steps else "The record"
    return f"Entry {steps[-1] + 1} of `{shown(names[-1])}`" if isinstance(steps[-1], int) else f"`{shown(names[-1])}`"


def _unknown_keys(fault: Fault, steps: tuple[Any, ...]) -> Iterator[Found]:
    known = fault.schema.get("properties", {})
    free = {name: schema for name, schema in known.items() if name not in fault.value}
    for key in islice((key for key in fault.value if key not in known), _MOST_KEYS):
        inside, near = _groups_with(key, known), nearest(key, free)
        if not inside and near in _wanting(fault):  # said once, with what is missing
            continue
        if inside:
            hint = f"Write it under {' or '.join(f'`{group}:`' for group in inside)}, two spaces further in."
        elif near:
            hint = f"Write `{near}` if that is meant."
        else:
            hint = _listed("Put it into `note`" if "note" in known else "Take it away", free)
        yield (*steps, key, KEY), Wording("unknown-key", f"`{shown(key)}` has no meaning here.", hint)


def _groups_with(key: str, known: dict[str, Any]) -> list[str]:
    """The groups beside a key that has no meaning here, in which it has one."""
    return [group for group, schema in known.items() if key in schema.get("properties", {})]


def _listed(first: str, known: dict[str, Any]) -> str:
    names = [f"`{name}`" for name in known]
    return f"{first}, or use one of {', '.join(names)}." if len(names) <= _LISTED else f"{first}."


def _wanting(fault: Fault) -> list[str]:
    """The names that a group must have and has not; of place and part one must be there."""
    wanting = [key for key in fault.schema.get("required", ()) if key not in fault.value]
    if "oneOf" in fault.schema and "place" not in fault.value and "part" not in fault.value:
        wanting += ["place", "part"]
    return wanting


def _written_for(fault: Fault, name: str) -> str:
    """The key without a meaning that was most likely written for a name that is missing; empty where none was."""
    known = fault.schema.get("properties", {})
    if not isinstance(fault.value, dict):
        return ""
    unknown = [key for key in fault.value if key not in known]
    return next((key for key in unknown[:_MOST_KEYS] if nearest(key, known) == name), "")


def _missing_keys(fault: Fault, steps: tuple[Any, ...]) -> Iterator[Found]:
    for key in fault.asked:
        if key not in fault.value:
            asked = fault.schema["properties"][key]
            about = f" ({asked['description'].rstrip('.')})" if "description" in asked else ""
            example = asked["examples"][0] if "examples" in asked else "..."
            slip = _written_for(fault, key)
            hint = f"Write `{key}` in place of `{shown(slip)}`." if slip else f"Add `{key}: {example}`."
            stands = f"; `{shown(slip)}`, which stands here, has no meaning" if slip else ""
            yield steps, Wording("missing-key", f"`{key}` is missing{about}{stands}.", hint)


def _place_or_part(fault: Fault, steps: tuple[Any, ...]) -> Found:
    item = next((words for key, words in _ITEMS.items() if key in fault.schema["properties"]), "this")
    rule = f"{item[0].upper()}{item[1:]} names a place or a part: one of them, not both."
    if "place" in fault.value:
        return steps, Wording("place-and-part", rule, "Take one away: `place` where it was measured on the engine, "
                              "`part` where the part stood alone.")
    for name in ("place", "part"):
        if slip := _written_for(fault, name):
            return steps, Wording("missing-key", f"{rule} `{shown(slip)}`, which stands here, has no meaning.",
                                  f"Write `{name}` in place of `{shown(slip)}`.")
    return steps, Wording("missing-key", rule, "Add `place: driver-2 right`, or `part: t-4471` for a loose part.")


def _value_wording(fault: Fault) -> Wording:
    value, asked = fault.value, fault.schema
    if value == "":
        about = asked.get("description", "").rstrip(".")
        return Wording("blank-value", "Nothing is written here.",
                       f"Write it ({about}), or take the line away." if about
                       else "Write the value, or take the line away.")
    match fault.keyword:
        case "type":
            return _wrong_shape(fault)
        case "enum" | "const":
            return _unknown_word(value, _words(asked))
        case "format":
            keys = [step for step in fault.steps if isinstance(step, str)]
            return format_wording(fault.asked, value, keys[-1] if keys else "")
        case "pattern":
            return Wording("wrong-form", f"Read `{shown(value)}`, which is not written as it must be.",
                           _PATTERNS.get(fault.asked, f"Write it as {fault.asked}."))
        case "minItems":
            return Wording("blank-value", "The list is empty.", "Add an entry, or take the list away.")
        case _:
            raise ValueError(f"a schema uses the keyword {fault.keyword!r}, for which there are no words")


_PATTERNS = {
    "^[0-9a-f]{64}$": "Write the SHA-256 of the file: 64 digits and letters a to f.",
    r"^\d{2}-\d{2}$": "Write month and day, such as 01-31.",
}


def _wrong_shape(fault: Fault) -> Wording:
    steps, wanted = fault.steps, _kind_of(fault.schema)
    message = f"{_named(steps)} must be {_SHAPES[wanted]}, not {_SHAPES[type(fault.value)]}."
    if wanted is list:
        hint = "Start each entry with `- ` on a line of its own."
    elif wanted is str:
        hint = "Write one value after the colon."
    elif fault.schema.get("propertyNames", {}).get("format") == "position" and isinstance(fault.value, str):
        example = f"`worst: {shown(fault.value)}`"
        hint = f"Write below it, indented, where round it was read, then the figure, such as {example}."
    else:
        names = fault.schema.get("properties", {})
        hint = f"Write below it, indented, `name: value` with the names {', '.join(names)}." if names else (
            "Write below it, indented, `name: value`.")
    return Wording("wrong-shape", message, hint)


def _unknown_word(value: Any, words: list[str]) -> Wording:
    if not isinstance(value, str):
        return Wording("wrong-shape", f"One of {_either(words[:_LISTED])} must stand here, not "
                       f"{_SHAPES[type(value)]}.", "Write one value after the colon.")
    near = nearest(value, words)
    if near:
        hint = f"Write {near} if that is meant."
    elif len(words) <= _LISTED:
        hint = f"Write {_either(words)}."
    else:
        hint = "Use a word of the vocabulary."
    return Wording("unknown-word", f"`{shown(value)}` is not a word that is known here.", hint)
