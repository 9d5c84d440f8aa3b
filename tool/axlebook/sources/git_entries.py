"""The records of a ledger at a commit, judged file by file and in the order in which `folder.py` walks a disk.

So a run over a commit says to the byte what a run in a checkout of it says.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import NamedTuple

from axlebook.sources import names
from axlebook.sources.git import Blob, blobs_at, read_blobs, resolve
from axlebook.sources.names import Entry
from axlebook.sources.refusals import Refusal, shown, too_large
from axlebook.sources.yaml_text import MAX_BYTES

LINK, MODULE = "120000", "160000"
NOT_HERE = Refusal("unreadable", "Git has not got the content of this file here.",
                   "Fetch the whole history, or look whether the disk is well.")  # fmt: skip

Folder = dict[str, "Blob | Folder"]


class Planned(NamedTuple):
    """A file of a commit before it is read: `hash` None where it is not to be read."""

    path: str
    hash: str | None
    problem: Refusal | None


def entries_at(ledger: Path, revision: str, *, max_bytes: int = MAX_BYTES) -> Iterator[Entry]:
    """Yield the records of a ledger at a revision, as `read_folder` yields those on disk."""
    plan = planned(blobs_at(ledger, resolve(ledger, revision)), max_bytes=max_bytes)
    yield from entries_of(plan, contents_of(ledger, [plan]))


def contents_of(ledger: Path, plans: Iterable[list[Planned]]) -> dict[str, bytes | None]:
    """Return the contents that plans ask for by hash: what several commits have alike is read once."""
    asked = list(dict.fromkeys(one.hash for plan in plans for one in plan if one.hash is not None))
    return dict(zip(asked, read_blobs(ledger, asked), strict=False))


def entries_of(plan: Iterable[Planned], contents: Mapping[str, bytes | None]) -> Iterator[Entry]:
    """Yield planned files with their contents; one that git has not got is a problem, not a hole."""
    for path, name, problem in plan:
        content = None if name is None else contents.get(name)
        yield Entry(path, content, NOT_HERE if name is not None and content is None else problem)


def planned(blobs: Iterable[Blob], *, max_bytes: int = MAX_BYTES) -> list[Planned]:
    """Return what is to be read of a commit, and what is wrong with the rest."""
    top = _as_folders(blobs)
    seen: dict[str, str] = {}
    found: list[Planned] = []
    if names.LEDGER in top:
        found.append(_file(top[names.LEDGER], names.LEDGER, None, max_bytes))
    for name in names.FOLDERS:
        if name in top:
            found += _folder(top[name], name, 1, seen, max_bytes)
    return [*found, *_others(top)]


def _as_folders(blobs: Iterable[Blob]) -> Folder:
    top: Folder = {}
    for blob in blobs:
        *folders, name = blob.path.split("/")
        here = top
        for folder in folders:
            below = here.setdefault(folder, {})
            assert isinstance(below, dict)  # git has no file and folder of one name
            here = below
        here[name] = blob
    return top


def _folder(item: Blob | Folder, path: str, nesting: int, seen: dict[str, str], max_bytes: int) -> Iterator[Planned]:
    if isinstance(item, Blob):
        yield Planned(path, None, _no_file(item) or names.not_a_folder(path))
        return
    for name, inner in sorted(item.items()):
        if names.is_ignored(name):
            continue
        below = f"{path}/{name}" if name.isprintable() else f"{path}/{shown(name)}"
        twin = names.twin_problem(below, seen)
        if isinstance(inner, Blob):
            yield _file(inner, below, twin or names.file_problem(name), max_bytes, name)
            continue
        problem = names.folder_problem(name, nesting + 1) or twin
        if problem:
            yield Planned(below, None, problem)
        if nesting < names.MAX_NESTING:
            yield from _folder(inner, below, nesting + 1, seen, max_bytes)


def _file(item: Blob | Folder, path: str, problem: Refusal | None, max_bytes: int, name: str = "") -> Planned:
    worse = _no_file(item) if isinstance(item, Blob) else names.not_a_file()
    if worse or not isinstance(item, Blob):
        return Planned(path, None, worse)
    if problem and (problem.kind == "stray-file" or not names.is_printable(name)):
        return Planned(path, None, problem)
    if item.size > max_bytes:
        return Planned(path, None, too_large(item.size, max_bytes))
    return Planned(path, item.hash, problem)


def _no_file(blob: Blob) -> Refusal | None:
    if blob.mode == LINK:
        return names.symlink()
    if blob.mode == MODULE:
        return names.module()
    return None if blob.mode.startswith("100") else names.not_a_file()


def _others(top: Folder) -> Iterator[Planned]:
    for name, item in sorted(top.items()):
        if names.is_known_at_top(name):
            continue
        if isinstance(item, dict):
            if _holds_records(item):
                yield Planned(shown(name), None, names.unknown_folder(name))
        elif item.mode != MODULE and name.lower().endswith((".yaml", ".yml")):
            yield Planned(shown(name), None, names.stray_at_top())


def _holds_records(folder: Folder, nesting: int = 1) -> bool:
    return any(
        nesting < names.MAX_NESTING and _holds_records(item, nesting + 1)
        if isinstance(item, dict)
        else name.endswith(".yaml")
        for name, item in folder.items()
    )
