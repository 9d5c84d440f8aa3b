"""A folder of pages: written whole beside its place and then put there; only one that was written here is replaced.

A marker in it names every file with its SHA-256. A file that the marker does not name is somebody's own: then nothing
is replaced.
"""

from __future__ import annotations

import contextlib
import glob
import hashlib
import os
import re
import secrets
import shutil
from collections.abc import Iterable
from pathlib import Path

MARKER = ".axlebook-pages"
_NAMED_HERE = re.compile(r"\.[0-9a-f]{12}\.(part|old)")
_HEAD = "axlebook pages 1: this folder is written anew as a whole; keep nothing of your own in it"


class NotOurs(Exception):  # noqa: N818 - an answer, not an error of the program
    """The folder is not one that may be replaced; the text says why."""


def known_pages(target: Path) -> dict[str, str]:
    """Return what a folder holds by its marker, SHA-256 by path; nothing where there is no folder, or an empty one.

    Raises
    ------
    NotOurs
        It holds something that was not written here, or is no folder.
    """
    if target.is_symlink() or (os.path.lexists(target) and not target.is_dir()):
        raise NotOurs("is a link or a file, no folder of its own")
    there = _files(target) if target.is_dir() else []
    if not there:
        return {}
    named = _read_marker(target)
    if named is None:
        raise NotOurs(f"is not empty, and was not written by this command (no {MARKER} in it)")
    foreign = next((path for path in there if path not in named and path != MARKER), None)
    if foreign is not None:
        raise NotOurs(f"holds {foreign!r}, which this command did not write")
    return named


def kept(target: Path, named: dict[str, str], folder: str) -> dict[str, bytes]:
    """Return the files below a folder of old pages that are still what the marker says."""
    found = {}
    for path, sha256 in named.items():
        if path.startswith(f"{folder}/"):
            with contextlib.suppress(OSError):
                content = (target / path).read_bytes()
                if hashlib.sha256(content).hexdigest() == sha256:
                    found[path] = content
    return found


def write_pages(target: Path, files: Iterable[tuple[str, bytes]]) -> int:
    """Write files to a folder that is new, empty or made here; return how many. Until all are there, the old stay.

    Raises
    ------
    NotOurs
        The folder may not be replaced.
    OSError
        The disk said no; the old pages are as they were.
    """
    known_pages(target)
    target.parent.mkdir(parents=True, exist_ok=True)
    beside = target.parent / f".{target.name}.{secrets.token_hex(6)}.part"
    os.mkdir(beside)
    try:
        sums = {path: _put(beside, path, content) for path, content in files}
        lines = (f"{sha256}  {path}\n" for path, sha256 in sorted(sums.items()))
        (beside / MARKER).write_bytes(f"{_HEAD}\n{''.join(lines)}".encode())
        _swap(beside, target)
    finally:
        shutil.rmtree(beside, ignore_errors=True)
    return len(sums)


def left_over(target: Path) -> tuple[list[str], list[str]]:
    """Put right what a call that was killed left beside a folder: what was done, and what is somebody's to look at.

    Old pages that were moved aside go back where no folder stands, and away where one does: all of it is ours by its
    marker. What has no marker is half written, or not ours, and is only named.
    """
    done, told = [], []
    for beside in sorted(target.parent.glob(f".{glob.escape(target.name)}.*")):
        if not _NAMED_HERE.fullmatch(beside.name.removeprefix(f".{target.name}")):
            continue
        try:
            ours = bool(known_pages(beside))
        except NotOurs:
            ours = False
        if not ours:
            told.append(beside.name)
        elif beside.suffix == ".old" and not os.path.lexists(target):
            os.rename(beside, target)
            done.append(f"{beside.name} put back")
        else:
            shutil.rmtree(beside)
            done.append(f"{beside.name} removed")
    return done, told


def _put(folder: Path, path: str, content: bytes) -> str:
    place = folder / path
    place.parent.mkdir(exist_ok=True)
    with open(place, "xb") as file:
        file.write(content)
    return hashlib.sha256(content).hexdigest()


def _swap(beside: Path, target: Path) -> None:
    """Put the new folder in the place of the old one; should that fail, the old one is put back."""
    old = beside.with_suffix(".old")
    there = os.path.lexists(target)
    if there:
        os.rename(target, old)
    try:
        os.rename(beside, target)
    except OSError:
        if there:
            os.rename(old, target)
        raise
    if there:
        shutil.rmtree(old, ignore_errors=True)


def _files(folder: Path) -> list[str]:
    """Every file below a folder; a link is a file, and so is an empty folder."""
    found = []
    for place, folders, files in os.walk(folder):
        here = Path(place).relative_to(folder)
        links = [name for name in folders if (folder / here / name).is_symlink()]
        found += [(here / name).as_posix() for name in (*files, *links)]
        if not folders and not files and place != str(folder):
            found.append(here.as_posix())
    return sorted(found)


def _read_marker(folder: Path) -> dict[str, str] | None:
    marker = folder / MARKER
    if marker.is_symlink() or not marker.is_file():
        return None
    head, *lines = marker.read_text(encoding="utf-8", errors="replace").splitlines() or [""]
    if head != _HEAD:
        return None
    pairs = (line.partition("  ") for line in lines)
    return {path: sha256 for sha256, _, path in pairs if path and ".." not in path.split("/")}
