"""The quick way to read a record that is written plainly: line by line, each different line taken apart once.

The records of a book say the same few lines again and again: the million lines of ten thousand records are ten
thousand different ones. So a line is taken apart when it is first met, and a text is put together from its lines.
That takes an eighth of the time of libyaml's events, which were a quarter of a check.

This is no second opinion on what a text says: that is for libyaml alone. Read here is a small part of YAML, with one
way to write each thing; a text with any other line, or with lines in any other order, is left to `yaml_text`, which
reads all that a record may hold and words what is wrong. To leave a text is always right, so in doubt it is left.
The tests hold every answer to libyaml's: `tests/sources/test_yaml_lines.py`, `python -m tests.hostile.every_byte`.
"""

from __future__ import annotations

import re
from sys import intern
from typing import TYPE_CHECKING, Any, TypeAlias

if TYPE_CHECKING:
    from axlebook.sources.yaml_text import Tree

#: Level, key and value. The level is the indent, and `~indent` where the line begins an item of a list; the key is
#: None where the item is no group, the value where it follows on other lines, if at all.
Line: TypeAlias = "tuple[int, str | None, str | list[Tree] | None]"

_EMPTY: Line = (-1_000_000_001, None, None)  # nothing, or a comment
_OTHER: Line = (-1_000_000_002, None, None)  # what is not read here
_NO_LEVEL = -1_000_000_000  # lower is no line that is read

# Of bytes, so that `\w` is ASCII and ` ` the one blank. What is beyond ASCII was found clean before. No line here holds
# a control, so a tab or a lone `\r` is never read.
_PLAIN = r"(?:[\w./(+\x80-\xff]|-(?=[\w.]))(?:(?!: |:$| #)[ -~\x80-\xff])*(?<! )"
_QUOTED = r'"[ !#-\[\]-~\x80-\xff]*"|' r"'[ -&(-~\x80-\xff]*'"
_WORD = r"[\w./](?:[\w./@() -]*[\w./)])?"
_VALUE = rf"(?P<plain>{_PLAIN})|(?P<quoted>{_QUOTED})|\[(?P<words>(?:{_WORD}(?:, {_WORD})*)?)\]"
_KEY = r"\w[\w./() \x80-\xff-]{0,80}(?<! )"
_REST = r" *(?:(?<= )#[ -~\x80-\xff]*)?"
_NAMED = re.compile(
    rf"(?P<indent> *)(?P<dash>- )?(?P<key>{_KEY}):(?: +(?:{_VALUE}))?{_REST}".encode("latin-1")
).fullmatch
_ITEM = re.compile(rf"(?P<indent> *)(?P<dash>- )(?:{_VALUE}){_REST}".encode("latin-1")).fullmatch
_COMMENT = re.compile(rb" *(?:#[ -~\x80-\xff]*)?").fullmatch
# Bytes: a line over the first is not read here, for an expression's memory grows with it; one over the other not kept.
_LONGEST, _LONGEST_KEPT = 1000, 120
_MOST_KEPT = 1 << 16


class _Lines(dict[bytes, Line]):
    """What each line met so far holds."""

    def __missing__(self, line: bytes) -> Line:
        if len(line) > _LONGEST:
            return _OTHER
        found = _EMPTY if _COMMENT(line) else _taken_apart(line)
        if len(line) <= _LONGEST_KEPT:
            if len(self) >= _MOST_KEPT:
                self.clear()
            self[line] = found
        return found


def _taken_apart(line: bytes) -> Line:
    found = _NAMED(line) or _ITEM(line)
    if found is None:
        return _OTHER
    part: dict[str, Any] = found.groupdict()
    level = len(part["indent"])
    return ~level if part["dash"] else level, _text(part.get("key")), _value(part)


def _value(part: dict[str, Any]) -> str | list[Tree] | None:
    if part["words"] is not None:
        return [intern(word.decode()) for word in part["words"].split(b", ") if word]
    return _text(part["plain"] if part["quoted"] is None else part["quoted"][1:-1])


def _text(written: bytes | None) -> str | None:
    return None if written is None else intern(written.decode())


_line_of = _Lines().__getitem__


def read_lines(content: bytes, max_depth: int) -> dict[str, Tree] | None:
    """Return the record written in `content`, which `require_text` let pass, if it is written plainly; else None.

    >>> read_lines(b"kind: tire\\nmarks:\\n  serial: 0447\\n  seen:\\n", 20)
    {'kind': 'tire', 'marks': {'serial': '0447', 'seen': ''}}
    >>> read_lines(b"kind: tire\\nmarks: {serial: 0447}\\n", 20)
    """
    # Hot: a million lines pass here, and nearly all of them add one more key to the group that the last one added to.
    if b"\r" in content:
        content = content.replace(b"\r\n", b"\n")
    record: dict[str, Tree] = {}
    group: Any = record
    at = _NO_LEVEL  # the level of the group's keys; that of the record is found by its first line, which must be at 0
    above: list[tuple[int, Any]] = [(0, record)]  # what the group stands in, each with its level
    waiting: str | None = None  # the key in the group whose value may begin on the next line
    for level, key, value in map(_line_of, content.split(b"\n")):
        if level != at:
            if level < _NO_LEVEL:
                if level == _EMPTY[0]:
                    continue
                return None
            if waiting is not None:
                outer, holder = above[-1]
                if level > outer or ~level >= outer:
                    at, group = level, {} if level >= 0 else []
                    holder[waiting] = group
                waiting = None
            while at != level:
                if not above:
                    return None
                at, group = above.pop()
            if len(above) + 3 > max_depth:  # the group, and in it an item with a list of words
                return None
            if level < 0:
                above.append((level, group))
                if key is None:
                    group.append(value.copy() if isinstance(value, list) else value)
                    at = _NO_LEVEL
                    continue
                item: dict[str, Tree] = {}
                group.append(item)
                at, group = ~level + 2, item
        if key in group:
            return None
        if type(value) is str:
            group[key] = value
        elif isinstance(value, list):
            group[key] = value.copy()
        else:
            group[key] = ""
            waiting = key
            above.append((at, group))
            at = _NO_LEVEL
    return record or None
