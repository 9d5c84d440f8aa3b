"""What a page for people shows of commands: its blocks in order, run in a folder, and held to what is printed.

A block of `console` holds lines to type, after `$ `, and what follows; `...` stands for what was left out. A block of
`yaml` or `csv` whose first line names files, after `# `, is what somebody writes into them.
"""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from tests.cli.commands import Called, call

FENCE = re.compile(r"^```(\w+)\n(.*?)^```$", re.M | re.S)


class Block(NamedTuple):
    """A fenced block: its kind and its text."""

    kind: str
    text: str


def blocks(page: Path, *, after: str = "") -> list[Block]:
    """The fenced blocks of a page, or of what stands after a heading of it."""
    text = page.read_text(encoding="utf-8")
    return [Block(*found) for found in FENCE.findall(text[text.index(after) :])]


def commands(block: Block) -> Iterator[tuple[str, str]]:
    """The commands of a block, each with what it is said to print."""
    for part in re.split(r"^\$ ", block.text, flags=re.M)[1:]:
        command, _, printed = part.partition("\n")
        yield command, printed


class Reader:
    """A person who types what a page shows."""

    def __init__(self, folder: Path) -> None:
        """Stand in a folder."""
        self.folder = folder
        self.told = 0

    def read(self, block: Block) -> None:
        """Do what a block shows: type its commands, or write its files."""
        if block.kind in ("yaml", "csv") and block.text.startswith("# "):
            self.fill_in(block)
        for command, printed in commands(block) if block.kind == "console" else ():
            self.type(command, printed)

    def type(self, command: str, printed: str) -> None:
        """Type a command, and see what the page says that it prints."""
        words = shlex.split(command)
        if words[0] == "cd":
            self.folder = (self.folder / words[1]).resolve()
            return
        assert words[0] == "axlebook", command
        called = self.call(*words[1:])
        assert called.code in (0, 1), called.err
        require_shown(command, called.out + called.err, printed)
        self.told += 1

    def call(self, *words: str) -> Called:
        """Call axlebook where the reader stands."""
        return call(*words, at=self.folder)

    def fill_in(self, block: Block) -> None:
        """Write a block to the files that its first line names; of a record a command has written the template."""
        names, _, text = block.text.removeprefix("# ").partition("\n")
        for name in names.split(" and "):
            path = self.folder / name
            first = ""
            if block.kind == "yaml":
                first = path.read_text(encoding="utf-8").partition("\n")[0] + "\n"
            path.write_text(first + text, encoding="utf-8")


def require_shown(command: str, printed: str, shown: str) -> None:
    """Require that what was printed is what is shown, `...` standing for anything."""
    pattern = re.escape(shown).replace(re.escape("...\n"), ".*").replace(re.escape("..."), ".*")
    assert re.fullmatch(pattern, printed, re.S), f"$ {command}\n{printed}\n--- is shown as\n{shown}"
