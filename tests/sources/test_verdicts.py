"""Verdicts and faults are those of jsonschema, the reference: on every part of every schema, and on the demo."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.sources.reference import build_validator, reference_faults
from tests.sources.test_schemas import KEYS, ODD, VALUES

from axlebook.sources.schema_faults import Fault, find_faults
from axlebook.sources.schema_files import read_schemas, subschemas
from axlebook.sources.shapes import Shapes
from axlebook.sources.verdicts import Verdicts
from axlebook.sources.yaml_text import read_tree

DEMO = Path(__file__).resolve().parents[2] / "demo-ledger"
VERDICTS = Verdicts(Shapes(read_schemas().values()))


def _parts(schema: dict[str, Any]) -> Iterator[dict[str, Any]]:
    yield schema
    for below in (*schema.get("properties", {}).values(), *subschemas(schema)):
        yield from _parts(below)
    if "propertyNames" in schema:
        yield schema["propertyNames"]


PARTS = list({repr(part): part for schema in read_schemas().values() for part in _parts(schema)}.values())


@st.composite
def nearly_met(draw: st.DrawFn, schema: dict[str, Any]) -> Any:
    """A value such as a schema asks for, or nearly."""
    if draw(st.integers(0, 9)) == 0:
        return draw(VALUES)
    if schema.get("type") == "object":
        keys = [*schema.get("properties", {}), *draw(st.lists(st.sampled_from(KEYS), max_size=1))]
        needed = [key for key in schema.get("required", ()) if draw(st.integers(0, 9))]
        chosen = {*needed, *draw(st.lists(st.sampled_from(keys), max_size=4))} if keys else {"0 deg"}
        below = schema.get("properties", {})
        return {key: draw(nearly_met(below.get(key) or _others(schema))) for key in sorted(chosen)}
    if schema.get("type") == "array":
        return [draw(nearly_met(schema.get("items", {}))) for _ in range(draw(st.integers(0, 2)))]
    words = [word for word in schema.get("enum", []) if isinstance(word, str)]
    options = [one for key in ("anyOf", "oneOf") for one in schema.get(key, [])]
    if options and draw(st.booleans()):
        return draw(nearly_met(draw(st.sampled_from(options))))
    return (
        draw(st.sampled_from([*words, *schema.get("examples", []), *ODD]))
        if draw(st.booleans())
        else draw(st.sampled_from(words or ODD))
    )


def _others(schema: dict[str, Any]) -> dict[str, Any]:
    others = schema.get("additionalProperties")
    return others if isinstance(others, dict) else {}


def _alike(faults: Iterable[Fault]) -> list[str]:
    """Faults in an order of their own: jsonschema's is another in each run where several keys have no meaning."""
    return sorted(map(repr, faults))


def _as_text(value: Any) -> Any:
    """A tree as it is read: examples of the schemas may be numbers."""
    if isinstance(value, dict):
        return {str(key): _as_text(item) for key, item in value.items()}
    return [_as_text(item) for item in value] if isinstance(value, list) else str(value)


@settings(max_examples=1000, deadline=None)
@given(st.data())
def test_a_part_of_a_schema_is_met_or_not_for_the_reasons_that_jsonschema_gives(data: st.DataObject) -> None:
    schema = data.draw(st.sampled_from(PARTS))
    value = _as_text(data.draw(nearly_met(schema)))
    found = reference_faults(schema, value)
    assert VERDICTS.is_met(schema, value) is (not found), (schema, value)
    assert _alike(find_faults(VERDICTS, schema, value)) == _alike(found), (schema, value)


@pytest.mark.parametrize("kind", read_schemas())
def test_the_records_of_the_demo_get_the_verdict_of_jsonschema(kind: str) -> None:
    schema = read_schemas()[kind]
    validator = build_validator(schema)
    trees = [tree for path in sorted(DEMO.rglob("*.yaml")) if (tree := read_tree(path.read_bytes()))["kind"] == kind]
    for tree in trees[:: len(trees) // 24 + 1]:  # spread over the years
        assert VERDICTS.is_met(schema, tree) is validator.is_valid(tree)
        for key in tree:  # and without any one of its keys
            less = {name: value for name, value in tree.items() if name != key}
            assert VERDICTS.is_met(schema, less) is validator.is_valid(less), (tree, key)
            assert _alike(find_faults(VERDICTS, schema, less)) == _alike(reference_faults(schema, less)), (tree, key)


@pytest.mark.parametrize(
    ("schema", "met", "not_met"),
    [({"oneOf": [{"type": "string"}, {"minItems": 1}]}, [], ["a"]),
     ({"anyOf": [{"type": "array", "minItems": 1}, {"type": "object"}]}, [["a"], {}], ["a", []]),
     ({"allOf": [{"required": ["a"]}, {"required": ["b"]}]}, [{"a": "", "b": ""}, "a"], [{"a": ""}]),
     ({"if": {"required": ["a"]}, "then": {"required": ["b"]}}, [{}, {"a": "", "b": ""}], [{"a": ""}]),
     ({"additionalProperties": False, "properties": {"a": {}}}, [{}, {"a": []}], [{"b": ""}]),
     ({"additionalProperties": {"type": "array"}}, [{"b": []}], [{"b": ""}]),
     ({"type": ["string", "number"]}, ["1"], [[], {}])],
)  # fmt: skip
def test_each_keyword_is_heeded(schema: dict[str, Any], met: list[Any], not_met: list[Any]) -> None:
    assert [VERDICTS.is_met(schema, value) for value in (*met, *not_met)] == [True] * len(met) + [False] * len(not_met)
    validator = build_validator(schema)
    assert [validator.is_valid(value) for value in (*met, *not_met)] == [True] * len(met) + [False] * len(not_met)
    for value in (*met, *not_met):
        assert _alike(find_faults(VERDICTS, schema, value)) == _alike(reference_faults(schema, value))
