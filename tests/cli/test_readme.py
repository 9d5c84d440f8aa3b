"""The README's quick tour and first look, command by command: what is shown is what is printed."""

from __future__ import annotations

import contextlib
import io
import re
import shlex
import shutil
from pathlib import Path

import click
import pytest
from tests.cli.commands import TOP, call, standing_in
from tests.cli.shown import Reader, blocks, require_shown

from axlebook.cli import COMMANDS, group

README = TOP / "README.md"
LEDGER = TOP / "ledger" / "README.md"
PAGES = [README, TOP / "DEVELOPERS.md", *sorted((TOP / "ledger").rglob("*.md")), TOP / "demo-ledger" / "README.md"]


def test_what_the_readme_shows_is_what_is_printed(tmp_path: Path) -> None:
    shutil.copytree(TOP / "demo-ledger", tmp_path / "demo-ledger")
    _first_hour(tmp_path)
    reader, asked = Reader(tmp_path), ""
    for block in blocks(README):
        if block.kind == "python":
            asked = _run(block.text, reader.folder)
        elif block.kind == "text":
            require_shown("python", asked, block.text)
        else:
            reader.read(block)
    assert reader.told == 14
    assert asked


def _first_hour(folder: Path) -> None:
    """The ledger that the first hour makes, as far as its first readings."""
    assert call("init", "ours", at=folder).code == 0
    reader = Reader(folder / "ours")
    for block in blocks(LEDGER):
        if "$ axlebook check" in block.text:
            return
        reader.read(block)


def _run(text: str, folder: Path) -> str:
    out = io.StringIO()
    with contextlib.redirect_stdout(out), standing_in(folder):
        exec(compile(text, str(README), "exec"), {})
    return out.getvalue()


def test_every_command_stands_in_the_table_of_questions() -> None:
    text = README.read_text(encoding="utf-8")
    table = text[text.index("| question | command |") : text.index("`axlebook COMMAND --help`")]
    assert {name for words in re.findall(r"`([a-z -]+)`", table) for name in words.split() if name in COMMANDS} == set(
        COMMANDS
    )


def typed(page: Path) -> list[str]:
    """Every call of axlebook that a page shows: between backticks, in a block of the shell, or after a dollar."""
    text = page.read_text(encoding="utf-8")
    found = re.findall(r"`(axlebook [^`\n]+)`", text) + re.findall(r"^(?:\$ )?(axlebook .+)$", text, re.M)
    return [re.sub(r"\s+#.*| > .*", "", call) for call in dict.fromkeys(found) if "COMMAND" not in call]


@pytest.mark.parametrize("page", PAGES, ids=lambda page: str(page.relative_to(TOP)))
def test_every_call_that_a_page_shows_is_understood(page: Path) -> None:
    for call_shown in typed(page):
        name, *words = shlex.split(call_shown)[1:]
        command = group.get_command(click.Context(group), name)
        assert command is not None, call_shown
        with contextlib.suppress(click.exceptions.Exit):  # --help
            command.make_context(name, words, resilient_parsing=not words)  # a command alone stands for all its calls


def test_the_pages_show_calls() -> None:
    assert len([call_shown for page in PAGES for call_shown in typed(page)]) > 60


def test_the_files_that_the_pages_name_are_there() -> None:
    for page in (README, LEDGER, TOP / "DEVELOPERS.md"):
        named = re.findall(r"`((?:schema|tests|ledger|demo-ledger|tool)/[\w./-]+)`", page.read_text(encoding="utf-8"))
        assert [name for name in named if not (TOP / name).exists() and not (page.parent / name).exists()] == []


def test_every_room_of_the_house_stands_in_the_table_for_those_who_build() -> None:
    text = (TOP / "DEVELOPERS.md").read_text(encoding="utf-8")
    rooms = {
        path.name + "/" * path.is_dir() for path in (TOP / "tool" / "axlebook").iterdir() if path.name[0] not in "_."
    }
    assert [room for room in sorted(rooms) if f"`{room}`" not in text] == []
