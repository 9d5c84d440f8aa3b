"""The record schemas as they are in force: read from their files, fed from the vocabulary, every reference put in.

Two things are settled here that plain JSON Schema does not say. The word lists come from the vocabulary. And a
measure is one value, except where a feeler, a crayon or an eye may give an interval: there the format keeps its
name, elsewhere it is called `one length` and so on.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import lru_cache
from typing import Any, TypeAlias

from axlebook.quantities import UNITS
from axlebook.sources.shipped import shipped
from axlebook.sources.vocabulary import COMMON, fed, read_vocabulary

Schema: TypeAlias = dict[str, Any]

ONE = "one "
DIMENSIONS = frozenset({"hardness", *(unit.dimension for unit in UNITS.values())})
MEASURED = DIMENSIONS | {"measure"}

#: Below these keys and definitions a measure may be an interval: under 0.0015 in, 350 to 375 degF.
_INTERVALS = frozenset({"values", "read", "length", "width", "distance"})
_INSIDE = ("items", "additionalProperties", "propertyNames")


@lru_cache
def read_schemas() -> dict[str, Schema]:
    """Return the schema of each kind, whole: no reference is left in it."""
    folder = shipped("schema")
    common = fed(json.loads((folder / COMMON).read_bytes()), read_vocabulary())
    definitions = _Definitions(common["$defs"])
    schemas = {}
    for path in sorted(folder.glob("*.schema.json")):
        if path.name != COMMON:
            schemas[path.name.removesuffix(".schema.json")] = definitions.put_into(json.loads(path.read_bytes()))
    return schemas


def subschemas(schema: Schema) -> Iterator[Schema]:
    """Yield what judges the same value or its items and entries, properties aside.

    >>> [inside["type"] for inside in subschemas({"items": {"type": "string"}, "minItems": 1})]
    ['string']
    """
    for branch in ("anyOf", "oneOf"):
        yield from schema.get(branch, ())
    for key in ("items", "additionalProperties"):
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
        for key in ("anyOf", "oneOf"):
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
