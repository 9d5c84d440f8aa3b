"""Photos and certificates that records cite: which, where, and what stands there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from axlebook.findings import Place, id_of

from . import fields


class Attached(NamedTuple):
    """A file below `attachments/` as it is: its size in bytes and its SHA-256."""

    size: int
    sha256: str


class Cited(NamedTuple):
    """One attachment as a record cites it."""

    record: str
    place: Place  # of the entry
    file: str  # below attachments/
    sha256: str
    shows: str = ""


def cited_in(path: str, tree: Mapping[str, Any]) -> Iterator[Cited]:
    """The attachments that a record cites."""
    record = id_of(path)
    for index, entry in enumerate(fields.items(tree, "attachments")):
        if isinstance(entry, dict) and (file := fields.text(entry, "file")):
            place = Place(path, f"/attachments/{index}")
            yield Cited(record, place, file, fields.text(entry, "sha256"), fields.text(entry, "shows"))


def all_cited(records: Iterable[tuple[str, Mapping[str, Any]]]) -> tuple[Cited, ...]:
    """The attachments that some records (path, tree) cite."""
    return tuple(one for path, tree in records if "attachments" in tree for one in cited_in(path, tree))
