"""Two pieces of work, in two processes or one after the other: what they give is the same."""

from __future__ import annotations

import os
import select
import signal
import time
from collections.abc import Callable, Collection, Iterator

import pytest

from axlebook.sources import two_hands
from axlebook.sources.two_hands import ONE_PROCESS, in_turns

FORKS = hasattr(os, "fork")


@pytest.fixture
def _two(monkeypatch: pytest.MonkeyPatch) -> None:
    """A second process wherever the system has one, also on one processor."""
    monkeypatch.setattr(two_hands, "has_second", lambda: FORKS)


def in_two(mine: Callable[[], object], theirs: Callable[[], object], *, pays: bool) -> list[object]:
    """What two pieces give; where a second process is to be had, it has begun before the first piece is done."""
    begun, begin = os.pipe()

    def work(piece: int) -> object:
        if piece:
            os.write(begin, b"!")
            time.sleep(0.05)  # so that it does not take the first piece, too
            return theirs()
        if pays and two_hands.has_second():
            select.select([begun], (), (), 2)
        return mine()

    try:
        return in_turns([0, 1], work, pays=pays)
    finally:
        os.close(begun)
        os.close(begin)


@pytest.mark.usefixtures("_two")
def test_the_second_piece_is_done_in_a_process_of_its_own() -> None:
    mine, theirs = in_two(os.getpid, os.getpid, pays=True)
    assert mine == os.getpid()
    assert (theirs != mine) is FORKS


@pytest.mark.usefixtures("_two")
def test_where_it_does_not_pay_one_process_does_both() -> None:
    assert in_two(os.getpid, os.getpid, pays=False) == [os.getpid(), os.getpid()]


@pytest.mark.parametrize(("asked", "usable", "second"), [("", {0, 1}, FORKS), ("", {0}, False), ("1", {0, 1}, False)])
def test_a_second_process_is_had_where_there_is_a_processor_for_it_and_nobody_asked_for_one(
    monkeypatch: pytest.MonkeyPatch, asked: str, usable: set[int], second: bool
) -> None:
    monkeypatch.setenv(ONE_PROCESS, asked)
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: usable, raising=False)
    assert two_hands.has_second() is second


