"""A way to let the power or the disk fail at any step of a command that writes, and a look at what is left behind.

A command runs in a child process; a hook of Python's own (`sys.addaudithook`) counts each time it opens a file to
write, links, renames, removes, makes a folder or brings something to the disk, inside the folder that is watched.
At the step told, `kill` ends it, and `full` and `read-only` refuse to write. Two faults are real ones: `small files`
is a limit of the system on every file's size, and a kill after some seconds falls where it falls.
"""

from __future__ import annotations

import contextlib
import errno
import os
import resource
import signal
import sys
import time
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.hostile.writers import Writer

Files = dict[str, bytes]
NEVER = 10**9
MAKES = ("open", "os.link", "os.mkdir", "os.rename", "os.fsync", "os.truncate")
STEPS = (*MAKES, "os.remove", "os.rmdir", "os.chmod")
REFUSES = {"full": errno.ENOSPC, "read-only": errno.EROFS}


def files_of(room: Path) -> Files:
    """All files but drafts, what git keeps, and halves that were being written, which say so by their names."""
    return {
        path.relative_to(room).as_posix(): path.read_bytes()
        for path in sorted(room.rglob("*"))
        if path.is_file() and not any(map(_passed_over, path.relative_to(room).parts))
    }


def _passed_over(name: str) -> bool:
    return name in (".git", ".drafts") or (name.startswith(".") and name.endswith((".part", ".old")))


@dataclass(frozen=True)
class Fault:
    """What goes wrong: which, and at which step, after how many seconds, or from how many bytes of a file on."""

    kind: str = ""
    step: int = NEVER
    after: float = 0.0
    most: int = 0


NONE = Fault()


@dataclass
class Ended:
    """How a child ended: its exit code or the signal, negative; what it said; its steps, a sign each; seconds."""

    code: int
    err: str
    out: str
    made: bytes  # `s` where something was brought to the disk, else a dot
    seconds: float

    @property
    def steps(self) -> int:
        """How many steps were begun; a killed one was not done."""
        return len(self.made)


def run_watched(writer: Writer, at: Path, room: Path, fault: Fault = NONE, typed: Sequence[str] | None = None) -> Ended:
    """Run a command in a child process, its answers typed; let the fault come."""
    pipes = [os.pipe() for _ in range(4)]  # typed, said, told, and a sign for each step
    begun = time.monotonic()
    child = os.fork()
    if child == 0:
        _child(writer.asked, at, room, pipes, fault)
    with contextlib.suppress(OSError):
        os.setpgid(child, child)  # whatever it starts is killed with it, as where the power goes
    for own in (pipes[0][0], pipes[1][1], pipes[2][1], pipes[3][1]):
        os.close(own)
    with open(pipes[0][1], "wb") as answers, contextlib.suppress(BrokenPipeError):
        answers.writelines(f"{line}\n".encode() for line in (writer.typed if typed is None else typed))
    if fault.after:
        time.sleep(fault.after)
        os.killpg(child, signal.SIGKILL)
    with ThreadPoolExecutor(3) as readers:
        out, err, made = readers.map(_all_of, (pipes[1][0], pipes[2][0], pipes[3][0]))
    _, status = os.waitpid(child, 0)
    code = os.waitstatus_to_exitcode(status)
    seconds = time.monotonic() - begun
    return Ended(code, err.decode("utf-8", "replace"), out.decode("utf-8", "replace"), made, seconds)


def _all_of(handle: int) -> bytes:
    with open(handle, "rb") as pipe:
        return pipe.read()


def _child(asked: tuple[str, ...], at: Path, room: Path, pipes: list[tuple[int, int]], fault: Fault) -> None:
    code = 99
    try:
        os.setpgid(0, 0)
        for stream, own in enumerate((pipes[0][0], pipes[1][1], pipes[2][1])):
            os.dup2(own, stream)
        for own in {end for pipe in pipes for end in pipe} - {pipes[3][1]}:
            os.close(own)
        sys.stdin = os.fdopen(0, encoding="utf-8", closefd=False)
        sys.stdout = os.fdopen(1, "w", encoding="utf-8", closefd=False)
        sys.stderr = os.fdopen(2, "w", encoding="utf-8", closefd=False)
        os.chdir(at)
        if fault.kind == "small files":
            resource.setrlimit(resource.RLIMIT_FSIZE, (fault.most, fault.most))
        _watch(os.path.realpath(room), pipes[3][1], fault)
        from axlebook.cli import run

        code = run(list(asked))
        sys.stdout.flush()
        sys.stderr.flush()
    finally:
        os._exit(code)


def _watch(room: str, tally: int, fault: Fault) -> None:
    made = 0

    def come(event: str) -> None:
        nonlocal made
        made += 1
        os.write(tally, b"s" if event == "os.fsync" else b".")
        if made >= fault.step and fault.kind == "kill":
            os.killpg(0, signal.SIGKILL)
        if made >= fault.step and event in MAKES and fault.kind in REFUSES:
            number = REFUSES[fault.kind]
            raise OSError(number, os.strerror(number))

    def hook(event: str, arguments: tuple[Any, ...]) -> None:
        if event not in STEPS or not arguments or not isinstance(arguments[0], str | bytes | os.PathLike):
            return
        if event == "open" and not (arguments[2] or 0) & (os.O_WRONLY | os.O_RDWR | os.O_CREAT):
            return
        if os.path.abspath(os.fsdecode(arguments[0])).startswith(room):
            come(event)

    def watched_fsync(_: int) -> None:
        # Counted, and not done: a process that is killed loses nothing that the system has, and it takes seconds.
        come("os.fsync")

    os.fsync = watched_fsync  # type: ignore[assignment]
    sys.addaudithook(hook)


def problems_left(writer: Writer, room: Path, before: Files, whole: Files) -> list[str]:
    """What a fault left that it should not: a file that is neither as it was nor as it becomes, or one that is lost."""
    now = files_of(room)
    found = [
        f"half written: {path}" for path, content in now.items() if content not in (before.get(path), whole.get(path))
    ]
    made = f"{writer.new_folder}/" if writer.new_folder else "no folder/"
    own, wanted, old = ({p: c for p, c in files.items() if p.startswith(made)} for files in (now, whole, before))
    found += [f"lost: {path}" for path in before if path not in now and not (writer.may_be_gone and path in old)]
    if writer.all_or_nothing and own and own not in (wanted, old):
        found.append(f"half a folder: {len(own)} of {len(wanted)} files")
    if f"{made}ledger.yaml" in own and own != wanted:
        found.append("a ledger that looks whole and is not")
    return found
