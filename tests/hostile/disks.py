"""Real disks that refuse: a small one that is full, and a folder that may only be read.

Where the system lets us mount (as root), they are real mounts. Where it does not, a folder is forbidden by its
permissions, which hold for everybody but root; and a full disk is played by `faults.py` alone.
"""

from __future__ import annotations

import contextlib
import os
import shutil
import subprocess
from collections.abc import Iterator
from functools import cache
from pathlib import Path

BLOCK = 4096


@cache
def can_mount() -> bool:
    """Whether a small disk can be mounted here; tried once."""
    import tempfile

    place = tempfile.mkdtemp()
    try:
        return _mount("-t", "tmpfs", "-o", "size=64k", "tmpfs", place) and _unmount(Path(place))
    finally:
        os.rmdir(place)


def _mount(*arguments: str) -> bool:
    found = shutil.which("mount")
    return found is not None and subprocess.run([found, *arguments], capture_output=True, check=False).returncode == 0


def _unmount(place: Path) -> bool:
    return subprocess.run(["umount", "--lazy", str(place)], capture_output=True, check=False).returncode == 0


@contextlib.contextmanager
def small_disk(place: Path, content: Path, blocks_left: int) -> Iterator[Path]:
    """A disk that holds a folder's content and has room for some blocks more; without a mount, one that is not full."""
    place.mkdir()
    if not can_mount():
        shutil.copytree(content, place / content.name, symlinks=True)
        yield place
        return
    assert _mount("-t", "tmpfs", "-o", "size=16m", "tmpfs", str(place))
    try:
        shutil.copytree(content, place / content.name, symlinks=True)
        with open(place / "filler", "wb") as file, contextlib.suppress(OSError):
            free = os.statvfs(place).f_bavail - blocks_left
            file.write(bytes(max(free, 0) * BLOCK))
        yield place
    finally:
        _unmount(place)


@contextlib.contextmanager
def read_only(folder: Path) -> Iterator[Path]:
    """The folder, forbidden to be written to: by a mount of itself that may only be read, else by its permissions."""
    if can_mount() and _mount("--bind", str(folder), str(folder)):
        try:
            assert _mount("-o", "remount,bind,ro", str(folder))
            yield folder
        finally:
            _unmount(folder)
        return
    folders = [folder, *(path for path in folder.rglob("*") if path.is_dir())]
    for one in folders:
        one.chmod(0o555)
    try:
        yield folder
    finally:
        for one in folders:
            one.chmod(0o755)
