"""The JSON of every command is a promise with a schema that ships."""

from __future__ import annotations

import json
from pathlib import Path

import click
from tests.cli.commands import TOP, call, promised

from axlebook.cli import COMMANDS, group
from axlebook.sources.schema_files import read_schemas


def test_every_command_that_prints_json_is_in_the_promise() -> None:
    schema = json.loads((TOP / "schema" / "report.schema.json").read_text(encoding="utf-8"))
    assert _printing_json() == set(schema["properties"]["command"]["enum"])


def _printing_json() -> set[str]:
    context = click.Context(group)
    found = {name: group.get_command(context, name) for name in COMMANDS}
    return {
        name
        for name, command in found.items()
        for option in (command.params if command else ())
        if option.name == "shape" and "json" in getattr(option.type, "choices", ())
    }


def test_what_a_command_prints_is_no_kind_of_record() -> None:
    assert "report" not in read_schemas()


def test_the_sheets_of_the_demo_keep_the_promise(tmp_path: Path) -> None:
    demo = str(TOP / "demo-ledger")
    for command in (("fit", "t-2601", "d-3-left"), ("check",), ("status",)):
        called = call(*command, "--ledger", demo, "--format", "json", at=tmp_path)
        assert promised(called.out)["command"] == command[0]


def test_the_demo_stands_at_a_commit_where_git_is_there(tmp_path: Path) -> None:
    told = promised(call("check", "--ledger", str(TOP / "demo-ledger"), "--format", "json", at=tmp_path).out)
    assert (told["revision"] is None) == (told["dirty"] is None)
    assert told["revision"] is not None or not (TOP / ".git").exists()
