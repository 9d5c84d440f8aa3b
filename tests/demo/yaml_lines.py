"""Records of the simulated ledgers as text: block style, one value a line."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

_QUOTED = re.compile(r"[0-9]+|[0-9]{1,2}:[0-9]{2}|.*(?:: |#).*|[\[{\"'>|*&!%@`-].*|")


def record(path: str, tree: dict[str, Any]) -> bytes:
    """The bytes of a record."""
    up = "../" * path.count("/")
    lines = [f"# yaml-language-server: $schema={up}schema/{tree['kind']}.schema.json", *_lines(tree, "")]
    return ("\n".join(lines) + "\n").encode()


def _lines(tree: Any, indent: str) -> Iterator[str]:
    if isinstance(tree, dict):
        for key, value in tree.items():
            if isinstance(value, str):
                yield f"{indent}{key}: {_scalar(value)}"
            else:
                yield f"{indent}{key}:"
                yield from _lines(value, indent + "  ")
        return
    for item in tree:
        if isinstance(item, str):
            yield f"{indent}- {_scalar(item)}"
        else:
            first, *rest = _lines(item, indent + "  ")
            yield f"{indent}- {first.strip()}"
            yield from rest


def _scalar(text: str) -> str:
    return f'"{text}"' if _QUOTED.fullmatch(text) else text
