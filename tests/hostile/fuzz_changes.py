"""Changes of a text that keep it a text: a line's value put otherwise, a line doubled, moved, cut or indented anew.

Bytes turned at random make YAML that is refused at its first line; these changes reach what lies behind the reader.
"""

from __future__ import annotations

import json
import random
import re
from functools import cache
from pathlib import Path

from tests.hostile.mutated import ODD

from axlebook.sources.shipped import shipped

LINE = re.compile(rb"^(\s*(?:- )?(?:[\w ]+: )?)(.*)$")


@cache
def words() -> list[bytes]:
    """Every word that the record format knows: names of keys, and what may stand for a value; and odd ones."""
    found: set[str] = set(ODD)
    for path in sorted(shipped("schema").glob("*.schema.json")):
        _gather(json.loads(path.read_text(encoding="utf-8")), found)
    return sorted(word.encode("utf-8", "replace") for word in found if len(word) < 60)


def _gather(tree: object, found: set[str]) -> None:
    if isinstance(tree, dict):
        for key, inner in tree.items():
            if key in ("properties", "$defs") and isinstance(inner, dict):
                found.update(inner)
            if key == "enum" and isinstance(inner, list):
                found.update(str(one) for one in inner)
            _gather(inner, found)
    elif isinstance(tree, list):
        for inner in tree:
            _gather(inner, found)


@cache
def lines_of(folder: Path) -> list[bytes]:
    """Every line of the kept inputs, once."""
    return sorted({line for path in sorted(folder.iterdir()) for line in path.read_bytes().splitlines()})


def changed(text: bytes, chance: random.Random, folder: Path) -> bytes:
    """A text with one to four of its lines changed."""
    lines = text.split(b"\n")
    for _ in range(chance.randint(1, 4)):
        _change(lines, chance, lines_of(folder))
    return b"\n".join(lines)


def _change(lines: list[bytes], chance: random.Random, others: list[bytes]) -> None:
    at = chance.randrange(len(lines)) if lines else 0
    what = chance.randrange(8) if lines else 6
    if what <= 2:
        lines[at] = _other_value(lines[at], chance)
    elif what == 3:
        del lines[at]
    elif what == 4:
        lines.insert(chance.randrange(len(lines) + 1), lines[at])
    elif what == 5:
        lines[at] = b"  " + lines[at] if chance.random() < 0.5 else lines[at][2:]
    elif what == 6:
        lines.insert(at, chance.choice(others))
    else:
        lines[at] = _other_figure(lines[at], chance)


def _other_value(line: bytes, chance: random.Random) -> bytes:
    found = LINE.match(line)
    head = found[1] if found else b""
    value = chance.choice(words())
    if chance.random() < 0.3:
        value = json.dumps(value.decode("utf-8", "replace"), ensure_ascii=False).encode("utf-8", "replace")
    return head + value


def _other_figure(line: bytes, chance: random.Random) -> bytes:
    figures = list(re.finditer(rb"\d+", line))
    if not figures:
        return line
    one = chance.choice(figures)
    put = chance.choice([b"0", b"1", b"2", b"9", b"16", b"32", b"99999", b"1/16", b"2 7/16", b"-1", b"0.0001", b"1e9"])
    return line[: one.start()] + put + line[one.end() :]
