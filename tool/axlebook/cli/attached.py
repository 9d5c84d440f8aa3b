"""The attachments of an opened ledger, from its folder or from a commit."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .opened import Opened

LARGEST = 20_000_000  # bytes of a photo that a report shows or copies


def attachments(found: Opened, wanted: Iterable[str] | None, most: int) -> dict[str, bytes]:
    """The contents of attachments by name (None: of all); one of more bytes than `most` is left out."""
    if found.at is None:
        from axlebook.sources.attachments import read_contents

        return read_contents(found.root, wanted, most)
    from axlebook.sources.git_attachments import read_contents_at

    return read_contents_at(found.root, found.at.commit, wanted, most)
