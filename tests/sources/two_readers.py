"""The quick reader of YAML and the exact one, asked of the same bytes: the quick one says as much, or nothing."""

from __future__ import annotations

from typing import Any

from axlebook.sources.refusals import Refusal
from axlebook.sources.yaml_lines import read_lines
from axlebook.sources.yaml_text import MAX_DEPTH, read_exactly, require_text

ALIKE, DECLINED = "alike", "declined"


def quick(content: bytes, max_depth: int = MAX_DEPTH) -> dict[str, Any] | None:
    """What the quick reader gives, asked only where `read_tree` would ask it; None where it leaves the text."""
    try:
        require_text(content)
    except Refusal:
        return None
    return read_lines(content, max_depth)


def exact(content: bytes, max_depth: int = MAX_DEPTH) -> dict[str, Any] | Refusal:
    """What the exact reader gives, or how it refuses."""
    try:
        require_text(content)
        return read_exactly(content, max_depth)
    except Refusal as refused:
        return refused


def compared(content: bytes, max_depth: int = MAX_DEPTH) -> str:
    """`alike` or `declined`; else what either says, which is a fault. By repr, so that the order of keys counts."""
    found = quick(content, max_depth)
    if found is None:
        return DECLINED
    wanted = exact(content, max_depth)
    return ALIKE if repr(found) == repr(wanted) else f"{content!r}: quick {found!r}, exact {wanted!r}"
