"""Work at once in this process and a second one, be it two pieces or many that both take in turn.

Only the time differs: the same pieces are done one after the other where a second process would not pay, where the
machine has one processor or no fork, and where the second process was lost on the way. What a piece gives may not
depend on what was done before it.
"""

from __future__ import annotations

import contextlib
import os
import pickle
import signal
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from typing import Any, TypeVar

Piece = TypeVar("Piece")
Given = TypeVar("Given")
Mine = TypeVar("Mine")
Theirs = TypeVar("Theirs")
Pack = Callable[[Any], bytes]
Unpack = Callable[[bytes], Any]
Watch = Callable[[Collection[Any]], Iterable[Any]]  # passes on what is worked through, and looks on

MOST_PIECES = 4096  # that a pipe has room for anywhere
LENGTH = 8  # bytes that say how many follow
ONE_PROCESS = "AXLEBOOK_ONE_PROCESS"  # set to anything, all is done in one


def has_second() -> bool:
    """Whether a second process can be had here."""
    if os.environ.get(ONE_PROCESS) or not hasattr(os, "fork"):
        return False
    usable = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    return usable > 1


def in_turns(
    pieces: Sequence[Piece],
    work: Callable[[Piece], Given],
    *,
    pays: bool,
    watch: Watch = iter,
    pack: Pack = pickle.dumps,
    unpack: Unpack = pickle.loads,
) -> list[Given]:
    """What each piece gives, in their order; this process begins with the first, the second process with the last.

    Each takes the next of its side when it is done with one, until they meet: neither waits while there is work, and
    pieces that have much in common are best put side by side. `pack` and `unpack` carry a dict of what the second
    gives, by the number of the piece. `watch` looks on as this process goes through its half, more or less.
    """
    numbers = range(len(pieces))
    if not pays or len(pieces) > MOST_PIECES or (turns := _turns(len(pieces))) is None:
        return [work(pieces[number]) for number in watch(numbers)]

    first = os.getpid()

    def done(order: Iterable[int]) -> dict[int, Given]:
        return {number: work(pieces[number]) for number, _ in zip(order, _taken(turns, first), strict=False)}

    try:
        own = _watched(numbers, watch)
        mine, theirs = in_two(lambda: done(own), lambda: done(reversed(numbers)), pays=True, pack=pack, unpack=unpack)
    finally:
        os.close(turns)
    found = mine | theirs
    return [found[number] if number in found else work(pieces[number]) for number in numbers]


def _turns(count: int) -> int | None:
    """A pipe that holds one byte a piece: who has read one may do one; None where no second process can be had."""
    if not has_second():
        return None
    try:
        turns, filled = os.pipe()
    except OSError:  # no room for another file
        return None
    os.write(filled, bytes(count))
    os.close(filled)
    return turns


def _taken(turns: int, first: int) -> Iterator[None]:
    """Turns one by one, until none is left; a second process whose first one is gone works for nobody, and ends."""
    while os.read(turns, 1):
        if first not in (os.getpid(), os.getppid()):
            raise ProcessLookupError
        yield


def _watched(numbers: range, watch: Watch) -> Iterator[int]:
    """Numbers from the first on, watched over the first half of them, which is about what one process does."""
    half = len(numbers) - len(numbers) // 2
    yield from watch(numbers[:half])
    yield from numbers[half:]


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
    held = _hold_stop()
    try:
        child = os.fork()
    except OSError:  # no room for another process
        os.close(source)
        os.close(target)
        _let_stop(held)
        return mine(), theirs()
    if not child:
        _work(source, target, theirs, pack)  # does not come back
    try:
        os.close(target)
        with open(source, "rb") as pipe:
            _let_stop(held)
            found, told, packed = mine(), pipe.read(LENGTH), pipe.read()
    except BaseException:
        with contextlib.suppress(OSError):
            os.kill(child, signal.SIGKILL)
        _wait_for(child)
        raise
    _wait_for(child)
    whole = len(told) == LENGTH and int.from_bytes(told, "big") == len(packed)
    return found, unpack(packed) if whole else theirs()


def _hold_stop() -> set[int]:
    """Put Ctrl-C off: between a fork and what comes of it, it would leave a process, or two that say they stopped.

    The second process keeps it put off, for the first one ends it.
    """
    return set(signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT}))


def _let_stop(held: set[int]) -> None:
    """Heed Ctrl-C as before."""
    signal.pthread_sigmask(signal.SIG_SETMASK, held)


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
