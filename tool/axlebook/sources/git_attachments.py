"""The attachments of a ledger at a commit, as `attachments.py` reads those on disk."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from pathlib import Path

from axlebook.records.attached import Attached
from axlebook.sources import names
from axlebook.sources.git import blobs_at, read_blobs


def read_attached_at(ledger: Path, commit: str, wanted: Iterable[str]) -> dict[str, Attached]:
    """Return size and SHA-256 of the attachments of these names that the commit (a full hash) has."""
    contents = read_contents_at(ledger, commit, wanted, None)
    return {name: Attached(len(content), hashlib.sha256(content).hexdigest()) for name, content in contents.items()}


def read_contents_at(ledger: Path, commit: str, wanted: Iterable[str] | None, most: int | None) -> dict[str, bytes]:
    """Return the attachments of these names (None: all) that the commit has, of at most so many bytes (None: any)."""
    folder = f"{names.ATTACHMENTS}/"
    asked = None if wanted is None else set(wanted)
    if asked is not None and not asked:
        return {}
    there = [(blob.path.removeprefix(folder), blob) for blob in blobs_at(ledger, commit)
             if blob.path.startswith(folder) and blob.mode.startswith("100")]  # fmt: skip
    kept = [(name, blob.hash) for name, blob in there
            if (asked is None or name in asked) and (most is None or blob.size <= most)]  # fmt: skip
    contents = read_blobs(ledger, [hash for _, hash in kept])
    return {name: content for (name, _), content in zip(kept, contents, strict=False) if content is not None}
