"""Walk a ledger on disk: every record's bytes, and a problem for everything that cannot be read as one.

Nothing outside the ledger is reached: no link is followed, no pipe or device is opened. The order is always
the same, whatever order the disk gives.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator
from pathlib import Path

from axlebook.sources import names
from axlebook.sources.names import Entry
from axlebook.sources.refusals import Refusal, shown, too_large
from axlebook.sources.yaml_text import MAX_BYTES

# A pipe must not block us and a link must not be followed, even one that took a file's place a moment ago.
_OPEN = os.O_RDONLY
for _flag in ("O_NOFOLLOW", "O_NONBLOCK", "O_NOCTTY", "O_CLOEXEC", "O_BINARY"):
    _OPEN |= getattr(os, _flag, 0)


def find_ledger(start: Path) -> Path | None:
    """Return the nearest folder, from `start` upward, that has a `ledger.yaml`."""
    here = Path(os.path.realpath(start))
    return next((folder for folder in (here, *here.parents) if os.path.isfile(folder / names.LEDGER)), None)


def read_folder(root: Path, *, max_bytes: int = MAX_BYTES) -> Iterator[Entry]:
    """Yield every record of the ledger at `root`, and every file and folder there that has a problem."""
    top = _listing(str(root), "")
    if isinstance(top, Entry):
        yield top
        return
    found = {item.name: item for item in top}
    seen: dict[str, str] = {}
    if names.LEDGER in found:
        yield _file(found[names.LEDGER], names.LEDGER, None, max_bytes)
    for name in names.FOLDERS:
        if name in found:
            yield from _folder(found[name], name, 1, seen, max_bytes)
    yield from _others(top)


def list_attachments(root: Path) -> Iterator[Entry]:
    """Yield the attachments of the ledger at `root`: their paths, unread; a problem where one is no file."""
    place = root / names.ATTACHMENTS
    if place.is_symlink():
        yield Entry(names.ATTACHMENTS, None, names.symlink())
    elif place.is_dir():
        yield from _attachments(str(place), names.ATTACHMENTS)


def _attachments(place: str, path: str, nesting: int = 1) -> Iterator[Entry]:
    items = _listing(place, path)
    if isinstance(items, Entry):
        yield items
        return
    for item in items:
        below = f"{path}/{shown(item.name)}"
        if item.is_dir(follow_symlinks=False):
            problem = names.folder_problem(item.name, nesting + 1) if nesting >= names.MAX_NESTING else None
            if problem:
                yield Entry(below, None, problem)
            else:
                yield from _attachments(item.path, below, nesting + 1)
        elif not names.is_ignored(item.name):
            yield Entry(below, None, _no_file(item) or (None if names.is_printable(item.name) else
                                                        names.file_problem(item.name)))


def _listing(place: str, path: str) -> list[os.DirEntry[str]] | Entry:
    try:
        with os.scandir(place) as items:
            return sorted(items, key=lambda item: item.name)
    except OSError as error:
        return Entry(path or ".", None, _unreadable("folder", error))


def _folder(
    folder: os.DirEntry[str], path: str, nesting: int, seen: dict[str, str], max_bytes: int
) -> Iterator[Entry]:
    if not folder.is_dir(follow_symlinks=False):
        yield Entry(path, None, names.symlink() if folder.is_symlink() else names.not_a_folder(path))
        return
    items = _listing(folder.path, path)
    if isinstance(items, Entry):
        yield items
        return
    if any(item.name == ".git" for item in items):
        yield Entry(path, None, names.module())
        return
    for item in items:
        name = item.name
        if names.is_ignored(name):
            continue
        below = f"{path}/{name}" if name.isprintable() else f"{path}/{shown(name)}"
        twin = names.twin_problem(below, seen)
        if item.is_dir(follow_symlinks=False):
            problem = names.folder_problem(name, nesting + 1) or twin
            if problem:
                yield Entry(below, None, problem)
            if nesting < names.MAX_NESTING:
                yield from _folder(item, below, nesting + 1, seen, max_bytes)
        else:
            yield _file(item, below, twin or names.file_problem(name), max_bytes)


def _others(top: list[os.DirEntry[str]]) -> Iterator[Entry]:
    """Yield what stands at the top and looks like records that nobody would read: silence is no pass."""
    for item in top:
        if names.is_known_at_top(item.name):
            continue
        if item.is_dir(follow_symlinks=False):
            if _holds_records(item.path):
                yield Entry(shown(item.name), None, names.unknown_folder(item.name))
        elif item.name.lower().endswith((".yaml", ".yml")):
            yield Entry(shown(item.name), None, names.stray_at_top())


def _holds_records(place: str, nesting: int = 1) -> bool:
    items = _listing(place, "")
    return not isinstance(items, Entry) and any(
        nesting < names.MAX_NESTING and _holds_records(item.path, nesting + 1)
        if item.is_dir(follow_symlinks=False)
        else item.name.endswith(".yaml")
        for item in items
    )


def _file(item: os.DirEntry[str], path: str, problem: Refusal | None, max_bytes: int) -> Entry:
    worse = _no_file(item)
    if worse:
        return Entry(path, None, worse)
    if problem and (problem.kind == "stray-file" or not names.is_printable(item.name)):
        return Entry(path, None, problem)
    try:
        content = _read(item.path, max_bytes)
    except OSError as error:
        return Entry(path, None, _unreadable("file", error))
    return Entry(path, None, content) if isinstance(content, Refusal) else Entry(path, content, problem)


def _no_file(item: os.DirEntry[str]) -> Refusal | None:
    """Return the problem of what is no plain file; where the listing tells the type, this costs no stat."""
    if item.is_file(follow_symlinks=False):
        return None
    return names.symlink() if item.is_symlink() else names.not_a_file()


def _read(place: str, max_bytes: int) -> bytes | Refusal:
    handle = os.open(place, _OPEN)
    try:
        found = os.fstat(handle)
        if not stat.S_ISREG(found.st_mode):
            return names.not_a_file()
        if found.st_size > max_bytes:
            return too_large(found.st_size, max_bytes)
        content = os.read(handle, found.st_size + 1)
        if len(content) == found.st_size:
            return content
        return _rest(handle, content, max_bytes)
    finally:
        os.close(handle)


def _rest(handle: int, content: bytes, max_bytes: int) -> bytes | Refusal:
    """Read on where a file did not come in one piece, or grew while we looked; never more than the limit."""
    while len(content) <= max_bytes:
        more = os.read(handle, max_bytes + 1 - len(content))
        if not more:
            return content
        content += more
    return too_large(len(content), max_bytes)


def _unreadable(what: str, error: OSError) -> Refusal:
    return Refusal("unreadable", f"The {what} cannot be opened ({error.strerror or 'no reason given'}).",
                   f"Give yourself the right to read the {what}, or look whether the disk is well.")
