"""The one place where files of a ledger are written: whole or not at all, and never over another."""

from __future__ import annotations

import contextlib
import os
import secrets
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
    except (OSError, NotImplementedError):
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
