"""A service day put into the text of a month's file: every byte that a person wrote stays where it is.

This is the one file of a ledger that is added to. What is added is a line at its place by date, in the indentation
and with the line ends that the file has; the new text is read back, and must say what was there and the new day.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from axlebook.sources.refusals import Refusal
from axlebook.sources.yaml_text import Tree, read_places, read_tree

_DASH = re.compile(rb"([ \t]*)-[ \t]")
_BOM = b"\xef\xbb\xbf"
Entry = Mapping[str, "str | list[str]"]


class _Items(NamedTuple):
    """Where the entries of the list begin (numbers of lines), and the indentation of their dashes."""

    starts: list[int]
    indent: bytes


def new_month(modeline: str, engine: str, month: str, entry: Entry) -> bytes:
    """The text of a month's file with its first day."""
    head = [modeline, "kind: service", f"engine: {engine}", f"month: {month}", "days:"]
    return ("\n".join(head) + "\n").encode() + _written(entry, b"  ", b"\n")


def with_day(content: bytes, entry: Entry) -> bytes:
    """The text of a month's file with one day more, put in by date.

    Raises
    ------
    Refusal
        The list of days is not written one under the other, so that a line cannot be put in.
    """
    tree = read_tree(content)
    days = tree.get("days")
    lines = content.splitlines(keepends=True)
    end = b"\r\n" if lines and lines[0].endswith(b"\r\n") else b"\n"
    if days is None:
        added = b"days:" + end + _written(entry, b"  ", end)
        found, index = _put(lines, len(lines), added, end), 0
    else:
        if not isinstance(days, list) or not days:
            raise _not_a_list()
        items = _items(content, lines, len(days))
        index = _index(days, entry)
        at = _end_of(lines, items, index - 1) if index else items.starts[0]
        found = _put(lines, at, _written(entry, items.indent, end), end)
    _require_same(found, tree, index, entry)
    return found


def _index(days: Sequence[Tree], entry: Entry) -> int:
    """How many entries stand before it by date."""
    return sum(isinstance(day, dict) and str(day.get("day", "")) < str(entry["day"]) for day in days)


def _items(content: bytes, lines: Sequence[bytes], count: int) -> _Items:
    places = read_places(content)
    starts, indents = [], set()
    for number in range(count):
        line = places[f"/days/{number}"][0] - 1
        dash = _DASH.match(lines[line].removeprefix(_BOM))
        if dash is None:
            raise _not_a_list()
        starts.append(line)
        indents.add(dash[1])
    if len(set(starts)) != count or len(indents) != 1:
        raise _not_a_list()
    return _Items(starts, indents.pop())


def _end_of(lines: Sequence[bytes], items: _Items, number: int) -> int:
    """The line after an entry; comments in line with the dashes belong to what follows them."""
    if number + 1 < len(items.starts):
        end = items.starts[number + 1]
    else:
        end = items.starts[number] + 1
        while end < len(lines) and _is_inside(lines[end], len(items.indent)):
            end += 1
    while end > items.starts[number] + 1 and _is_outside(lines[end - 1], len(items.indent)):
        end -= 1
    return end


def _is_inside(line: bytes, indent: int) -> bool:
    return not line.strip() or len(line) - len(line.lstrip(b" \t")) > indent


def _is_outside(line: bytes, indent: int) -> bool:
    text = line.strip()
    return not text or (text.startswith(b"#") and len(line) - len(line.lstrip(b" \t")) <= indent)


def _put(lines: Sequence[bytes], at: int, added: bytes, end: bytes) -> bytes:
    before, after = b"".join(lines[:at]), b"".join(lines[at:])
    if before and not before.endswith((b"\n", b"\r")):
        before, added = before + end, added.removesuffix(end)
    return before + added + after


def _written(entry: Entry, indent: bytes, end: bytes) -> bytes:
    lines: list[str] = []
    for key, value in entry.items():
        lines.append(f"{key}: {_text(value)}" if isinstance(value, str) else f"{key}:")
        if not isinstance(value, str):
            lines += [f"  - {item}" for item in value]
    first, *rest = (line.encode() for line in lines)
    return b"".join([indent + b"- " + first + end, *(indent + b"  " + line + end for line in rest)])


def _text(value: str) -> str:
    """A text plain where nothing in it could be read as anything else."""
    return value if re.fullmatch(r"[0-9a-z][0-9a-z ./-]*", value) else json.dumps(value, ensure_ascii=False)


def _require_same(content: bytes, tree: Mapping[str, Tree], index: int, entry: Entry) -> None:
    """Refuse what does not read back as what was there and the new entry."""
    known = tree.get("days")
    days: list[Tree] = list(known) if isinstance(known, list) else []
    days.insert(index, {key: value if isinstance(value, str) else list(value) for key, value in entry.items()})
    try:
        same = read_tree(content) == {**tree, "days": days}
    except Refusal:
        same = False
    if not same:
        raise _not_a_list()


def _not_a_list() -> Refusal:
    return Refusal(
        "not-a-list",
        "Its days are not written one under the other, each with a dash, so nothing can be put in between.",
        "Write the day into it by hand.",
    )
