"""Work at once in this process and a second one: pieces that both take in turn.

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
Pack = Callable[[Any], bytes]
Unpack = Callable[[bytes], Any]
Watch = Callable[[Collection[Any]], Iterable[Any]]  # passes on what is worked through, and looks on

MOST_PIECES = 4096  # that a pipe has room for anywhere
LENGTH = 8  # bytes that say how many follow
AT_ONCE = 1 << 20  # bytes heard at once
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
    use: Callable[[Piece, Given], Any] = lambda _, __: None,
    pack: Pack = pickle.dumps,
    unpack: Unpack = pickle.loads,
) -> list[Given]:
    """What each piece gives, in their order; this process begins with the first, the second process with the last.

    Each takes the next of its side when it is done with one, until they meet: neither waits while there is work, and
    pieces that have much in common are best put side by side. `use` is called in this process alone with a piece
    and what it gives, as soon as that is there and in no order. `pack` and `unpack` carry what the second gives.
    `watch` looks on as this process goes through its half, more or less.
    """
    numbers = range(len(pieces))
    found: dict[int, Given] = {}

    def keep(number: int, given: Given) -> None:
        found[number] = given
        use(pieces[number], given)

    turns = _turns(len(pieces)) if pays and len(pieces) <= MOST_PIECES else None
    if turns is None:
        for number in watch(numbers):
            keep(number, work(pieces[number]))
        return list(found.values())

    first = os.getpid()

    def theirs(send: Callable[[bytes], None]) -> None:
        for number, _ in zip(reversed(numbers), _taken(turns, first), strict=False):
            send(number.to_bytes(LENGTH, "big") + pack(work(pieces[number])))

    def take(message: bytes) -> None:
        keep(int.from_bytes(message[:LENGTH], "big"), unpack(message[LENGTH:]))

    try:
        with second_process(theirs) as second:
            for number, _ in zip(_watched(numbers, watch), _taken(turns, first), strict=False):
                keep(number, work(pieces[number]))
                for message in second.come() if second is not None else ():
                    take(message)
            for message in second.rest() if second is not None else ():
                take(message)
    finally:
        os.close(turns)
    for number in numbers:
        if number not in found:
            keep(number, work(pieces[number]))
    return [found[number] for number in numbers]


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


class Second:
    """The second process as the first one sees it: messages, each behind its length, so that no part is a whole."""

    def __init__(self, source: int) -> None:
        self._source = source
        self._come = bytearray()

    def come(self) -> Iterator[bytes]:
        """The messages that are there by now; nothing is waited for."""
        os.set_blocking(self._source, False)
        yield from self._heard()

    def rest(self) -> Iterator[bytes]:
        """All messages that are still to come."""
        os.set_blocking(self._source, True)
        yield from self._heard()

    def _heard(self) -> Iterator[bytes]:
        with contextlib.suppress(BlockingIOError):
            while part := os.read(self._source, AT_ONCE):
                self._come += part
        while (message := self._first()) is not None:
            yield message

    def _first(self) -> bytes | None:
        end = LENGTH + int.from_bytes(self._come[:LENGTH], "big")
        if len(self._come) < max(end, LENGTH):
            return None
        message = bytes(self._come[LENGTH:end])
        del self._come[:end]
        return message


@contextlib.contextmanager
def second_process(work: Callable[[Callable[[bytes], None]], None]) -> Iterator[Second | None]:
    """A second process that does the work and sends what it gives; None where there is no room for one."""
    try:
        source, target = os.pipe()
    except OSError:  # no room for another file
        yield None
        return
    _widen(target)
    held = _hold_stop()
    try:
        child = os.fork()
    except OSError:  # no room for another process
        os.close(source)
        os.close(target)
        _let_stop(held)
        yield None
        return
    if not child:
        _work(source, target, work)  # does not come back
    second = Second(source)
    try:
        os.close(target)
        _let_stop(held)
        yield second
    except BaseException:
        with contextlib.suppress(OSError):
            os.kill(child, signal.SIGKILL)
        raise
    finally:
        os.close(source)
        _wait_for(child)


def _widen(pipe: int) -> None:
    """Let a pipe hold some messages, where the system lets it: what does not fit has to wait for the next."""
    with contextlib.suppress(ImportError, OSError):
        from fcntl import F_SETPIPE_SZ, fcntl

        fcntl(pipe, F_SETPIPE_SZ, AT_ONCE)


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


def _work(source: int, target: int, work: Callable[[Callable[[bytes], None]], None]) -> None:
    """Do the work and leave: nothing that the first process has opened is flushed or closed twice."""
    status = 1
    try:
        os.close(source)
        backlog = bytearray()

        def send(message: bytes) -> None:
            """Send as much as there is room for; the rest goes with what follows."""
            backlog.extend(len(message).to_bytes(LENGTH, "big") + message)
            with contextlib.suppress(BlockingIOError):
                while backlog:
                    del backlog[: os.write(target, backlog)]

        os.set_blocking(target, False)
        work(send)
        os.set_blocking(target, True)
        while backlog:
            del backlog[: os.write(target, backlog)]
        status = 0
    except BaseException:
        pass
    finally:
        os._exit(status)
