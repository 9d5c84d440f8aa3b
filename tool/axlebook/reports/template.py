"""A record to fill in: what its kind requires stands there, all else is commented out, with what it means.

Made from the schema alone, so that a key added there is offered here. A template is valid as written.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

from axlebook.records.to_write import BLANK, UNFILLED

Schema = Mapping[str, Any]

HOW = (
    "Fill in what you know. To use a line, take away its # and the space behind it; change what stands there.",
    "What nobody knows is left out too, or written as unknown. Nothing here is guessed for you.",
)
_BY_FORMAT = {
    "day-or-less": "unknown", "month": "2026-01", "year": "2014", "clock": "10:48", "whole-number": "14", "number": "2",
    "share": "25 percent", "poisson-ratio": "0.29", "period": "12 months",
    "place": "driver-1 right", "part": "t-1", "position": "0 deg", "measure": "1 1/4 in", "length": "1 1/4 in",
    "mass": "143000 lb", "force": "75 long tonf", "pressure": "75000 psi", "temperature": "68 degF",
    "temperature_difference": "50 degF", "speed": "25 mph", "time": "30 day", "power": "30 kW", "angle": "140 deg",
    "expansion": "6.5e-6 /degF", "count": "3", "ratio": "25 percent", "hardness": "302 HB",
}  # fmt: skip
_SIZES = {
    "track_gauge": "4 ft 8 1/2 in", "miles": "34 mi", "nominal_diameter": "44 in", "rim_inside_diameter": "36 in",
    "rim_width": "5 1/2 in", "hub_diameter": "18 in", "original_journal_diameter": "8 1/2 in",
    "nominal_distance": "53 1/4 in", "nominal_width": "5 3/4 in", "nominal_thickness": "3 in",
    "seat_width": "5 1/2 in", "flange_back_to_register": "5 1/2 in", "throw": "14 in", "bore": "8 in",
    "seat_diameter": "8 in", "allowance": "0.046 in", "axle_load": "36000 lb", "heat_ceiling": "500 degF",
    "quarter_after": "1/32 in", "minus": "1/32 in", "plus": "1/32 in",
}  # fmt: skip
_IDS = {
    "engine": "e-12", "tire": "t-1", "tires": "t-1", "center": "d-1-left", "for_center": "d-1-left",
    "wheelset": "d-1", "wheelsets": "et-1", "set": "which-set", "with": "rule-1", "instruments": "rule-1",
    "by": "lead", "approved_by": "lead", "signed_by": "lead", "witness": "lead", "inspected_by": "lead",
    "purposes": "annual", "purpose": "annual", "fit_from": "2026-01-10-t-1-receiving",
    "found_in": "2026-01-10-e-12-annual",
}  # fmt: skip
_MAY_BE_UNKNOWN = frozenset({"role", "type"})  # of a person, of an instrument
_NO_RECORDS = frozenset({"id", "purpose", "purposes"})  # words that are written like an id
_PEOPLE = {"approved_by": "person", "by": "person", "signed_by": "person"}
_NAMES = {"values": "worst", "cut": "t-1", "materials": "tire steel"}
_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ./_+'°-]*(?<! )")
_NOT_TEXT = re.compile(r"[0-9_.:+-]*|true|false|null|~|yes|no|on|off|y|n", re.IGNORECASE)
_SAYS_LITTLE = frozenset({"yes or no.", "A measured value with its unit, as written.", "A whole number of things."})
_SAID = frozenset({"yes", "no"})  # the words that the ledger's reader keeps as text, and people write plain


def render_template(kind: str, schema: Schema, filled: Mapping[str, Any], modeline: str, day: date) -> str:
    """The text of a new record; `filled` are top keys whose value is known, such as the date in its id."""
    required = set(schema.get("required", ())) | set(filled)
    title = str(schema.get("description", kind))
    lines = [modeline, f"# {title}", *(f"# {line}" for line in HOW)]
    for name, inside in schema["properties"].items():
        if name == "kind":
            lines.append(f"kind: {kind}")
            continue
        lines += ["", *_described(name, inside, stands=name in required and name not in filled)]
        if name in filled:
            lines += list(_filled(name, filled[name], inside, day))
        elif name in required:
            lines += list(_live(name, inside, "", day))
        else:
            lines += [f"# {line}" for line in _lines(name, sample(inside, name, day), inside, "")]
    return "\n".join(lines) + "\n"


def _described(name: str, schema: Schema, *, stands: bool) -> list[str]:
    shown = schema.get("examples", ("",))[0] if stands and _is_free(schema) else ""
    choice = f"Such as: {shown}." if shown and shown != "unknown" else _choice(schema)
    meaning = re.sub(r"^(yes|no):", r"With \1:", str(schema.get("description", "")))
    words = " ".join(part for part in (meaning, choice) if part)
    return [f"# {words}"] if words else []


def _choice(schema: Schema) -> str:
    words = [word for word in schema.get("enum", ()) if isinstance(word, str)]
    told = str(schema.get("description", ""))
    if set(words) == _SAID or (words and all(word in told for word in words)):
        return ""
    if not 2 <= len(words) <= 8 or sum(map(len, words)) > 120:
        return ""
    return f"One of: {', '.join(words)}."


def sample(schema: Schema, name: str, day: date) -> Any:
    """A value such as the schema asks for: its first example, else one made from its form."""
    if schema.get("examples"):
        return schema["examples"][0]
    if "const" in schema:
        return schema["const"]
    if "enum" in schema:
        return next(word for word in schema["enum"] if isinstance(word, str))
    for branches in ("anyOf", "oneOf"):
        if branches in schema and "properties" not in schema:
            return sample(schema[branches][0], name, day)
    if "items" in schema:
        return [sample(schema["items"], name, day)]
    if "properties" in schema:
        left_out = _other_branches(schema)
        return {key: sample(value, key, day) for key, value in schema["properties"].items() if key not in left_out}
    if isinstance(schema.get("additionalProperties"), dict):
        return {_key(schema.get("propertyNames", {}), name): sample(schema["additionalProperties"], "", day)}
    return _of_format(str(schema.get("format", "")).removeprefix("one "), name, day)


def _key(names: Schema, holder: str) -> str:
    """A key such as may stand where keys are free: one of the words allowed, or a place, or a usual name."""
    if names.get("enum"):
        return str(names["enum"][0])
    return "tender" if names.get("format") == "place" else _NAMES.get(holder, "name")


def _of_format(form: str, name: str, day: date) -> str:
    if form == "day":
        return day.isoformat()
    if form == "id":
        return _IDS.get(name, "some-id")
    if form in _BY_FORMAT and name in _SIZES:
        return _SIZES[name]
    return "01-31" if name == "each_year_by" else _BY_FORMAT.get(form, BLANK)


def _other_branches(schema: Schema) -> set[str]:
    """The keys of all branches of a choice but the first: only one of them may stand there."""
    branches = [set(branch.get("required", ())) for branch in schema.get("oneOf", ())]
    return set().union(*branches[1:]) - branches[0] if branches else set()


def _filled(name: str, value: Any, schema: Schema, day: date) -> Iterator[str]:
    """The lines of a known value; below each thing that it names stands what else may be said of it."""
    if not isinstance(value, Mapping):
        yield from _lines(name, value, schema, "")
        return
    yield f"{name}:"
    for key, known in value.items():
        inside = _inner(schema, key)
        yield from _explained(key, known, inside, "  ")
        for more, asked in inside.get("properties", {}).items() if isinstance(known, Mapping) else ():
            if more not in known:
                yield from (f"    # {line}" for line in _explained(more, sample(asked, more, day), asked, ""))


def _live(name: str, schema: Schema, indent: str, day: date) -> Iterator[str]:
    """The lines of a required key: inside it, too, only what is required stands."""
    inside = schema.get("properties")
    if not inside:
        yield from _first_item(name, _asking(sample(schema, name, day), schema, name), schema, indent)
        return
    required = set(schema.get("required", ())) or {_least_claim(inside)}
    yield f"{indent}{name}:"
    for key in sorted(inside, key=lambda key: key not in required):
        if key in required:
            yield from _live(key, _unclaimed(inside[key], schema), f"{indent}  ", day)
        else:
            yield from (
                f"{indent}  # {line}" for line in _explained(key, sample(inside[key], key, day), inside[key], "")
            )


def _asking(value: Any, schema: Schema, name: str) -> Any:
    """A value that states nothing: the name of a record that may exist, or an example, would be a false statement."""
    if isinstance(value, Mapping):
        return {key: _asking(item, _inner(schema, key), key) for key, item in value.items()}
    if isinstance(value, list):
        return [_asking(item, schema.get("items", {}), name) for item in value]
    if schema.get("format") == "id" and name not in _NO_RECORDS:
        return f"{UNFILLED}{_PEOPLE.get(name, name).replace('_', '-')}"
    if value in schema.get("examples", ()) and _is_free(schema):
        return "unknown" if name in _MAY_BE_UNKNOWN else BLANK
    return value


def _is_free(schema: Schema) -> bool:
    """Whether it is free text: an example of it, left standing, would be read as somebody's statement."""
    return "string" in schema.get("type", ()) and not schema.keys() & {"enum", "const", "format"}


