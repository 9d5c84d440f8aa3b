"""A conversation in a terminal or through a pipe: lines out, lines in, and nothing that moves the cursor."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from dataclasses import dataclass

import click

from axlebook.records.entry.told import Said
from axlebook.records.entry.words import Prompt
from axlebook.reports.cleaning import clean
from axlebook.reports.page import Look, Page, Paragraph, Piece, paragraph

LONGEST = 500
# The word says it; the color only repeats it.
WORDS = {"unlikely": "UNLIKELY.", "outside": "OUTSIDE.", "undecided": "UNDECIDED.", "not judged": "Not judged.",
         "note": "Note.", "echo": "="}  # fmt: skip
STYLES = {"unlikely": "bold red", "outside": "bold red", "undecided": "yellow", "not judged": "yellow", "no": "yellow"}


@dataclass(frozen=True)
class Voice:
    """How it is spoken: plain is one prompt a line, for a screen reader and a pipe."""

    look: Look
    plain: bool

    def say(self, said: Iterable[Said]) -> None:
        """Say what came of an answer."""
        for one in said:
            word = WORDS.get(one.kind, "")
            pieces = (Piece(f"{word} " if word else "", STYLES.get(one.kind, "")), Piece(one.text))
            self._put([Paragraph(pieces, hang=2)])

    def tell(self, text: str) -> None:
        """Say one sentence."""
        self._put([paragraph(text)])

    def show(self, text: str) -> None:
        """Show lines as they are."""
        self._put([paragraph(f"  {line}" if line else "", whole=True) for line in text.splitlines()])

    def ask(self, asked: Prompt) -> None:
        """Ask; in a terminal the answer goes behind the last words."""
        ends = asked.asks if asked.asks.endswith("?") else f"{asked.asks}:"
        if self.plain:
            self._put([paragraph(" ".join(_sentence(part) for part in (asked.heading, *asked.details, ends) if part))])
            return
        self._put([paragraph(""), *([paragraph(asked.heading, "bold")] if asked.heading else [])])
        self._put([paragraph(detail, indent=2) for detail in asked.details])
        click.echo(f"{clean(ends)} ", nl=False, err=True)

    def break_off(self) -> None:
        """End the line that a question left open."""
        if not self.plain:
            click.echo(err=True)

    def _put(self, paragraphs: Iterable[Paragraph]) -> None:
        for line in Page(self.look).lines(paragraphs):
            click.echo(line, err=True, color=self.look.color)


def _sentence(text: str) -> str:
    """A part of a prompt with a stop after it, so that a screen reader pauses."""
    return text if text.endswith((".", "?", ":", ")")) else f"{text}."


def read_line() -> str | None:
    """One line as it was typed, cleaned; None where nothing more comes."""
    stream = getattr(sys.stdin, "buffer", sys.stdin)
    line = stream.readline()
    if not line:
        return None
    text = line.decode("utf-8", "replace") if isinstance(line, bytes) else line
    return clean(text.strip())[:LONGEST]


def voice(plain: bool, color: bool | None) -> Voice:
    """The voice for what is at the other end."""

    from .terminal import look

    found = look(color)
    plain = plain or not sys.stdin.isatty() or not sys.stderr.isatty()
    if plain:
        return Voice(found._replace(width=max(found.width, 10_000), color=False), True)
    return Voice(found, False)
