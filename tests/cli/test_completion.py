"""Completing what somebody types, as bash, zsh and fish ask for it: no shell is needed to hold them to it."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from tests.checks.histories import commit, git
from tests.cli.commands import small_ledger

from axlebook.cli import COMMANDS

SHELLS = ("bash", "zsh", "fish")


def asked(shell: str, *words: str, at: Path) -> tuple[list[str], list[str]]:
    """What a shell is offered for the last of some words: ids and words; and whether it adds files or folders."""
    line = " ".join(("axlebook", *words))
    told = {"COMP_WORDS": line, "COMP_CWORD": words[-1] if shell == "fish" else str(len(words))}
    done = _run(told | {"_AXLEBOOK_COMPLETE": f"{shell}_complete"}, at)
    assert done.returncode == 0
    assert done.stderr == ""
    lines = done.stdout.splitlines()
    if shell == "zsh":
        found = list(zip(lines[::3], lines[1::3], strict=True))
    else:
        found = [(kind, value.partition("\t")[0]) for kind, _, value in (line.partition(",") for line in lines if line)]
    return [value for kind, value in found if kind == "plain"], [kind for kind, _ in found if kind != "plain"]


def _run(told: dict[str, str], at: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", "from axlebook.cli import main; main()"], cwd=at, env=os.environ | told,
        capture_output=True, text=True, check=False,
    )  # fmt: skip


def offered(*words: str, at: Path) -> list[str]:
    return asked("bash", *words, at=at)[0]


@pytest.mark.parametrize("shell", SHELLS)
def test_a_shell_is_given_its_script(shell: str, tmp_path: Path) -> None:
    done = _run({"_AXLEBOOK_COMPLETE": f"{shell}_source"}, tmp_path)
    assert done.returncode == 0
    assert f"_AXLEBOOK_COMPLETE={shell}_complete" in done.stdout


@pytest.mark.parametrize("shell", SHELLS)
def test_every_shell_is_offered_the_commands_in_reading_order(shell: str, tmp_path: Path) -> None:
    assert asked(shell, "", at=tmp_path)[0] == list(COMMANDS)
    assert asked(shell, "st", at=tmp_path)[0] == ["steam", "status"]


@pytest.mark.parametrize("shell", SHELLS)
def test_every_shell_is_offered_options_and_the_words_that_one_takes(shell: str, tmp_path: Path) -> None:
    assert "--as-of" in asked(shell, "check", "--a", at=tmp_path)[0]
    assert asked(shell, "due", "--format", "", at=tmp_path)[0] == ["text", "json", "markdown", "csv", "ics"]


@pytest.mark.parametrize("shell", SHELLS)
def test_every_shell_is_offered_the_engines_of_the_ledger_it_stands_in(shell: str, tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    assert asked(shell, "steam", "e", at=root) == (["e-1"], [])
    assert asked(shell, "steam", "", at=root / "tires") == (["e-1"], [])
    assert asked(shell, "status", "e", at=root) == (["e-1"], ["file"])


def test_the_word_in_the_help_tells_what_is_offered(tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    (root / "wheelsets").mkdir(exist_ok=True)
    ids = {name: sorted(path.stem for path in (root / name).rglob("*.yaml")) for name in ("tires", "drivers", "people")}
    wheelsets = sorted(path.stem for path in (root / "wheelsets").glob("*.yaml"))
    assert offered("fit", "", at=root) == ids["tires"]
    assert offered("fit", ids["tires"][0], "", at=root) == offered("bore", "", at=root)
    assert offered("bore", ids["drivers"][0], at=root) == [f"{ids['drivers'][0]}-{side}" for side in ("left", "right")]
    assert offered("sheet", "", at=root) == ["e-1", *ids["drivers"], *wheelsets, *ids["tires"]]
    assert offered("steam", "e-1", "--by", "", at=root) == ids["people"]
    assert "us-49-cfr-230" in offered("explain", "us", at=root)
    assert "flange-thin" in offered("explain", "flange", at=root)
    assert offered("new", "tire-", at=root) == ["tire-applied", "tire-removed", "tire-found"]
    assert "annual" in offered("enter", "--purpose", "a", at=root)
    assert offered("annual", "e-1", "", at=root) == []
    assert set(ids["tires"]) < set(offered("history", "", at=root))


def test_a_ledger_that_is_named_is_the_one_whose_ids_are_offered(tmp_path: Path) -> None:
    small_ledger(tmp_path)
    assert offered("steam", "e", at=tmp_path) == []
    assert offered("steam", "--ledger", "ledger", "e", at=tmp_path) == ["e-1"]
    assert offered("steam", "--ledger", "nowhere", "e", at=tmp_path) == []


@pytest.mark.parametrize(
    ("words", "kind"),
    [
        (("pages", "x"), "dir"),
        (("import", "x"), "file"),
        (("sheet", "-o", "x"), "file"),
        (("check", "--ledger", "x"), "dir"),
    ],
)
def test_files_and_folders_are_left_to_the_shell(words: tuple[str, ...], kind: str, tmp_path: Path) -> None:
    assert asked("bash", *words, at=tmp_path) == ([], [kind])


def test_branches_and_tags_are_offered_where_a_revision_belongs(tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    git(root, "init", "--quiet", "--initial-branch", "main")
    commit(root)
    git(root, "tag", "annual-2025")
    assert offered("compare", "", at=root) == ["main", "annual-2025"]
    assert offered("check", "--at", "ann", at=root) == ["annual-2025"]


def test_a_name_that_is_no_id_reaches_no_shell(tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    for name in ("e-2\x1b[31m.yaml", "e-3,x.yaml", "e-4\nplain,e-5.yaml", "E-6.yaml", "$(touch e).yaml"):
        (root / "engines" / name).write_text("kind: engine\n", encoding="utf-8")
    (root / "engines" / "e-7.yaml").symlink_to(root / "engines" / "e-1.yaml")
    assert offered("steam", "", at=root) == ["e-1"]


def test_a_misspelled_command_or_a_ledger_that_cannot_be_read_says_nothing_into_the_line(tmp_path: Path) -> None:
    assert offered("chekc", "x", at=tmp_path) == []
    (tmp_path / "ledger.yaml").write_text("kind: [", encoding="utf-8")
    (tmp_path / "engines").write_text("no folder", encoding="utf-8")
    (tmp_path / "plans").mkdir()
    (tmp_path / "plans" / "plan-x.yaml").write_bytes(b"purposes: [\xff]\n")
    assert offered("steam", "", at=tmp_path) == []
    assert offered("enter", "--purpose", "", at=tmp_path) == []


def test_the_parameters_stay_as_they_are_where_nothing_is_completed(tmp_path: Path) -> None:
    import click

    from axlebook.cli import group

    for name in COMMANDS:
        command = group.get_command(click.Context(group), name)
        assert command is not None
        assert not [param for param in command.params if type(param.type).__name__ == "Offered"]
