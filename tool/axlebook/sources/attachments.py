"""The attachments of a ledger: what stands in `attachments/` under the names that records cite.

Only plain files that a walk of the folder finds are opened, so that no name leads out of the ledger.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable
from pathlib import Path

from axlebook.records.attached import Attached
from axlebook.sources import names
from axlebook.sources.folder import list_attachments

_OPEN = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)


def read_attached(root: Path, wanted: Iterable[str]) -> dict[str, Attached]:
    """Return size and SHA-256 of the attachments of these names that are there and can be read."""
    read = {name: _read(path) for name, path in _there(root, wanted)}
    return {name: attached for name, attached in read.items() if attached is not None}


def read_contents(root: Path, wanted: Iterable[str] | None, most: int) -> dict[str, bytes]:
    """Return the attachments of these names (None: all) that are there, can be read, and hold at most so many bytes."""
    read = {name: _content(path, most) for name, path in _there(root, wanted)}
    return {name: content for name, content in read.items() if content is not None}


def _there(root: Path, wanted: Iterable[str] | None) -> list[tuple[str, Path]]:
    asked = None if wanted is None else set(wanted)
    if asked is not None and not asked:
        return []
    folder = f"{names.ATTACHMENTS}/"
    there = (entry.path for entry in list_attachments(root) if entry.problem is None)
    found = {path.removeprefix(folder): root / path for path in there}
    return [(name, found[name]) for name in sorted(found) if asked is None or name in asked]


def _content(path: Path, most: int) -> bytes | None:
    try:
        with open(os.open(path, _OPEN), "rb") as file:
            content = file.read(most + 1)
    except OSError:
        return None
    return content if len(content) <= most else None


def _read(path: Path) -> Attached | None:
    try:
        with open(os.open(path, _OPEN), "rb") as file:
            return Attached(os.fstat(file.fileno()).st_size, hashlib.file_digest(file, "sha256").hexdigest())
    except OSError:
        return None
