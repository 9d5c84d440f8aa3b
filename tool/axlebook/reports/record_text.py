"""A record's tree as the text of its file: block style, one thing a line, every text such that it reads back."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from .cleaning import clean

# Free text stands in quotes; of the rest only what no reader of YAML could take for anything but text stands bare.
PROSE = frozenset({"note", "reason_kept", "method", "clock"})
_BARE = re.compile(r"(?![0-9]+\Z)(?![0-9.]+\Z)[0-9A-Za-z][0-9A-Za-z _./'°-]*")
_SPECIAL = frozenset({"on", "off", "null", "true", "false", "y", "n"})


def render_record(modeline: str, tree: Mapping[str, Any]) -> str:
    """The text of a record.

    >>> print(render_record("", {"kind": "inspection", "readings": [{"values": {"0 deg": "2 7/16 in"}}]}))
    kind: inspection
    readings:
      - values:
          0 deg: 2 7/16 in
    <BLANKLINE>
    """
    return "\n".join([*([modeline] if modeline else []), *_mapping(tree, "")]) + "\n"


def _mapping(tree: Mapping[str, Any], indent: str) -> Iterator[str]:
    for key, value in tree.items():
        name = _key(key)
        if isinstance(value, str):
            yield f"{indent}{name}: {_text(value, prose=key in PROSE)}"
        else:
            yield f"{indent}{name}:"
            below = indent + "  "
            yield from _mapping(value, below) if isinstance(value, Mapping) else _sequence(value, below)


def _sequence(items: Sequence[Any], indent: str) -> Iterator[str]:
    for item in items:
        if isinstance(item, str):
            yield f"{indent}- {_text(item)}"
        else:
            first, *rest = _mapping(item, indent + "  ")
            yield f"{indent}- {first.lstrip()}"
            yield from rest


def _key(key: str) -> str:
    return key if _BARE.fullmatch(key) else json.dumps(clean(key), ensure_ascii=False)


def _text(text: str, *, prose: bool = False) -> str:
    plain = clean(text)
    if not prose and _BARE.fullmatch(plain) and plain.lower() not in _SPECIAL and not plain.endswith(" "):
        return plain
    return json.dumps(plain, ensure_ascii=False)
