"""A page of text for a terminal: paragraphs wrapped to its width, in color or not, in its encoding, and cut to length.

Everything printed goes through here, and so through the cleaning.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterable
from functools import cached_property
from textwrap import wrap
from typing import TYPE_CHECKING, Any, NamedTuple

from .addressed import addressed
from .cleaning import clean, encodable
from .glue import GLUE, glued, unglued

if TYPE_CHECKING:
    from rich.console import Console

SHORT = 24  # lines a person sees at once

_ASCII = str.maketrans({"✗": "x", "○": "o", "≈": "~", "→": ">", "✓": "+", "…": "...", "·": "-", "½": "."})


class Look(NamedTuple):
    """How a page is to look: the width, whether in color, and the encoding it is printed in."""

    width: int = 80
    color: bool = False
    encoding: str = "utf-8"
    ledger: str = ""  # the option that names the ledger, where the reader stands outside it
    day: str = ""  # the options that name the day and the commit asked for

    def symbol(self, sign: str) -> str:
        """A sign, or its plain form where the encoding has not got it."""
        try:
            sign.encode(self.encoding)
        except UnicodeEncodeError:
            return sign.translate(_ASCII)
        return sign


class Piece(NamedTuple):
    """A stretch of text in one style; the style only repeats what the words say."""

    text: str
    style: str = ""


class Paragraph(NamedTuple):
    """Pieces that are wrapped together; `hang` is how far all lines but the first are indented."""

    pieces: tuple[Piece, ...]
    hang: int = 0
    indent: int = 0
    whole: bool = False  # never broken: a path must stay one word to be opened
    most: int = 0  # lines at most; what is cut off is said with an ellipsis


def paragraph(text: str, style: str = "", *, hang: int = 0, indent: int = 0, whole: bool = False) -> Paragraph:
    """A paragraph of one piece."""
    return Paragraph((Piece(text, style),), hang, indent, whole)


BLANK = paragraph("")


class Page:
    """Turns paragraphs into lines, and lines into text."""

    def __init__(self, look: Look) -> None:
        self.look = look
        self._width = max(look.width, 20)

    @cached_property
    def _console(self) -> Console:
        from rich.console import Console

        return Console(
            file=io.StringIO(), width=self._width, force_terminal=self.look.color, no_color=not self.look.color,
            color_system="standard" if self.look.color else None, legacy_windows=False, highlight=False, markup=False,
            emoji=False, _environ={},
        )  # fmt: skip

    def lines(self, paragraphs: Iterable[Paragraph]) -> list[str]:
        """The lines of some paragraphs, wrapped and styled."""
        return [line for one in paragraphs for line in self._wrapped(one)]

    def _wrapped(self, one: Paragraph) -> list[str]:
        spoken = (addressed(piece.text, self.look.ledger, self.look.day) for piece in one.pieces)
        cleaned = (encodable(clean(text).replace(GLUE, "\ufffd"), self.look.encoding) for text in spoken)
        texts = [glued(text) for text in cleaned]
        if not self.look.color and _is_simple(text := "".join(texts), self._width - one.indent - one.hang):
            return self._wrapped_simply(one, text)
        from rich.text import Text

        whole = Text(end="")
        for text, piece in zip(texts, one.pieces, strict=True):
            whole.append(text, style=piece.style or None)
        if one.whole:
            return [self._styled(_plain_again(Text(" " * one.indent) + whole))]
        room = self._width - one.indent
        first = whole.wrap(self._console, room, overflow="fold")
        lines = list(first)
        if one.hang and len(lines) > 1:
            rest = whole[len(lines[0]) :]
            while rest.plain[:1] == " ":
                rest = rest[1:]
            lines = [lines[0], *rest.wrap(self._console, room - one.hang, overflow="fold")]
        lines = [_plain_again(line) for line in lines]
        if one.most and len(lines) > one.most:
            lines = [*lines[: one.most - 1], self._cut(lines[one.most - 1], room - one.hang * (one.most > 1))]
        pad = [one.indent] + [one.indent + one.hang] * len(lines)
        return [self._styled(Text(" " * pad[number]) + line) for number, line in enumerate(lines)]

    def _wrapped_simply(self, one: Paragraph, text: str) -> list[str]:
        """The same lines as of a styled paragraph, quicker: what is not styled needs no styles looked for."""
        pad = " " * one.indent
        if one.whole:
            return [unglued(pad + text).rstrip()]
        hung = " " * (one.indent + one.hang)
        lines = wrap(
            text, self._width, initial_indent=pad, subsequent_indent=hung, expand_tabs=False, replace_whitespace=False,
            break_on_hyphens=False,
        )  # fmt: skip
        lines = [unglued(line).rstrip() for line in lines]
        if one.most and len(lines) > one.most:
            lines = [*lines[: one.most - 1], self._cut_simply(lines[one.most - 1])]
        return lines or [""]

    def _cut_simply(self, line: str) -> str:
        dots = f" {self.look.symbol('…')}"
        while len(line) > self._width - len(dots) and " " in line.strip():
            line = line[: line.rindex(" ")].rstrip()
        return _without_half_a_figure(line) + dots

    def _cut(self, line: Any, room: int) -> Any:
        """A line with an ellipsis at its end, its last word given up where there is no room for one."""
        dots = f" {self.look.symbol('…')}"
        line.rstrip()
        while len(line.plain) > room - len(dots) and " " in line.plain:
            line.right_crop(len(line.plain) - line.plain.rindex(" "))
            line.rstrip()
        line.truncate(len(_without_half_a_figure(line.plain)))
        return line.append(dots)

    def _styled(self, line: Any) -> str:
        line.rstrip()
        with self._console.capture() as capture:
            self._console.print(line, soft_wrap=True, end="")
        return capture.get()


def _plain_again(line: Any) -> Any:
    """A styled line with its figures as they were written."""
    line.plain = unglued(line.plain)
    return line


_HALF = re.compile(r"(?<!\s)\s+(?:\([-+]?\d[^()]*|±|[-+]?\d[\d.,/]*)$")


def _without_half_a_figure(line: str) -> str:
    """A line that was cut, without a figure that lost its unit or its end: half of one reads as another.

    >>> _without_half_a_figure("asks 0.042 in (1.067"), _without_half_a_figure("expected -0.010 in ±")
    ('asks 0.042 in', 'expected -0.010 in')
    >>> _without_half_a_figure("wider than 53 3/8"), _without_half_a_figure("by lead on 2026-02-14")
    ('wider than', 'by lead on 2026-02-14')
    """
    while (found := _HALF.search(line)) and line[: found.start()].strip():
        line = line[: found.start()]
    return line


def _is_simple(text: str, room: int) -> bool:
    """Whether each sign of a text takes one cell of a line, and no word more than the room there is."""
    if "\n" in text or "\t" in text or any(len(word) > room for word in text.split()):
        return False
    if text.replace(GLUE, "").isascii():
        return True
    from rich.cells import cell_len

    return cell_len(text) == len(text) and "\N{NO-BREAK SPACE}" not in text


def joined(lines: Iterable[str]) -> str:
    """Lines as one text with an end of line after each."""
    return "".join(f"{line}\n" for line in lines)
