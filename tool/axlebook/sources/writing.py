"""The one place where files of a ledger are written: whole or not at all, and never over another.

One file is added to, a month's service days; that is `rewrite`, which a changed file refuses.
"""

from __future__ import annotations

import contextlib
import errno
import os
import secrets
import shutil
import stat
import time
from collections.abc import Iterator
from pathlib import Path


class AlreadyThere(Exception):  # noqa: N818 - an answer, not an error of the program
    """There is a file of that name, and nothing was written."""

    def __init__(self, path: Path) -> None:
        super().__init__(str(path))
        self.path = path


def write_new(path: Path, content: bytes) -> None:
    """Write a new file; its folders are made. A reader sees all of it or nothing, also when the power goes.

    Raises
    ------
    AlreadyThere
        Something stands there, a link that leads nowhere included.
    OSError
        The disk said no; nothing is left behind.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.parent / f".{path.name}.{secrets.token_hex(6)}.part"
    try:
        _write_through(beside, content)
        _put_in_place(beside, path)
    finally:
        with contextlib.suppress(FileNotFoundError):
            beside.unlink()
    _settle(path.parent)


def _write_through(path: Path, content: bytes) -> None:
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o666)
    with os.fdopen(handle, "wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _put_in_place(beside: Path, path: Path) -> None:
    """Give the finished file its name, where nothing has it: a link does so in one step."""
    try:
        os.link(beside, path, follow_symlinks=False)
    except FileExistsError:
        raise AlreadyThere(path) from None
    except (OSError, RuntimeError):
        _reserve_and_replace(beside, path)  # a disk without links, such as a memory stick


def _reserve_and_replace(beside: Path, path: Path) -> None:
    try:
        os.close(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666))
    except FileExistsError:
        raise AlreadyThere(path) from None
    os.replace(beside, path)


def _settle(folder: Path) -> None:
    """Bring the folder's entry to the disk, where the system can."""
    try:
        handle = os.open(folder, os.O_RDONLY)
    except OSError:  # Windows opens no folder
        return
    try:
        os.fsync(handle)
    except OSError:
        pass
    finally:
        os.close(handle)


@contextlib.contextmanager
def new_folder(target: Path) -> Iterator[Path]:
    """Give a hidden folder to fill; it takes the target's name once it is whole, so that half of it is never seen.

    Raises
    ------
    OSError
        The disk said no, or something stands at the target; nothing is left behind.
    """
    target.parent.mkdir(parents=True, exist_ok=True)
    beside = target.parent / f".{target.name}.{secrets.token_hex(6)}.part"
    beside.mkdir()
    try:
        yield beside
        if target.is_dir():
            _move_into(beside, target)
        else:
            os.rename(beside, target)
    finally:
        shutil.rmtree(beside, ignore_errors=True)
    _settle(target.parent)


def _move_into(beside: Path, target: Path) -> None:
    """Fill an empty folder that someone may be standing in; `ledger.yaml` last, so that half a ledger is none."""
    if os.listdir(target):
        raise FileExistsError(errno.ENOTEMPTY, os.strerror(errno.ENOTEMPTY), str(target))
    moved: list[tuple[Path, Path]] = []
    try:
        for path in sorted(beside.iterdir(), key=lambda path: path.name == "ledger.yaml"):
            os.rename(path, target / path.name)
            moved.append((target / path.name, path))
    except BaseException:
        for there, back in moved:
            os.rename(there, back)
        raise


class Changed(Exception):  # noqa: N818 - an answer, not an error of the program
    """The file is not what it was when it was read, or another is writing it; nothing was written."""


ABANDONED = 30.0  # seconds after which a half-written neighbor is what a power cut left


def rewrite(path: Path, was: bytes, content: bytes) -> None:
    """Put new content in the place of what a file was, whole or not at all.

    Of two who do so at once one is refused: the name of the half-written neighbor can be taken only once.

    Raises
    ------
    Changed
        The file is no longer what it was, or someone else is at it.
    OSError
        The disk said no; the file is as it was.
    """
    beside = path.parent / f".{path.name}.part"
    _take(beside, content)
    try:
        if path.read_bytes() != was:
            raise Changed
        with contextlib.suppress(OSError):
            os.chmod(beside, stat.S_IMODE(path.stat().st_mode))
        os.replace(beside, path)
    finally:
        with contextlib.suppress(FileNotFoundError):
            beside.unlink()
    _settle(path.parent)


def _take(beside: Path, content: bytes) -> None:
    """Write the neighbor, which only one can hold at a time."""
    with contextlib.suppress(FileNotFoundError):
        if abs(time.time() - beside.stat().st_mtime) > ABANDONED:  # also where the clock was put back
            beside.unlink()
    try:
        _write_through(beside, content)
    except FileExistsError:
        raise Changed from None
    except BaseException:
        with contextlib.suppress(FileNotFoundError):
            beside.unlink()
        raise