def _first_item(name: str, value: Any, schema: Schema, indent: str) -> Iterator[str]:
    """The lines of a value; of a list the first item stands, the others show how it goes on."""
    if not isinstance(value, list):
        yield from _lines(name, value, schema, indent)
        return
    yield from _lines(name, value[:1], schema, indent)
    for item in value[1:]:
        yield from (f"{indent}  # {line}" for line in _item(item, schema.get("items", {}), ""))


def _unclaimed(schema: Schema, holder: Schema) -> Schema:
    """Where nothing is required but something must stand, it is said to be unknown."""
    return schema if holder.get("required") else {**schema, "examples": ["unknown"]}


def _least_claim(inside: Mapping[str, Schema]) -> str:
    """The key whose value may be `unknown`; else the last, which is free text."""
    return next((key for key, value in inside.items() if "unknown" in value.get("enum", ())), list(inside)[-1])


def _lines(name: str, value: Any, schema: Schema, indent: str) -> Iterator[str]:
    """A key and its value in block style, the keys inside explained at the end of their lines."""
    if isinstance(value, Mapping):
        yield f"{indent}{_scalar(name)}:"
        for key, item in value.items():
            yield from _explained(key, item, _inner(schema, key), f"{indent}  ")
    elif isinstance(value, list):
        yield f"{indent}{_scalar(name)}:"
        for item in value:
            yield from _item(item, schema.get("items", {}), f"{indent}  ")
    else:
        yield f"{indent}{_scalar(name)}: {_scalar(value)}"


