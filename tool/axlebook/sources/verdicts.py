"""Whether a value meets a schema, yes or no, by the constraints that its texts are known to meet.

The texts have been sorted already, and what is left of a schema is a few keywords. What is wrong with a value that
does not meet it says `schema_faults`. jsonschema is the measure of every answer here, in the tests.
"""

from __future__ import annotations

from typing import Any

from axlebook.sources.schema_files import Schema
from axlebook.sources.shapes import Shapes, constraint, constraints

_TYPES: dict[type[Any], str] = {str: "string", dict: "object", list: "array"}


class Verdicts:
    """Answers under one set of schemas; `shapes` knows what their texts meet."""

    def __init__(self, shapes: Shapes) -> None:
        self._shapes = shapes
        self._asked: dict[int, tuple[Schema, int]] = {}  # the schema is kept, so that its number stays its own

    def is_met(self, schema: Schema, value: Any) -> bool:
        """Return whether a tree meets a schema of the set, or one put together from parts of such."""
        if not self.is_of_type(schema, value):
            return False
        if type(value) is str:
            asked = self._on_text(schema)
            return self._shapes.signatures[value] & asked == asked and self._branches_met(schema, value)
        if "enum" in schema or "const" in schema:  # they list texts alone
            return False
        part_met = self._group_met if type(value) is dict else self._list_met
        return part_met(schema, value) and self._branches_met(schema, value)

    def is_of_type(self, schema: Schema, value: Any) -> bool:
        """Return whether a tree is a text, a list or a group as the schema says."""
        of_type = schema.get("type")
        return of_type is None or _TYPES[type(value)] in ((of_type,) if isinstance(of_type, str) else of_type)

    def meets(self, keyword: str, asked: Any, value: Any) -> bool:
        """Return whether a tree meets one keyword on texts; of what is no text only word lists ask anything."""
        if type(value) is not str:
            return keyword not in ("enum", "const")
        return self._shapes.signatures[value] & self._shapes.bits[constraint(keyword, asked)] != 0

    def _on_text(self, schema: Schema) -> int:
        """The constraints that a schema puts on a text, each one bit."""
        known = self._asked.get(id(schema))
        if known is None:
            asked = 0
            for one in constraints(schema):
                asked |= self._shapes.bits[one]
            known = self._asked[id(schema)] = (schema, asked)
        return known[1]

    def _group_met(self, schema: Schema, value: dict[str, Any]) -> bool:
        for key in schema.get("required", ()):
            if key not in value:
                return False
        properties, others, names = (schema.get(k) for k in ("properties", "additionalProperties", "propertyNames"))
        for key, item in value.items():
            known = properties.get(key) if properties else None
            if known is None:
                if others is False:
                    return False
                known = others
            if known and known is not True and not self.is_met(known, item):
                return False
            if names is not None and not self.is_met(names, key):
                return False
        return True

    def _list_met(self, schema: Schema, value: list[Any]) -> bool:
        if len(value) < schema.get("minItems", 0):
            return False
        items = schema.get("items")
        return items is None or all(self.is_met(items, item) for item in value)

    def _branches_met(self, schema: Schema, value: Any) -> bool:
        for branch in schema.get("allOf", ()):
            if not self.is_met(branch, value):
                return False
        if "anyOf" in schema and not any(self.is_met(branch, value) for branch in schema["anyOf"]):
            return False
        if "oneOf" in schema and sum(self.is_met(branch, value) for branch in schema["oneOf"]) != 1:
            return False
        return "if" not in schema or not self.is_met(schema["if"], value) or self.is_met(schema.get("then", {}), value)
