"""A command that is printed as the next step works when it is copied from where the reader stands."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from .commands import AT, THIN, call, small_ledger

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
