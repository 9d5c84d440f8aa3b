"""What a ledger tells at one look: which ids there are, by the names of its files; whether it shows millimetres.

It is for completing a word that somebody is typing, and for a template, so it is quick, opens no record save the plans
or ledger.yaml, gives only names that are sound, and says nothing of what it cannot read.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from pathlib import Path

from axlebook.sources.names import FOLDERS, LEDGER, MAX_NESTING, file_problem, folder_problem

CENTERS = "centers"  # no folder: `axlebook new driver d-1` names the centers d-1-left and d-1-right
_PURPOSES = re.compile(r"^purposes: *(\[[^\]\n]*\]|(?:\n *- *[a-z0-9-]+ *$)+)", re.M)
_WORD = re.compile(r"[a-z][a-z0-9-]*")
_LONGEST = 1 << 16


def ids_in(root: Path, *folders: str) -> list[str]:
    """Return the ids of the records in some folders of a ledger, each folder's in the order of their names."""
    return [id for folder in folders for id in (_centers(root) if folder == CENTERS else sorted(_ids(root / folder)))]


def all_ids(root: Path) -> list[str]:
    """Return the ids of all records."""
    return ids_in(root, *FOLDERS, CENTERS)


def purposes_in(root: Path) -> list[str]:
    """Return the purposes that the ledger's plans name, as far as one look at their text tells."""
    lines = (line for path in sorted((root / "plans").glob("*.yaml")) for line in _PURPOSES.findall(_text(path)))
    return sorted({word for line in lines for word in _WORD.findall(line)})


def shows_mm(root: Path, engine: str = "") -> bool:
    """Return whether millimetres are shown first: as the engine's record (a path) says, else as ledger.yaml does."""
    own = _display_units(root / engine, "overrides") if engine else ""
    return (own or _display_units(root / LEDGER, "defaults")) == "mm"


def _display_units(path: Path, key: str) -> str:
    from axlebook.sources.refusals import Refusal
    from axlebook.sources.yaml_text import read_tree

    try:
        told = read_tree(_text(path).encode()).get(key)
    except Refusal:
        return ""
    return str(told.get("display_units", "")) if isinstance(told, dict) else ""


def _centers(root: Path) -> list[str]:
    return [f"{id}-{side}" for id in sorted(_ids(root / "drivers")) for side in ("left", "right")]


def _ids(folder: Path, nesting: int = 1) -> Iterator[str]:
    try:
        with os.scandir(folder) as items:
            found = list(items)
    except OSError:
        return
    for item in found:
        if item.is_dir(follow_symlinks=False):
            if nesting < MAX_NESTING and folder_problem(item.name, nesting + 1) is None:
                yield from _ids(Path(item.path), nesting + 1)
        elif item.is_file(follow_symlinks=False) and file_problem(item.name) is None:
            yield item.name.removesuffix(".yaml")


def _text(path: Path) -> str:
    try:
        if path.is_symlink() or not path.is_file() or path.stat().st_size > _LONGEST:
            return ""
        return path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return ""
