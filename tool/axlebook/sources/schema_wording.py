"""What the schemas find wrong, in our own words: one problem for each place, one cause for each problem."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from typing import Any

from axlebook.sources.refusals import shown
from axlebook.sources.schema_files import Schema
from axlebook.sources.schema_problems import KEY, Wording, format_wording, nearest

_LISTED = 12
_MOST_KEYS = 50
_TYPES: dict[str, type] = {"object": dict, "array": list, "string": str, "number": str, "integer": str, "boolean": str}
_SHAPES: dict[Any, str] = {dict: "a group of names with values", list: "a list", str: "one value"}
_ITEMS = {"quantity": "a reading", "looked_for": "an observation", "of": "an examination"}

_NAMED_ALREADY = frozenset({"missing-key", "place-and-part", "wrong-shape", "unknown-key"})

Found = tuple[tuple[Any, ...], Wording]  # the steps to the place, with KEY last for a key's own place


def word_errors(errors: Iterator[Any]) -> Iterator[Found]:
    """Yield place and words of what jsonschema found, each place once."""
    seen: set[tuple[Any, ...]] = set()
    for error in errors:
        for steps, wording in _word(error, tuple(error.absolute_path)):
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


def _word(error: Any, steps: tuple[Any, ...]) -> Iterator[Found]:
    if "propertyNames" in error.relative_schema_path:
        yield (*steps, error.instance, KEY), _value_wording(error)
    elif error.validator == "anyOf" and error.instance != "":
        yield from _best_branch(error, steps)
    elif error.validator == "additionalProperties":
        yield from _unknown_keys(error, steps)
    elif error.validator == "required":
        yield from _missing_keys(error, steps)
    elif error.validator == "oneOf":
        yield _place_or_part(error, steps)
    else:
        yield steps, _value_wording(error)


def _best_branch(error: Any, steps: tuple[Any, ...]) -> Iterator[Found]:
    """Go on with the branch that is of the value's shape: the others would only confuse."""
    branches = error.validator_value
    fitting = [number for number, branch in enumerate(branches) if _fits(branch, error.instance)]
    if not fitting:
        wanted = list(dict.fromkeys(_SHAPES[_kind_of(branch)] for branch in branches))
        yield steps, Wording("wrong-shape", f"{_named(steps)} must be {' or '.join(wanted)}, not "
                             f"{_SHAPES[type(error.instance)]}.", "Write it as the template of this kind shows.")
        return
    words = [word for number in fitting for word in _words(branches[number])]
    for inner in error.context:
        if inner.relative_schema_path[0] == fitting[0]:
            for place, wording in _word(inner, steps + tuple(inner.relative_path)):
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


def _unknown_keys(error: Any, steps: tuple[Any, ...]) -> Iterator[Found]:
    known = error.schema.get("properties", {})
    for key in islice((key for key in error.instance if key not in known), _MOST_KEYS):
        inside, near = _groups_with(key, known), nearest(key, known)
        if not inside and near in _wanting(error):  # said once, with what is missing
            continue
        if inside:
            hint = f"Write it under {' or '.join(f'`{group}:`' for group in inside)}, two spaces further in."
        elif near:
            hint = f"Write `{near}` if that is meant."
        else:
            hint = _listed("Put it into `note`" if "note" in known else "Take it away", known)
        yield (*steps, key, KEY), Wording("unknown-key", f"`{shown(key)}` has no meaning here.", hint)


def _groups_with(key: str, known: dict[str, Any]) -> list[str]:
    """The groups beside a key that has no meaning here, in which it has one."""
    return [group for group, schema in known.items() if key in schema.get("properties", {})]


def _listed(first: str, known: dict[str, Any]) -> str:
    names = [f"`{name}`" for name in known]
    return f"{first}, or use one of {', '.join(names)}." if len(names) <= _LISTED else f"{first}."


def _wanting(error: Any) -> list[str]:
    """The names that a group must have and has not; of place and part one must be there."""
    wanting = [key for key in error.schema.get("required", ()) if key not in error.instance]
    if "oneOf" in error.schema and "place" not in error.instance and "part" not in error.instance:
        wanting += ["place", "part"]
    return wanting


def _written_for(error: Any, name: str) -> str:
    """The key without a meaning that was most likely written for a name that is missing; empty where none was."""
    known = error.schema.get("properties", {})
    if not isinstance(error.instance, dict):
        return ""
    unknown = [key for key in error.instance if key not in known]
    return next((key for key in unknown[:_MOST_KEYS] if nearest(key, known) == name), "")


def _missing_keys(error: Any, steps: tuple[Any, ...]) -> Iterator[Found]:
    for key in error.validator_value:
        if key not in error.instance:
            asked = error.schema["properties"][key]
            about = f" ({asked['description'].rstrip('.')})" if "description" in asked else ""
            example = asked["examples"][0] if "examples" in asked else "..."
            slip = _written_for(error, key)
            hint = f"Write `{key}` in place of `{shown(slip)}`." if slip else f"Add `{key}: {example}`."
            stands = f"; `{shown(slip)}`, which stands here, has no meaning" if slip else ""
            yield steps, Wording("missing-key", f"`{key}` is missing{about}{stands}.", hint)


def _place_or_part(error: Any, steps: tuple[Any, ...]) -> Found:
    item = next((words for key, words in _ITEMS.items() if key in error.schema["properties"]), "this")
    rule = f"{item[0].upper()}{item[1:]} names a place or a part: one of them, not both."
    if "place" in error.instance:
        return steps, Wording("place-and-part", rule, "Take one away: `place` where it was measured on the engine, "
                              "`part` where the part stood alone.")
    for name in ("place", "part"):
        if slip := _written_for(error, name):
            return steps, Wording("missing-key", f"{rule} `{shown(slip)}`, which stands here, has no meaning.",
                                  f"Write `{name}` in place of `{shown(slip)}`.")
    return steps, Wording("missing-key", rule, "Add `place: driver-2 right`, or `part: t-4471` for a loose part.")


def _value_wording(error: Any) -> Wording:
    value, asked = error.instance, error.schema
    if value == "":
        about = asked.get("description", "").rstrip(".")
        return Wording("blank-value", "Nothing is written here.",
                       f"Write it ({about}), or take the line away." if about
                       else "Write the value, or take the line away.")
    match error.validator:
        case "type":
            return _wrong_shape(error)
        case "enum" | "const":
            return _unknown_word(value, _words(asked))
        case "format":
            keys = [step for step in error.absolute_path if isinstance(step, str)]
            return format_wording(error.validator_value, value, keys[-1] if keys else "")
        case "pattern":
            return Wording("wrong-form", f"Read `{shown(value)}`, which is not written as it must be.",
                           _PATTERNS.get(error.validator_value, f"Write it as {error.validator_value}."))
        case "minItems":
            return Wording("blank-value", "The list is empty.", "Add an entry, or take the list away.")
        case _:
            raise ValueError(f"a schema uses the keyword {error.validator!r}, for which there are no words")


_PATTERNS = {
    "^[0-9a-f]{64}$": "Write the SHA-256 of the file: 64 digits and letters a to f.",
    r"^\d{2}-\d{2}$": "Write month and day, such as 01-31.",
}


def _wrong_shape(error: Any) -> Wording:
    steps, wanted = tuple(error.absolute_path), _kind_of(error.schema)
    message = f"{_named(steps)} must be {_SHAPES[wanted]}, not {_SHAPES[type(error.instance)]}."
    if wanted is list:
        hint = "Start each entry with `- ` on a line of its own."
    elif wanted is str:
        hint = "Write one value after the colon."
    else:
        names = error.schema.get("properties", {})
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
