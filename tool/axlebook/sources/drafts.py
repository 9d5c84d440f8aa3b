"""Drafts of guided entry: one file a draft, a line an event, on the disk before the next question is asked.

They lie in the ledger's `.drafts/`, which is kept out of the book and out of git. A power cut can cost the line that
was being written, never one before it.
"""

from __future__ import annotations

import contextlib
import json
import os
import secrets
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, NamedTuple

FOLDER = ".drafts"
ENDING = ".jsonl"
LAST = "last.json"
MOST = 1 << 20  # bytes of a draft; no inspection comes near


class Draft(NamedTuple):
    """A draft on the disk: what it is of, and its events."""

    path: Path
    about: Mapping[str, str]
    events: tuple[Mapping[str, Any], ...]


class Held(Exception):  # noqa: N818 - an answer, not an error of the program
    """Someone is writing to the draft right now."""


class Pen:
    """The end of a draft's file, to write events to."""

    def __init__(self, path: Path) -> None:
        """Open the file; what a power cut left half written is closed by a line end.

        Raises
        ------
        Held
            Another pen is on it.
        """
        self.path = path
        # No buffer: what a full disk refused must not be tried again, and refused again, where the file is closed.
        self._file = open(path, "ab", buffering=0)  # noqa: SIM115 - held until the entry ends
        if not _hold(self._file.fileno()):
            self._file.close()
            raise Held
        if path.stat().st_size and not path.read_bytes().endswith(b"\n"):
            self._file.write(b"\n")

    def write(self, event: Mapping[str, Any]) -> None:
        """Bring one event to the disk."""
        rest = memoryview(json.dumps(event, ensure_ascii=False).encode() + b"\n")
        while rest:
            rest = rest[self._file.write(rest) or 0 :]
        os.fsync(self._file.fileno())

    def close(self) -> None:
        """Close the file."""
        self._file.close()


def _hold(handle: int) -> bool:
    """Hold a file as long as it is open, where the system can; a process that dies lets go."""
    try:
        import fcntl
    except ImportError:  # Windows: two people at one draft are not told from each other
        return True
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    except OSError:  # a network disk without locks
        return True
    return True


def is_held(path: Path) -> bool:
    """Whether someone is writing to a draft right now."""
    try:
        with open(path, "ab") as file:
            return not _hold(file.fileno())
    except OSError:
        return True


def begin(root: Path, about: Mapping[str, str]) -> Pen:
    """Begin a draft in a file of its own: two people who begin at once take two names."""
    folder = root / FOLDER
    folder.mkdir(exist_ok=True)
    path = folder / f"{about['started']}-{about['about']}-{secrets.token_hex(4)}{ENDING}"
    with open(path, "xb"):
        pass
    pen = Pen(path)
    try:
        pen.write({"about": dict(about)})
    except OSError:
        pen.close()
        put_away(path)
        raise
    return pen


def read_drafts(root: Path) -> list[Draft]:
    """All drafts of a ledger, the one last written to first."""
    with contextlib.suppress(FileNotFoundError, NotADirectoryError):
        paths = [path for path in (root / FOLDER).iterdir() if path.name.endswith(ENDING) and path.is_file()]
        found = [draft for path in paths if (draft := _read(path)) is not None]
        return sorted(found, key=lambda draft: (-draft.path.stat().st_mtime, draft.path.name))
    return []


def _read(path: Path) -> Draft | None:
    """A draft; None where its first line does not say what it is of."""
    if path.stat().st_size > MOST:
        return None
    first, *events = [*_events(path.read_bytes())] or [{}]
    about = first.get("about")
    if not isinstance(about, dict) or not all(isinstance(text, str) for text in about.values()):
        return None
    return Draft(path, about, tuple(events))


def _events(content: bytes) -> Iterator[dict[str, Any]]:
    """The events of a file; a line that was not written to its end is none."""
    for line in content.split(b"\n"):
        with contextlib.suppress(ValueError, RecursionError):
            event = json.loads(line)
            if isinstance(event, dict):
                yield event


def put_away(path: Path) -> None:
    """Take a draft away whose record is written."""
    with contextlib.suppress(FileNotFoundError):
        path.unlink()


def read_last(root: Path) -> dict[str, str]:
    """What was said before the walk last time; empty where nothing is known."""
    with contextlib.suppress(OSError, ValueError, RecursionError):
        found = json.loads((root / FOLDER / LAST).read_bytes())
        if isinstance(found, dict):
            return {key: text for key, text in found.items() if isinstance(key, str) and isinstance(text, str)}
    return {}


def write_last(root: Path, said: Mapping[str, str]) -> None:
    """Remember it for the next time; a comfort, so that a full disk is no fault here."""
    with contextlib.suppress(OSError):
        beside = root / FOLDER / f".{LAST}.{secrets.token_hex(4)}.part"
        beside.write_text(json.dumps(dict(said), ensure_ascii=False), encoding="utf-8")
        os.replace(beside, root / FOLDER / LAST)
