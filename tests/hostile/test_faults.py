"""The power goes or the disk refuses, at every step of every command that writes: nothing is half, nothing is lost."""

from __future__ import annotations

import random
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.hostile.disks import read_only, small_disk
from tests.hostile.faults import Ended, Fault, files_of, problems_left
from tests.hostile.stage import OURS, Stage
from tests.hostile.writers import WRITERS

MOST = 3  # steps tried of each command; `python -m tests.hostile.kill_writers` tries more


def some_steps(stage: Stage, most: int = MOST) -> list[int]:
    """Steps spread over the whole way, the first and the last among them."""
    few = min(stage.steps, most)
    return sorted({1 + round(n * (stage.steps - 1) / max(few - 1, 1)) for n in range(few)})


@pytest.fixture(scope="module", params=WRITERS, ids=[writer.name for writer in WRITERS])
def stage(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Stage:
    return Stage(request.param, tmp_path_factory.mktemp("stage"))


@pytest.fixture
def room(stage: Stage) -> Iterator[Path]:
    room = stage.room()
    yield room
    shutil.rmtree(room, ignore_errors=True)


def test_a_command_that_writes_is_watched_while_it_does(stage: Stage) -> None:
    assert stage.steps >= 3
    assert stage.whole != stage.before


def test_a_kill_at_any_step_leaves_nothing_half_and_the_command_can_be_given_again(stage: Stage) -> None:
    for step in some_steps(stage):
        room = stage.room()
        ended = stage.run(room, Fault("kill", step))
        assert ended.code == -9, (step, ended)
        assert stage.wrong_after_kill(room, ended) == [], step
        shutil.rmtree(room, ignore_errors=True)


def test_a_kill_that_falls_where_it_falls_leaves_nothing_half(stage: Stage, room: Path) -> None:
    ended = stage.run(room, Fault(after=random.Random(stage.writer.name).uniform(0, stage.seconds)))
    assert stage.wrong_after_kill(room, ended) == []


def told_in_a_sentence(stage: Stage, room: Path, ended: Ended) -> None:
    """It is told, nothing is half, and what can be is as it was."""
    assert problems_left(stage.writer, room, stage.before, stage.whole) == []
    assert OURS not in ended.err, ended.err
    assert "Traceback" not in ended.err
    if ended.code == 2:
        assert "axlebook: " in ended.err
        assert files_of(room) == stage.before or stage.writer.name.startswith(("import", "init --ci"))
        assert not [p for p in room.rglob("*.part") if not {".git", ".drafts"} & set(p.parts)]
    else:  # the step was one that may fail, such as bringing a folder's entry to the disk
        assert files_of(room) == stage.whole, ended


@pytest.mark.parametrize("kind", ["full", "read-only"])
def test_a_disk_that_refuses_at_any_step_is_told_in_a_sentence(stage: Stage, kind: str) -> None:
    for step in some_steps(stage) if kind == "full" else [1]:
        room = stage.room()
        told_in_a_sentence(stage, room, stage.run(room, Fault(kind, step)))
        shutil.rmtree(room, ignore_errors=True)


@pytest.mark.parametrize("share", [0.0, 0.9])
def test_a_file_that_the_system_cuts_short_is_told_in_a_sentence(stage: Stage, room: Path, share: float) -> None:
    ended = stage.run(room, Fault("small files", most=int(stage.largest * share)))
    assert ended.code == 2, ended
    told_in_a_sentence(stage, room, ended)


@pytest.mark.parametrize("left", [0])
def test_a_small_disk_that_is_full_is_told_in_a_sentence(stage: Stage, tmp_path: Path, left: int) -> None:
    with small_disk(tmp_path / "disk", stage.first, left) as place:
        room = place / "first"
        told_in_a_sentence(stage, room, stage.run(room))


def test_a_folder_that_may_only_be_read_is_told_in_a_sentence(stage: Stage, tmp_path: Path) -> None:
    with read_only(stage.room(tmp_path)) as room:
        ended = stage.run(room)
        assert ended.code == 2, ended
        assert files_of(room) == stage.before
        assert ended.err.startswith("axlebook: ")
        assert OURS not in ended.err, ended.err
