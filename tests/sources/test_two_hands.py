"""Two pieces of work, in two processes or one after the other: what they give is the same."""

from __future__ import annotations

import os
import time
from collections.abc import Callable

import pytest

from axlebook.sources import two_hands
from axlebook.sources.two_hands import ONE_PROCESS, in_two

FORKS = hasattr(os, "fork")


@pytest.fixture
def _two(monkeypatch: pytest.MonkeyPatch) -> None:
    """A second process wherever the system has one, also on one processor."""
    monkeypatch.setattr(two_hands, "has_second", lambda: FORKS)


@pytest.mark.usefixtures("_two")
def test_the_second_piece_is_done_in_a_process_of_its_own() -> None:
    mine, theirs = in_two(os.getpid, os.getpid, pays=True)
    assert mine == os.getpid()
    assert (theirs != mine) is FORKS


@pytest.mark.usefixtures("_two")
def test_where_it_does_not_pay_one_process_does_both() -> None:
    assert in_two(os.getpid, os.getpid, pays=False) == (os.getpid(), os.getpid())


def test_a_person_can_ask_for_one_process(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(ONE_PROCESS, "1")
    assert in_two(os.getpid, os.getpid, pays=True) == (os.getpid(), os.getpid())


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
    assert in_two(lambda: 1, lost, pays=True) == (1, HERE)


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
    assert in_two(lambda: 1, os.getpid, pays=True) == (1, HERE)
