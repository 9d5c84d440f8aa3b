"""A large ledger is read and checked in two processes: the answer is that of one, byte for byte."""

from __future__ import annotations

import json
import os
import signal
from pathlib import Path

import pytest

from axlebook.cli.enter_setting import read_setting, take_shelf
from axlebook.findings import Verdict
from axlebook.sources import two_hands

from .commands import call
from .repositories import small_repository

DEMO = Path(__file__).parents[2] / "demo-ledger"


@pytest.fixture(autouse=True)
def _nobody_asks_for_one(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(two_hands.ONE_PROCESS, raising=False)


def _answer(
    monkeypatch: pytest.MonkeyPatch, at: Path, *arguments: str, two: bool, command: str = "check"
) -> tuple[int, str]:
    with monkeypatch.context() as patch:
        patch.setattr("axlebook.read.SECOND_PAYS", 1)
        patch.setattr("axlebook.run.SECOND_PAYS", 1)
        patch.setattr(two_hands, "has_second", lambda: two and hasattr(os, "fork"))
        called = call(command, *arguments, at=at)
    return called.code, called.out


@pytest.mark.parametrize("shape", ["json", "text", "sarif", "github"])
def test_two_processes_say_what_one_says_byte_for_byte(monkeypatch: pytest.MonkeyPatch, shape: str) -> None:
    one, two = (_answer(monkeypatch, DEMO, "--format", shape, two=two) for two in (False, True))
    assert one == two
    assert one[1]


@pytest.mark.parametrize("asked", ["wear --all", "status --all", "due --all", "braking e-12 --all", "annual e-12 2025"])
def test_what_is_told_hangs_on_no_check_that_ran_in_the_other_process(
    monkeypatch: pytest.MonkeyPatch, asked: str
) -> None:
    command, *arguments = asked.split()
    one, two = (_answer(monkeypatch, DEMO, *arguments, two=two, command=command) for two in (False, True))
    assert one == two
    assert one[1]


def test_an_answer_is_weighed_by_two_processes_as_by_one(monkeypatch: pytest.MonkeyPatch) -> None:
    shelf = take_shelf(DEMO)
    last = [one for one in shelf.book.sessions if one.purpose == "annual"][-1]
    tree = json.loads(json.dumps(last.tree).replace("1 1/", "3 1/"))  # other figures than before: it has findings
    weighed = []
    for two in (False, True):
        monkeypatch.setattr(two_hands, "has_second", lambda two=two: two and hasattr(os, "fork"))
        setting, _ = read_setting(shelf, "d-2", "annual", {})
        weighed.append(setting.judge(tree))
    assert weighed[0] == weighed[1]
    assert {finding.verdict for finding in weighed[0]} >= {Verdict.WITHIN, Verdict.OUTSIDE}


@pytest.mark.parametrize("shape", ["json", "text", "markdown"])
def test_two_states_compared_in_two_processes_are_told_as_in_one(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, shape: str
) -> None:
    root = small_repository(tmp_path / "book")
    engine = root / "engines/e-1.yaml"
    engine.write_text(f"{engine.read_text()}numbers: 7\n")  # a key that has no meaning: a finding more
    one, two = (
        _answer(monkeypatch, root, "HEAD", "--format", shape, two=two, command="compare") for two in (False, True)
    )
    assert one == two
    assert "numbers" in one[1]


def test_two_processes_refuse_what_one_refuses(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    texts = {
        "ledger.yaml": "kind: ledger\nname: X\n",
        "people/a.yaml": "kind: person\nname: A\n",
        "people/b.yaml": "kind: person\nnome: B\n",
        "people/c.yaml": "kind: person\n\tname: C\n",
        "people/d.yaml": "",
        "people/e.yaml": "kind: person\nname: &a E\n",
        "people/f.yaml": "kind: kettle\n",
        "tires/t-1.yaml": "kind: tire\nmake: [a, b]\n",
        "tires/t-2.yaml": "kind: tire\nwidth: 1,5 in\n",
    }
    for path, text in texts.items():
        (tmp_path / path).parent.mkdir(exist_ok=True)
        (tmp_path / path).write_text(text)
    one, two = (_answer(monkeypatch, tmp_path, "--format", "json", two=two) for two in (False, True))
    assert one == two
    assert one[0] == 1
    assert one[1].count('"unreadable-record"') == 3


def test_nobody_need_be_told_how_the_second_process_ended() -> None:
    before = signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    try:
        assert two_hands.in_turns(range(9), str, pays=True) == list("012345678")
    finally:
        signal.signal(signal.SIGCHLD, before)


def test_without_room_for_a_pipe_one_process_does_all(monkeypatch: pytest.MonkeyPatch) -> None:
    def full() -> tuple[int, int]:
        raise OSError(24, "too many open files")

    monkeypatch.setattr(os, "pipe", full)
    assert two_hands.in_turns(range(9), str, pays=True) == list("012345678")
