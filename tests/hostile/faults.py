"""Every command that writes, what it may leave behind, and a way to let the power or the disk fail at any of its steps.

A command runs in a child process; a hook of Python's own (`sys.addaudithook`) counts each time it opens a file to
write, links, renames, removes, makes a folder or brings something to the disk, inside the folder that is watched.
"""

from __future__ import annotations

import errno
import os
import shutil
import signal
import sys
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.cli.commands import AT, THIN, small_ledger
from tests.cli.turning_ledger import FLAGS, turning_ledger

Files = dict[str, bytes]
NEVER = 10**9
MAKES = ("open", "os.link", "os.mkdir", "os.rename", "os.fsync", "os.truncate")
STEPS = (*MAKES, "os.remove", "os.rmdir", "os.chmod")


@dataclass(frozen=True)
class Writer:
    """A command that writes: how its ledger is made, what is typed, and what is said to be whole."""

    name: str
    asked: tuple[str, ...]
    ledger: Callable[[Path], Path]
    new_folder: str = ""  # where the command makes a folder of its own
    all_or_nothing: bool = True  # of that folder: it is there whole, or not at all


def _plain(folder: Path) -> Path:
    return small_ledger(folder, {AT: THIN})


def _ran_before(folder: Path) -> Path:
    month = "kind: service\nengine: e-1\nmonth: 2026-02\ndays:\n  - day: 2026-02-01\n    miles: 12 mile\n"
    return small_ledger(folder, {"service/e-1-2026-02.yaml": month})


WRITERS = [
    Writer("new", ("new", "tire", "t-9"), _plain),
    Writer("steam, the month's first", ("steam", "e-1", "2026-02-07", "--miles", "34"), _plain),
    Writer("steam, one day more", ("steam", "e-1", "2026-02-07", "--miles", "34"), _ran_before),
    Writer("turning", ("turning", "e-1", *FLAGS, "--save", "2026-04-01-x"), turning_ledger),
    Writer("annual", ("annual", "e-1", "2026", "-o", "annual.html"), _plain),
    Writer("sheet", ("sheet", "e-1", "-o", "sheet.html"), _plain),
    Writer("init", ("init", "../other"), _plain, "other", False),
    Writer("demo", ("demo", "../demo"), _plain, "demo"),
    Writer("demo --practice", ("demo", "--practice", "--seed", "1", "../drill"), _plain, "drill"),
]


def files_of(room: Path) -> Files:
    """All files but the hidden ones: halves that were being written bear a dot before their name."""
    return {
        path.relative_to(room).as_posix(): path.read_bytes()
        for path in sorted(room.rglob("*"))
        if path.is_file() and not any(part.startswith(".") for part in path.relative_to(room).parts)
    }


@dataclass
class Ended:
    """How a child ended: its exit code or the signal, negative; what it said; how many steps it made."""

    code: int
    err: str
    out: str
    steps: int


def run_watched(asked: tuple[str, ...], at: Path, room: Path, step: int = NEVER, fault: str = "count") -> Ended:
    """Run a command in a child; at the step told, `kill` ends it, and `full` and `read-only` refuse to write."""
    told = Path(tempfile.mkdtemp())
    child = os.fork()
    if child == 0:
        _child(asked, at, room, told, step, fault)
    _, status = os.waitpid(child, 0)
    steps = (told / "steps").read_bytes() if (told / "steps").exists() else b""
    ended = Ended(os.waitstatus_to_exitcode(status), _text(told / "err"), _text(told / "out"), len(steps))
    shutil.rmtree(told)
    return ended


def _text(path: Path) -> str:
    return path.read_text("utf-8", "replace") if path.exists() else ""


def _child(asked: tuple[str, ...], at: Path, room: Path, told: Path, step: int, fault: str) -> None:
    code = 99
    try:
        for name, stream in (("out", 1), ("err", 2)):
            os.dup2(os.open(told / name, os.O_WRONLY | os.O_CREAT), stream)
            setattr(sys, f"std{name}", os.fdopen(stream, "w", encoding="utf-8", closefd=False))
        os.chdir(at)
        _watch(os.path.realpath(room), os.open(told / "steps", os.O_WRONLY | os.O_CREAT), step, fault)
        from axlebook.cli import run

        code = run(list(asked))
        sys.stdout.flush()
        sys.stderr.flush()
    finally:
        os._exit(code)


def _watch(room: str, tally: int, step: int, fault: str) -> None:
    made = 0
    fsync = os.fsync

    def come(event: str) -> None:
        nonlocal made
        made += 1
        os.write(tally, b".")
        if made >= step and fault == "kill":
            os.kill(os.getpid(), signal.SIGKILL)
        if made >= step and event in MAKES and fault in ("full", "read-only"):
            number = errno.ENOSPC if fault == "full" else errno.EROFS
            raise OSError(number, os.strerror(number))

    def hook(event: str, arguments: tuple[Any, ...]) -> None:
        if event not in STEPS or not arguments or not isinstance(arguments[0], str | bytes | os.PathLike):
            return
        if event == "open" and not (arguments[2] or 0) & (os.O_WRONLY | os.O_RDWR | os.O_CREAT):
            return
        if os.path.abspath(os.fsdecode(arguments[0])).startswith(room):
            come(event)

    def watched_fsync(handle: int) -> None:
        come("os.fsync")
        fsync(handle)

    os.fsync = watched_fsync  # type: ignore[assignment]
    sys.addaudithook(hook)


def problems_left(writer: Writer, room: Path, before: Files, whole: Files) -> list[str]:
    """What a fault left that it should not: a file that is neither as it was nor as it becomes, or one that is lost."""
    now = files_of(room)
    found = [
        f"half written: {path}" for path, content in now.items() if content not in (before.get(path), whole.get(path))
    ]
    found += [f"lost: {path}" for path in before if path not in now]
    inside = {path for path in now if writer.new_folder and path.startswith(f"{writer.new_folder}/")}
    wanted = {path for path in whole if path.startswith(f"{writer.new_folder}/")}
    if writer.all_or_nothing and inside and inside != wanted:
        found.append(f"half a folder: {len(inside)} of {len(wanted)} files")
    if f"{writer.new_folder}/ledger.yaml" in inside and inside != wanted:
        found.append("a ledger that looks whole and is not")
    return found
