"""What a page for people shows of commands: its blocks in order, run in a folder, and held to what is printed.

A block of `console` holds lines to type, after `$ `, and what follows; `...` stands for what was left out. A block of
`yaml` or `csv` whose first line names files, after `# `, is what somebody writes into them.
"""

from __future__ import annotations

import os
import re
import shlex
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pexpect
from tests.cli.commands import TOP, Called, call

FENCE = re.compile(r"^```(\w+)\n(.*?)^```$", re.M | re.S)
# A question at the terminal, which ends where the answer begins; and one on a page, with its answer.
_ASKS = r"(?:[A-Z][a-z ]+(?: \[[^\]\n]*\])?:|Seen\?|w write, [^\n]*:)"
PROMPT = rf"(?<=\n){_ASKS} (?!\n)"
ANSWERED = re.compile(rf"^({_ASKS}) (.+)$", re.M)
LEFT_OUT = "-"


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
        if words[1] == "enter":
            require_shown(command, self.answer(words[1:], printed), printed)
            self.told += 1
            return
        called = self.call(*words[1:])
        require_shown(command, called.out + called.err, printed)
        self.told += 1

    def call(self, *words: str) -> Called:
        """Call axlebook where the reader stands."""
        return call(*words, at=self.folder)

    def answer(self, words: list[str], shown: str) -> str:
        """Answer at a terminal as the page shows it, and leave out what it does not show; return what stood there."""
        told = {**os.environ, "TERM": "xterm", "NO_COLOR": "1", "COLUMNS": "80", "PYTHONPATH": str(TOP / "tool")}
        child: Any = pexpect.spawn(
            sys.executable, ["-m", "axlebook", *words], cwd=str(self.folder), env=told, encoding="utf-8",
            dimensions=(24, 80), timeout=60,
        )  # fmt: skip
        answers = [(prompt, answer) for prompt, answer in ANSWERED.findall(shown)]
        seen = ""
        while child.expect([PROMPT, pexpect.EOF]) == 0:
            seen += child.before + child.after
            prompt = child.after.strip()
            right = bool(answers) and re.fullmatch(_pattern(answers[0][0]), prompt)
            child.sendline(answers.pop(0)[1] if right else LEFT_OUT)
        child.close()
        assert (child.exitstatus, answers) == (0, [])
        return str(seen + child.before).replace("\r\n", "\n")

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
    assert re.fullmatch(_pattern(shown), printed, re.S), f"$ {command}\n{printed}\n--- is shown as\n{shown}"


def _pattern(shown: str) -> str:
    return re.escape(shown).replace(re.escape("...\n"), ".*").replace(re.escape("..."), ".*")
