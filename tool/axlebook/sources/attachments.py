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
    asked = set(wanted)
    if not asked:
        return {}
    folder = f"{names.ATTACHMENTS}/"
    there = (entry.path for entry in list_attachments(root) if entry.problem is None)
    found = {path.removeprefix(folder): root / path for path in there}
    read = {name: _read(found[name]) for name in sorted(asked) if name in found}
    return {name: attached for name, attached in read.items() if attached is not None}


def _read(path: Path) -> Attached | None:
    try:
        with open(os.open(path, _OPEN), "rb") as file:
            return Attached(os.fstat(file.fileno()).st_size, hashlib.file_digest(file, "sha256").hexdigest())
    except OSError:
        return None