def _explained(key: str, value: Any, schema: Schema, indent: str) -> Iterator[str]:
    first, *rest = _lines(key, value, schema, indent)
    note = " ".join(part for part in (_meaning(schema), _choice(schema)) if part)
    yield f"{first}  # {note}" if note and not isinstance(value, Mapping | list) else first
    yield from rest


def _meaning(schema: Schema) -> str:
    """What a key means; how its form is written is seen from the value beside it, and left out."""
    words = str(schema.get("description", ""))
    if words in _SAYS_LITTLE:
        return ""
    return "" if "format" in schema and (":" in words or words.startswith("YYYY")) else words


def _item(item: Any, schema: Schema, indent: str) -> Iterator[str]:
    if not isinstance(item, Mapping):
        row = f"[{', '.join(map(_scalar, item))}]" if isinstance(item, list) else _scalar(item)
        yield f"{indent}- {row}"
        return
    lines = [line for key, value in item.items() for line in _explained(key, value, _inner(schema, key), "")]
    for number, line in enumerate(lines):
        yield f"{indent}{'  ' if number else '- '}{line}"


def _inner(schema: Schema, key: str) -> Schema:
    found = schema.get("properties", {}).get(key) or schema.get("additionalProperties")
    return found if isinstance(found, Mapping) else {}


def _scalar(value: Any) -> str:
    """A text as YAML: plain where no reader takes it for anything else, else in quotes."""
    text = str(value)
    if text in _SAID or re.fullmatch(r"[12][0-9]{3}-[0-9]{2}-[0-9]{2}", text):
        return text
    plain = _PLAIN.fullmatch(text) and not _NOT_TEXT.fullmatch(text)
    return text if plain else json.dumps(text, ensure_ascii=False)
