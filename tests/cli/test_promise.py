"""The JSON of every command is a promise with a schema that ships."""

from __future__ import annotations

import json
from pathlib import Path

import click
import pytest
from tests.checks.histories import commit, git
from tests.cli.commands import TOP, call, promised, small_ledger

from axlebook.cli import COMMANDS, group
from axlebook.sources.schema_files import read_schemas

# Every command that gives JSON, and a call of it: of the demo, of a ledger one may write to, or of none.
OF_THE_DEMO = {
    "check": ("check",),
    "status": ("status",),
    "due": ("due",),
    "fit": ("fit", "t-2601", "d-3-left"),
    "bore": ("bore", "d-1-left"),
    "braking": ("braking", "e-12"),
    "wear": ("wear", "t-1212"),
    "turning": ("turning", "e-12"),
    "history": ("history", "t-1232"),
    "explain": ("explain", "us-49-cfr-230"),
    "sheet": ("sheet", "t-2603", "--purpose", "receiving"),
}
OF_A_LEDGER = {
    "new": ("new", "tire", "t-99"),
    "steam": ("steam", "e-1", "2026-02-03"),
    "compare": ("compare", "HEAD"),
    "annual": ("annual", "e-1", "2025"),
    "export": ("export", "e-1", "-o", "sheet.csv"),
    "import": ("import", "empty.csv"),
    "pages": ("pages", "../site"),
    "pack": ("pack", "e-1", "-o", "../e-1.zip"),
}
OF_NONE = {"init": ("init", "ours")}


def test_every_command_that_prints_json_is_in_the_promise_and_is_held_to_it_here() -> None:
    schema = json.loads((TOP / "schema" / "report.schema.json").read_text(encoding="utf-8"))
    assert _printing_json() == set(schema["properties"]["command"]["enum"])
    assert _printing_json() == {*OF_THE_DEMO, *OF_A_LEDGER, *OF_NONE}


@pytest.mark.parametrize(("name", "words"), OF_THE_DEMO.items(), ids=list(OF_THE_DEMO))
def test_a_command_keeps_the_promise_on_the_demo(name: str, words: tuple[str, ...], tmp_path: Path) -> None:
    called = call(*words, "--ledger", str(TOP / "demo-ledger"), "--format", "json", at=tmp_path)
    assert called.code in (0, 1)
    assert promised(called.out)["command"] == name


@pytest.mark.parametrize(("name", "words"), OF_A_LEDGER.items(), ids=list(OF_A_LEDGER))
def test_a_command_keeps_the_promise_on_a_ledger(name: str, words: tuple[str, ...], tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    git(root, "init", "--quiet")
    commit(root)
    (root / "empty.csv").write_text(call("export", "e-1", at=root).out, encoding="utf-8")
    called = call(*words, "--format", "json", at=root)
    assert called.code in (0, 1), called.err
    assert promised(called.out)["command"] == name


@pytest.mark.parametrize(("name", "words"), OF_NONE.items(), ids=list(OF_NONE))
def test_a_command_keeps_the_promise_without_a_ledger(name: str, words: tuple[str, ...], tmp_path: Path) -> None:
    assert promised(call(*words, "--format", "json", at=tmp_path).out)["command"] == name


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


def test_the_demo_stands_at_a_commit_where_git_is_there(tmp_path: Path) -> None:
    told = promised(call("check", "--ledger", str(TOP / "demo-ledger"), "--format", "json", at=tmp_path).out)
    assert (told["revision"] is None) == (told["dirty"] is None)
    assert told["revision"] is not None or not (TOP / ".git").exists()
