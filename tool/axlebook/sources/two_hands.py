"""Two pieces of work at once, the second in a process of its own.

Only the time differs: the same two pieces are done one after the other where a second process would not pay, where
the machine has one processor or no fork, and where the second process was lost on the way. What one gives may not
depend on what the other does.
"""

from __future__ import annotations

import contextlib
import os
import pickle
import signal
from collections.abc import Callable
from typing import Any, TypeVar

Mine = TypeVar("Mine")
Theirs = TypeVar("Theirs")
Pack = Callable[[Any], bytes]
Unpack = Callable[[bytes], Any]

LENGTH = 8  # bytes that say how many follow
ONE_PROCESS = "AXLEBOOK_ONE_PROCESS"  # set to anything, all is done in one


def has_second() -> bool:
    """Whether a second process can be had here."""
    if os.environ.get(ONE_PROCESS) or not hasattr(os, "fork"):
        return False
    usable = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    return usable > 1


def in_two(
    mine: Callable[[], Mine],
    theirs: Callable[[], Theirs],
    *,
    pays: bool,
    pack: Pack = pickle.dumps,
    unpack: Unpack = pickle.loads,
) -> tuple[Mine, Theirs]:
    """What both pieces give. `pack` and `unpack` carry what the second gives from its process to this one."""
    if not pays or not has_second():
        return mine(), theirs()
    try:
        source, target = os.pipe()
    except OSError:  # no room for another file
        return mine(), theirs()
    try:
        child = os.fork()
    except OSError:  # no room for another process
        os.close(source)
        os.close(target)
        return mine(), theirs()
    if not child:
        _work(source, target, theirs, pack)  # does not come back
    os.close(target)
    try:
        with open(source, "rb") as pipe:
            found, told, packed = mine(), pipe.read(LENGTH), pipe.read()
    except BaseException:
        with contextlib.suppress(OSError):
            os.kill(child, signal.SIGKILL)
        _wait_for(child)
        raise
    _wait_for(child)
    whole = len(told) == LENGTH and int.from_bytes(told, "big") == len(packed)
    return found, unpack(packed) if whole else theirs()


def _wait_for(child: int) -> None:
    """Let the second process end; where nobody is told how it ended (SIGCHLD ignored), it is gone already."""
    with contextlib.suppress(ChildProcessError):
        os.waitpid(child, 0)


def _work(source: int, target: int, theirs: Callable[[], Any], pack: Pack) -> None:
    """Do the second piece and leave: nothing that the first process has opened is flushed or closed twice."""
    status = 1
    try:
        os.close(source)
        with open(target, "wb") as pipe:
            packed = pack(theirs())
            pipe.write(len(packed).to_bytes(LENGTH, "big"))  # so that a part is never taken for the whole
            pipe.write(packed)
        status = 0
    except BaseException:
        pass
    finally:
        os._exit(status)