def test_a_person_can_ask_for_one_process(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(ONE_PROCESS, "1")
    assert in_two(os.getpid, os.getpid, pays=True) == [os.getpid(), os.getpid()]


@pytest.mark.usefixtures("_two")
def test_more_than_a_pipe_holds_comes_back_whole() -> None:
    large = "x" * (1 << 22)
    assert in_two(lambda: time.sleep(0.05), lambda: large, pays=True)[1] == large


HERE = os.getpid()


def _fail() -> int:
    if os.getpid() != HERE:
        raise MemoryError
    return os.getpid()


def _killed() -> int:
    if os.getpid() != HERE:
        os.kill(os.getpid(), 9)
    return os.getpid()


@pytest.mark.parametrize("lost", [_fail, _killed], ids=["by an error", "killed"])
@pytest.mark.usefixtures("_two")
def test_work_that_was_lost_with_its_process_is_done_again(lost: Callable[[], int]) -> None:
    assert in_two(lambda: 1, lost, pays=True) == [1, HERE]


@pytest.mark.usefixtures("_two")
def test_what_a_piece_gives_is_used_here_as_soon_as_it_is_there_and_once() -> None:
    used: list[tuple[int, int]] = []

    def use(piece: int, given: tuple[int, int]) -> None:
        used.append((os.getpid(), piece))
        assert given[1] == 2 * piece

    in_turns(range(40), _who_and_twice, pays=True, use=use)
    assert sorted(piece for _, piece in used) == list(range(40))
    assert {who for who, _ in used} == {HERE}
    if FORKS:  # not what the second gives after all the rest
        assert used[-1][1] != 39


@pytest.mark.usefixtures("_two")
def test_what_has_come_in_part_waits_for_its_rest() -> None:
    def large(piece: int) -> bytes:
        time.sleep(0.01)
        return bytes([piece]) * (1 << 21)  # more than a pipe holds, wide as it is

    assert in_turns(range(12), large, pays=True) == [bytes([piece]) * (1 << 21) for piece in range(12)]


@pytest.mark.usefixtures("_two")
def test_an_error_of_the_second_piece_is_met_here() -> None:
    with pytest.raises(ZeroDivisionError):
        in_two(lambda: 1, lambda: 1 // 0, pays=True)


@pytest.mark.usefixtures("_two")
def test_an_error_of_the_first_piece_ends_the_second_and_leaves_no_process() -> None:
    begun = time.monotonic()
    with pytest.raises(ZeroDivisionError):
        in_two(lambda: 1 // 0, lambda: time.sleep(60), pays=FORKS)
    assert time.monotonic() - begun < 30
    if FORKS:
        with pytest.raises(ChildProcessError):
            os.waitpid(-1, os.WNOHANG)


@pytest.mark.usefixtures("_two")
def test_no_room_for_a_process_is_no_error(monkeypatch: pytest.MonkeyPatch) -> None:
    def full() -> int:
        raise BlockingIOError

    monkeypatch.setattr(os, "fork", full, raising=False)
    assert in_two(lambda: 1, os.getpid, pays=True) == [1, HERE]


def _who_and_twice(piece: int) -> tuple[int, int]:
    time.sleep(0.002)
    return os.getpid(), 2 * piece


@pytest.mark.usefixtures("_two")
@pytest.mark.parametrize("pieces", [0, 1, 2, 37])
def test_pieces_taken_in_turn_are_given_in_their_order(pieces: int) -> None:
    found = in_turns(range(pieces), _who_and_twice, pays=True)
    assert [given for _, given in found] == [2 * piece for piece in range(pieces)]
    if FORKS and pieces > 2:
        assert len({who for who, _ in found}) == 2
        assert found[0][0] == HERE != found[-1][0]


@pytest.mark.usefixtures("_two")
def test_who_has_the_longer_pieces_does_fewer() -> None:
    found = in_turns([0.5] + [0.001] * 20, lambda piece: (time.sleep(piece), os.getpid())[1], pays=FORKS)
    assert found.count(HERE) < 15 or not FORKS


@pytest.mark.parametrize("lost", [_fail, _killed], ids=["by an error", "killed"])
@pytest.mark.usefixtures("_two")
def test_pieces_that_were_lost_with_their_process_are_done_again(lost: Callable[[], int]) -> None:
    def work(piece: int) -> tuple[int, int]:
        time.sleep(0.01)
        return piece, lost() if piece == 8 else HERE

    assert in_turns(range(9), work, pays=True) == [(piece, HERE) for piece in range(9)]


@pytest.mark.usefixtures("_two")
def test_an_error_of_any_piece_is_met_here_and_leaves_nothing_open() -> None:
    before = len(os.listdir("/proc/self/fd")) if os.path.isdir("/proc/self/fd") else 0
    for bad in (0, 5):
        with pytest.raises(ZeroDivisionError):
            in_turns(range(6), lambda piece, bad=bad: 1 // (piece - bad), pays=FORKS)
    assert before == (len(os.listdir("/proc/self/fd")) if before else 0)


@pytest.mark.usefixtures("_two")
@pytest.mark.parametrize("full", ["pipe", "fork"])
def test_without_room_for_a_second_process_one_does_all_pieces(monkeypatch: pytest.MonkeyPatch, full: str) -> None:
    def no_room(*_: object) -> int:
        raise OSError(24, "no room")

    monkeypatch.setattr(os, full, no_room, raising=False)
    assert {who for who, _ in in_turns(range(5), _who_and_twice, pays=True)} == {HERE}


@pytest.mark.usefixtures("_two")
def test_about_half_the_pieces_are_looked_on_at() -> None:
    seen: list[int] = []

    def watch(numbers: Collection[int]) -> Iterator[int]:
        assert len(numbers) == 10
        for number in numbers:
            seen.append(number)
            yield number

    in_turns(range(20), _who_and_twice, pays=FORKS, watch=watch)
    assert seen == sorted(seen)
    assert 0 < len(seen) <= 10 or not FORKS


@pytest.mark.usefixtures("_two")
def test_a_second_process_whose_first_is_gone_does_not_do_the_rest_alone() -> None:
    ended, held = os.pipe()
    first = os.fork()
    if not first:
        in_turns(range(40), lambda _: time.sleep(0.2), pays=True)
        os._exit(0)
    os.close(held)
    time.sleep(0.5)
    os.kill(first, 9)
    os.waitpid(first, 0)
    begun = time.monotonic()
    assert os.read(ended, 1) == b""  # both have let go of the other end
    os.close(ended)
    assert time.monotonic() - begun < 3  # alone the second would take seven seconds


@pytest.mark.usefixtures("_two")
def test_ctrl_c_right_after_the_fork_stops_the_first_alone_and_leaves_no_process(
    monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    before, fork = signal.signal(signal.SIGINT, signal.default_int_handler), os.fork

    def forked() -> int:
        child = fork()
        signal.raise_signal(signal.SIGINT)  # to this thread: others hold nothing off
        return child

    monkeypatch.setattr(os, "fork", forked)
    try:
        with pytest.raises(KeyboardInterrupt):
            in_two(lambda: 1, lambda: time.sleep(60), pays=True)
    finally:
        signal.signal(signal.SIGINT, before)
    with pytest.raises(ChildProcessError):
        os.waitpid(-1, os.WNOHANG)
    assert capfd.readouterr().err == ""
