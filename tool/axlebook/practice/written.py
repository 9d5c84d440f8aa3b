"""A record as it is written, and edits that leave every other byte of it alone."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from axlebook.findings import id_of

Place = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Edit:
    """Text to put in place of a stretch of a record, counted in characters of the original."""

    path: str
    start: int
    end: int
    text: str


@dataclass(frozen=True, slots=True)
class Written:
    """A record: its text, its tree, and where each pointer stands (line and column, from 1)."""

    path: str
    text: str
    tree: dict[str, Any]
    places: Mapping[str, Place]
    starts: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Note where the lines start."""
        self.starts.extend([0, *(found.end() for found in re.finditer("\n", self.text))])

    @property
    def id(self) -> str:
        """The record's id."""
        return id_of(self.path)

    def at(self, pointer: str) -> Any:
        """The value at a pointer; None where there is none.

        >>> Written("a.yaml", "b: [c]", {"b": ["c"]}, {}).at("/b/0")
        'c'
        """
        value: Any = self.tree
        for step in pointer.split("/")[1:]:
            name = step.replace("~1", "/").replace("~0", "~")
            if isinstance(value, dict):
                value = value.get(name)
            elif isinstance(value, list) and int(name) < len(value):
                value = value[int(name)]
            else:
                return None
        return value

    def instead(self, pointer: str, new: str) -> Edit:
        """Put another scalar where one stands; quotes go with what they held."""
        line, column = self.places[pointer]
        start = self.starts[line - 1] + column - 1
        value = str(self.at(pointer))
        quote = self.text[start] if self.text[start : start + 1] in ("'", '"') else ""
        shown = f"{quote}{value}{quote}"
        if not self.text.startswith(shown, start):
            raise ValueError(f"{self.path} {pointer}: {value!r} is not written in one piece")
        return Edit(self.path, start, start + len(shown), new)

    def without(self, pointer: str) -> Edit:
        """Take away a key with what hangs under it, or an item of a block list."""
        line = self.places.get(f"{pointer}#key", self.places.get(pointer, (0, 0)))[0]
        first = self._line(line)
        indent = len(first) - len(first.lstrip(" "))
        last = line + 1
        while last <= len(self.starts) and self._hangs_under(last, indent):
            last += 1
        return Edit(self.path, self.starts[line - 1], self._start(last), "")

    def below(self, pointer: str, new: str) -> Edit:
        """Put whole lines after the block of a pointer (a key or an item)."""
        block = self.without(pointer)
        return Edit(self.path, block.end, block.end, new)

    def before(self, pointer: str, new: str) -> Edit:
        """Put whole lines before the line of a key."""
        start = self.starts[self.places[f"{pointer}#key"][0] - 1]
        return Edit(self.path, start, start, new)

    def _start(self, line: int) -> int:
        return self.starts[line - 1] if line <= len(self.starts) else len(self.text)

    def _line(self, line: int) -> str:
        return self.text[self.starts[line - 1] : self._start(line + 1)]

    def _hangs_under(self, line: int, indent: int) -> bool:
        text = self._line(line)
        return bool(text.strip()) and len(text) - len(text.lstrip(" ")) > indent


def applied(texts: Mapping[str, str], edits: Iterable[Edit]) -> dict[str, str]:
    """The texts with the edits in them.

    >>> applied({"a": "0123"}, [Edit("a", 1, 2, "x"), Edit("a", 3, 3, "yy")])
    {'a': '0x2yy3'}
    """
    result = dict(texts)
    for edit in sorted(edits, key=lambda one: (one.path, -one.start)):
        text = result[edit.path]
        result[edit.path] = text[: edit.start] + edit.text + text[edit.end :]
    return result
