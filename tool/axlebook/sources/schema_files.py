"""The record schemas as they are in force: read from their files, fed from the vocabulary, every reference put in.

Three things are settled here that the files do not say. The word lists come from the vocabulary. So does the
dimension of what is read and limited: no pounds for a thickness. And a measure is one value, except where a
feeler, a crayon or an eye may give an interval: there the format keeps its name, elsewhere it is called `one
length` and so on.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator
from functools import lru_cache
from typing import Any, TypeAlias

from axlebook.quantities import UNITS
from axlebook.records.vocabulary import Vocabulary
from axlebook.sources.shipped import shipped
from axlebook.sources.vocabulary import COMMON, fed, read_vocabulary

Schema: TypeAlias = dict[str, Any]

ONE = "one "
REPORT = "report.schema.json"  # what a command prints as JSON: it stands with the others, and is of no record
DIMENSIONS = frozenset({"hardness", *(unit.dimension for unit in UNITS.values())})
MEASURED = DIMENSIONS | {"measure"}

#: What is written for a figure on an old card that nobody can read.
UNKNOWN: Schema = {"type": "string", "pattern": "^unknown$"}

#: Below these keys and definitions a measure may be an interval: under 0.0015 in, 350 to 375 degF.
_INTERVALS = frozenset({"values", "read", "length", "width", "distance"})
_INSIDE = ("items", "additionalProperties", "propertyNames", "if", "then")
_BRANCHES = ("anyOf", "oneOf", "allOf")
_COMPARISONS = ("under", "at_most", "over", "at_least")


@lru_cache
def read_schemas() -> dict[str, Schema]:
    """Return the schema of each kind, whole: no reference is left in it."""
    folder = shipped("schema")
    vocabulary = read_vocabulary()
    common = fed(json.loads((folder / COMMON).read_bytes()), vocabulary)
    measured = dict.fromkeys(vocabulary.quantities)
    common["$defs"]["reading"] = {
        **common["$defs"]["reading"], "allOf": _by_dimension(vocabulary, measured, _values_of)}
    definitions = _Definitions(common["$defs"])
    schemas = {}
    for path in sorted(folder.glob("*.schema.json")):
        if path.name not in (COMMON, REPORT):
            schemas[path.name.removesuffix(".schema.json")] = definitions.put_into(json.loads(path.read_bytes()))
    limit = schemas["limit-set"]["properties"]["limits"]["items"]
    limit["allOf"] = _by_dimension(vocabulary, vocabulary.any_quantities, _bounds_of)
    return schemas


def _by_dimension(
    vocabulary: Vocabulary, names: Iterable[str], asked: Callable[[str], Schema]
) -> list[Schema]:
    """Return a rule for each dimension: if the quantity is of it, its figures are."""
    of_dimension: dict[str, list[str]] = {}
    for name in names:
        word = vocabulary.find_quantity(name)
        if word and word.dimension in DIMENSIONS:
            of_dimension.setdefault(word.dimension, []).append(name)
    return [
        {"if": {"properties": {"quantity": {"enum": found}}, "required": ["quantity"]}, "then": asked(dimension)}
        for dimension, found in of_dimension.items()
    ]


def _values_of(dimension: str) -> Schema:
    value = {"type": "string", "format": dimension}
    either = {"anyOf": [value, UNKNOWN, {"type": "array", "items": value}]}
    return {"properties": {"values": {"additionalProperties": either}}}


def _bounds_of(dimension: str) -> Schema:
    bound = {"anyOf": [{"type": "string", "format": ONE + dimension}, {"const": "table"}]}
    return {"properties": {"out_when": {"properties": dict.fromkeys(_COMPARISONS, bound)}}}


def subschemas(schema: Schema) -> Iterator[Schema]:
    """Yield what judges the same value or its items and entries, properties aside.

    >>> [inside["type"] for inside in subschemas({"items": {"type": "string"}, "minItems": 1})]
    ['string']
    """
    for branch in _BRANCHES:
        yield from schema.get(branch, ())
    for key in ("items", "additionalProperties", "if", "then"):
        if isinstance(schema.get(key), dict):
            yield schema[key]


class _Definitions:
    """Puts the common definitions in the place of references to them, each expanded once."""

    def __init__(self, definitions: dict[str, Schema]) -> None:
        self._definitions = definitions
        self._expanded: dict[tuple[str, bool], Schema] = {}

    def put_into(self, schema: Schema, *, interval: bool = False) -> Schema:
        """Return the schema without references; `interval`: whether its measures may be intervals."""
        reference = schema.get("$ref")
        if reference is not None:
            found = self._definition(reference.rpartition("/")[2], interval)
            beside = {key: value for key, value in schema.items() if key != "$ref"}
            return {**found, **beside} if beside else found
        whole = dict(schema)
        if schema.get("format") in MEASURED and not interval:
            whole["format"] = ONE + schema["format"]
        for key in _INSIDE:
            if isinstance(schema.get(key), dict):
                whole[key] = self.put_into(schema[key], interval=interval)
        for key in _BRANCHES:
            if key in schema:
                whole[key] = [self.put_into(branch, interval=interval) for branch in schema[key]]
        if "properties" in schema:
            whole["properties"] = {
                name: self.put_into(value, interval=name in _INTERVALS)
                for name, value in schema["properties"].items()
            }
        return whole

    def _definition(self, name: str, interval: bool) -> Schema:
        if (name, interval) not in self._expanded:
            self._expanded[name, interval] = self.put_into(self._definitions[name], interval=interval)
        return self._expanded[name, interval]
