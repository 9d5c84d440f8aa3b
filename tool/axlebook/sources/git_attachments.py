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
    asked = {f"{names.ATTACHMENTS}/{name}": name for name in wanted}
    if not asked:
        return {}
    there = [(asked[blob.path], blob.hash) for blob in blobs_at(ledger, commit)
             if blob.path in asked and blob.mode.startswith("100")]  # fmt: skip
    contents = read_blobs(ledger, [name for _, name in there])
    return {
        name: Attached(len(content), hashlib.sha256(content).hexdigest())
        for (name, _), content in zip(there, contents, strict=False)
        if content is not None
    }
