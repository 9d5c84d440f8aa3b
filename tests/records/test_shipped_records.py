"""Every shipped limit set and plan fits its schema, and every figure in it can be read."""

import json
import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from referencing import Registry, Resource
from tests.records.published_rows import LEDGER, PLANS, SETS, TOP, shipped, tree_of

from axlebook.quantities import Quantity, parse_measure
from axlebook.records.limit_set import build_limit_set
from axlebook.sources.schemas import judge
from axlebook.sources.yaml_text import read_tree


@cache
def validator(kind: str) -> Draft202012Validator:
    paths = (TOP / "schema").glob("*.schema.json")
    schemas = {path.name: json.loads(path.read_text(encoding="utf-8")) for path in paths}
    registry: Registry[Any] = Registry().with_resources(
        (name, Resource.from_contents(schema)) for name, schema in schemas.items()
    )
    return Draft202012Validator(schemas[f"{kind}.schema.json"], registry=registry)


@pytest.mark.parametrize("path", [*SETS, *PLANS], ids=lambda path: path.stem)
def test_every_shipped_record_fits_the_schema_its_first_line_names(path: Path) -> None:
    tree = tree_of(path)
    modeline = path.read_text(encoding="utf-8").splitlines()[0]
    assert modeline == f"# yaml-language-server: $schema=../../schema/{tree['kind']}.schema.json"
    errors = [f"{error.json_path}: {error.message}" for error in validator(tree["kind"]).iter_errors(tree)]
    assert errors == []


@pytest.mark.parametrize("path", [*SETS, *PLANS], ids=lambda path: path.stem)
def test_the_tool_itself_finds_nothing_to_say_about_a_shipped_record(path: Path) -> None:
    assert judge(read_tree(path.read_bytes()), f"{path.parent.name}/{path.name}") == []


@pytest.mark.parametrize("path", SETS, ids=lambda path: path.stem)
def test_every_figure_of_a_shipped_set_is_read_as_a_measure(path: Path) -> None:
    found = shipped(path.stem)
    bounds = [b for limit in found.limits for condition in limit.conditions for b in condition.bounds]
    bounds += [b for limit in found.limits for test in limit.applies_to for b in test.bounds]
    assert [bound for bound in bounds if (bound.value is None) != (bound.text == "table")] == []
    cells = {cell for row in table_rows(path) for cell in row} - {"above"}
    assert {cell for cell in cells if not isinstance(parse_measure(cell), Quantity)} == set()


@pytest.mark.parametrize("path", SETS, ids=lambda path: path.stem)
def test_no_id_stands_twice_in_a_shipped_set(path: Path) -> None:
    tree = tree_of(path)
    ids = [entry["id"] for section in ("limits", "intervals", "practices") for entry in tree.get(section, [])]
    assert len(ids) == len(set(ids))


def table_rows(path: Path) -> list[list[str]]:
    tree = tree_of(path)
    entries = [*tree.get("limits", []), *tree.get("practices", [])]
    return [row for entry in entries if "table" in entry for row in entry["table"]["rows"]]


def test_every_example_of_the_limits_page_is_a_record_that_the_tool_takes() -> None:
    page = (LEDGER / "limits" / "README.md").read_text(encoding="utf-8")
    examples = re.findall(r"```yaml\n# (limits/\S+)\n(.*?)```", page, flags=re.DOTALL)
    assert len(examples) == 3
    for path, text in examples:
        tree = read_tree(text.encode())
        assert judge(tree, path) == []
        for limit in build_limit_set("example", path, tree).limits:
            assert all(
                bound.value is not None for condition in limit.conditions for bound in condition.bounds
            )


def test_the_limits_page_explains_every_word_that_shipped_limits_ask_of_a_facet() -> None:
    page = (LEDGER / "limits" / "README.md").read_text(encoding="utf-8")
    asked = {
        (test.facet, word)
        for path in SETS
        for limit in shipped(path.stem).limits
        for test in limit.applies_to
        for word in test.words or ("",)
    }
    lines = page.splitlines()
    for facet, word in asked:
        told = [line for line in lines if line.startswith("|") and f"`{facet}`" in line]
        assert told, facet
        assert word in told[0] or facet == "track_class", (facet, word)
