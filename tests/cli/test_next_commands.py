"""A command that is printed as the next step works when it is copied from where the reader stands."""

from __future__ import annotations

import re
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from .commands import AT, THIN, TOP, call, small_ledger

COMMAND = re.compile(r"axlebook ((?:status|due|wear|check|new)\b[^`;:]*?)(?=[`;:]|\.\s|\.?\Z)")


def outside(tmp_path: Path, name: str) -> Path:
    """The folder in which a small ledger of that name lies."""
    small_ledger(tmp_path / "there", {AT: THIN}).rename(tmp_path / name)
    return tmp_path


@pytest.mark.parametrize("word", ["status", "due"])
def test_from_outside_a_printed_command_names_folder_and_day_and_works(tmp_path: Path, word: str) -> None:
    here = outside(tmp_path, "our book")
    printed = " ".join(call(word, "--ledger", "our book", "--as-of", "2026-03-01", at=here).out.split())
    commands = [shlex.split(command) for command in COMMAND.findall(printed)]
    assert commands or word == "due"
    for words in commands:
        assert words[1:5] == ["--ledger", "our book", "--as-of", "2026-03-01"]
        assert call(*words[:5], at=here).err == ""


def test_the_next_command_is_named_so_that_it_can_be_copied_from_outside(tmp_path: Path) -> None:
    printed = call("status", "book", "e-1", at=outside(tmp_path, "book")).out
    assert "axlebook wear --ledger book." in " ".join(printed.split())


def test_inside_the_ledger_a_printed_command_is_left_short(tmp_path: Path) -> None:
    printed = call("status", "e-1", at=outside(tmp_path, "book") / "book").out
    assert "axlebook wear." in printed
    assert "--ledger" not in printed


def test_after_a_template_written_from_outside_the_check_names_the_folder(tmp_path: Path) -> None:
    printed = call("new", "tire", "t-77", "--ledger", "book", at=outside(tmp_path, "book")).out
    assert printed.endswith("axlebook check --ledger book\n")


def test_a_figure_of_the_wear_table_is_never_cut() -> None:
    printed = call("wear", "--quantity", "tread_diameter", "--ledger", "demo-ledger", at=Path(__file__).parents[2]).out
    figures = [line for line in printed.splitlines() if " tread diameter" in line]
    assert figures
    assert not re.search(r"\d \. ", "\n".join(figures))


def test_after_entry_from_outside_the_lines_for_git_and_the_look_work_where_they_are_read(tmp_path: Path) -> None:
    book = tmp_path / "our book"
    shutil.copytree(TOP / "demo-ledger", book)
    text = (book / "ledger.yaml").read_text(encoding="utf-8")
    (book / "ledger.yaml").write_text(re.sub(r"(?m)^closed_on:.*\n", "", text), encoding="utf-8")
    subprocess.run(["git", "init", "--quiet", str(book)], check=True)
    asked = [sys.executable, "-m", "axlebook", "enter", "d-2", "--ledger", "our book", "--purpose", "periodic"]
    answers = "2026-11-20\n" + 9 * "\n" + "1 5/32 in\ne\nw\n"
    done = subprocess.run(asked, cwd=tmp_path, input=answers, capture_output=True, text=True, check=True)
    printed = [line.strip() for line in (done.stdout + done.stderr).splitlines()]
    [add] = [shlex.split(line) for line in printed if line.startswith("git ") and " add " in line]
    assert add[:3] == ["git", "-C", "our book"]
    subprocess.run(add, cwd=tmp_path, check=True)
    [look] = [shlex.split(line.partition("axlebook ")[2]) for line in printed if line.startswith("Look it over:")]
    assert look[1:3] == ["--ledger", "our book"]
    assert call(*look, at=tmp_path).code in (0, 1)
