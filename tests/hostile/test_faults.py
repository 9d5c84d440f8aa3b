"""The power goes or the disk refuses, at every step of every command that writes: nothing is half, nothing is lost."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from tests.hostile.faults import WRITERS, Files, Writer, files_of, problems_left, run_watched

MOST = 12  # steps tried of each command; `python -m tests.hostile.kill_writers` tries more


class Stage:
    """A writer's room: as it was before, and as it is after a run without a fault."""

    def __init__(self, writer: Writer, folder: Path) -> None:
        self.writer, self.folder, self.count = writer, folder, 0
        self.first = folder / "first"
        self.name = writer.ledger(self.first).name
        whole = self.room()
        ended = run_watched(writer.asked, whole / self.name, whole)
        assert ended.code in (0, 1), ended.err
        self.steps = ended.steps
        self.before: Files = files_of(self.first)
        self.whole: Files = files_of(whole)

    def room(self) -> Path:
        """A fresh room, as it was before."""
        self.count += 1
        return Path(shutil.copytree(self.first, self.folder / str(self.count)))

    def some_steps(self) -> list[int]:
        """Steps spread over the whole way, the first and the last among them."""
        few = min(self.steps, MOST)
        return sorted({1 + round(n * (self.steps - 1) / max(few - 1, 1)) for n in range(few)})


@pytest.fixture(scope="module", params=WRITERS, ids=[writer.name for writer in WRITERS])
def stage(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Stage:
    return Stage(request.param, tmp_path_factory.mktemp("stage"))


def test_a_command_that_writes_is_watched_while_it_does(stage: Stage) -> None:
    assert stage.steps >= 3
    assert stage.whole != stage.before


def test_a_kill_at_any_step_leaves_nothing_half_and_the_command_can_be_given_again(stage: Stage) -> None:
    for step in stage.some_steps():
        room = stage.room()
        ended = run_watched(stage.writer.asked, room / stage.name, room, step, "kill")
        assert ended.code == -9, (step, ended)
        assert not problems_left(stage.writer, room, stage.before, stage.whole), step
        again = run_watched(stage.writer.asked, room / stage.name, room)
        assert again.code in (0, 1, 2), (step, again.err)
        assert "a fault of axlebook itself" not in again.err
        if again.code != 2:
            assert files_of(room) == stage.whole, step
        shutil.rmtree(room)


@pytest.mark.parametrize("fault", ["full", "read-only"])
def test_a_disk_that_refuses_at_any_step_is_told_in_a_sentence(stage: Stage, fault: str) -> None:
    for step in stage.some_steps() if fault == "full" else [1]:
        room = stage.room()
        ended = run_watched(stage.writer.asked, room / stage.name, room, step, fault)
        assert not problems_left(stage.writer, room, stage.before, stage.whole), step
        assert "a fault of axlebook itself" not in ended.err, (step, ended.err)
        assert "Traceback" not in ended.err
        if ended.code == 2:
            assert ended.err.startswith("axlebook: "), step
            assert files_of(room) == stage.before, step
            assert not [p for p in room.rglob("*.part") if ".git" not in p.parts], step
        else:  # the step was one that may fail, such as bringing a folder's entry to the disk
            assert files_of(room) == stage.whole, (step, ended)
        shutil.rmtree(room)
