"""The help of every command teaches by example, and what it shows can be typed."""

from __future__ import annotations

import itertools
import re
import shlex
from pathlib import Path

import click
import pytest
from tests.cli.commands import AT, THIN, TOP, call, promised, small_ledger
from tests.cli.repositories import git

from axlebook.cli import COMMANDS, group

EXPLAINED = re.compile(r" {3,}\S.*$")  # what an example is for stands to its right


def examples(name: str) -> list[str]:
    """The lines of a command's help that are to be typed, without the words beside them."""
    told = re.sub(r" \\\n +", " ", command_of(name).help or "")
    lines = (EXPLAINED.sub("", line.strip()) for line in told.splitlines())
    return [line for line in lines if line.startswith("axlebook ")]


def command_of(name: str) -> click.Command:
    command = group.get_command(click.Context(group), name)
    assert command is not None
    return command


@pytest.mark.parametrize("name", COMMANDS)
def test_the_help_of_a_command_holds_an_example_of_it(name: str) -> None:
    assert [line for line in examples(name) if line.split()[1] == name]


@pytest.mark.parametrize(("name", "line"), [(name, line) for name in COMMANDS for line in examples(name)])
def test_an_example_is_a_call_that_is_understood(name: str, line: str) -> None:
    words = shlex.split(line.partition(" > ")[0])[1:]
    command_of(words[0]).make_context(words[0], words[1:])  # raises where a flag or a word is none


READS = ("due", "wear", "bore", "fit", "braking", "turning", "history", "explain")
WRITES = re.compile(r" (-o|--save) ")


@pytest.mark.parametrize("line", [line for name in READS for line in examples(name) if not WRITES.search(line)])
def test_an_example_of_the_demo_is_answered_there(line: str) -> None:
    """Typed word for word in the demo's folder it is no refusal; what stands beside it is no part of the call."""
    words = shlex.split(line.partition(" > ")[0])[1:]
    called = call(*words, at=TOP / "demo-ledger")
    assert called.code in (0, 1), called.err
    assert " " not in line.partition(" > ")[2], "the words beside it would be typed too"


@pytest.fixture(scope="module")
def a_copy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("beside")
    assert call("demo", "a-copy", at=folder).code == 0
    return folder / "a-copy"


def test_the_states_that_examples_name_are_tags_and_branches_of_the_demo(a_copy: Path) -> None:
    told = git(a_copy, "for-each-ref", "--format=%(refname:short)").split()
    lines = [line for name in COMMANDS for line in examples(name)]
    compared = [words[2:] for words in map(str.split, lines) if words[1] == "compare"]
    named = {word for words in compared for word in itertools.takewhile(lambda word: word[:1] not in "->", words)}
    named |= {found[1] for line in lines if (found := re.search(r" --at (\S+)", line))}
    assert len(named) > 3
    assert named - set(told) == set()


@pytest.mark.parametrize("line", examples("status"))
def test_an_example_of_status_is_answered_in_a_copy_of_the_demo_or_beside_it(line: str, a_copy: Path) -> None:
    assert min(call(*line.split()[1:], at=at).code for at in (a_copy, a_copy.parent)) in (0, 1)


@pytest.mark.parametrize("name", COMMANDS)
def test_no_example_writes_over_what_another_wrote(name: str) -> None:
    written = re.findall(r" (?:-o|--output|--save|>) (\S+)", "\n".join(examples(name)))
    assert len(written) == len(set(written))


@pytest.mark.parametrize("name", COMMANDS)
def test_an_example_is_printed_on_a_line_of_its_own(name: str, tmp_path: Path) -> None:
    printed = re.sub(r" \\\n +", " ", call(name, "--help", at=tmp_path).out)
    starts = [EXPLAINED.sub("", line[4:]) for line in printed.splitlines() if line.startswith("    axlebook ")]
    assert starts == examples(name)


@pytest.mark.parametrize("name", COMMANDS)
def test_no_line_of_a_help_is_wider_than_80_columns(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    assert [line for line in call(name, "--help", at=tmp_path).lines if len(line) > 80] == []


def test_every_flag_says_what_it_is_for() -> None:
    silent = [
        f"{name} {param.opts[0]}"
        for name in COMMANDS
        for param in command_of(name).params
        if isinstance(param, click.Option) and not (param.help or "").rstrip().endswith(".")
    ]
    assert silent == []


@pytest.mark.parametrize("name", ["check", "status", "due", "annual", "compare", "fit", "bore", "turning", "sheet"])
def test_what_turns_the_exit_code_is_told(name: str) -> None:
    assert re.search(r"[Ee]xit (code|0|1)", command_of(name).help or "")


@pytest.mark.parametrize(("name", "about"), [("wear", ""), ("history", "d-2"), ("braking", "e-1")])
def test_a_command_that_only_tells_says_so_and_ends_with_0(name: str, about: str, tmp_path: Path) -> None:
    root = small_ledger(tmp_path, {AT: THIN})
    called = call(name, *filter(None, [about]), "--format", "json", at=root)
    assert any(one["verdict"] == "outside" for one in promised(called.out)["findings"])
    assert called.code == 0
    assert call("check", at=root).code == 1
    assert "The exit code says only whether it could be" in " ".join((command_of(name).help or "").split())
    told = (TOP / "README.md").read_text(encoding="utf-8")
    assert f"`{name}`" in told[told.index("Exit codes:") : told.index("## Every command")].partition("The others")[2]
