"""`axlebook demo`: a copy, a practice copy, and its answers."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from axlebook.cli import run
from axlebook.sources.practice_copy import ANSWERS


def test_the_seed_is_printed_and_plants_the_same_slips_again(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["demo", str(tmp_path / "a"), "--practice"]) == 0
    seed = json.loads((tmp_path / "a" / ANSWERS).read_text())["seed"]
    assert f"seed {seed}" in " ".join(capsys.readouterr().out.split())
    assert run(["demo", str(tmp_path / "b"), "--practice", "--seed", str(seed)]) == 0
    assert (tmp_path / "a" / ANSWERS).read_text() == (tmp_path / "b" / ANSWERS).read_text()


def test_the_answers_are_printed_only_when_asked_for(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    run(["demo", str(tmp_path / "a"), "--practice", "--seed", "3"])
    assert "Metal added" not in capsys.readouterr().out
    assert run(["demo", str(tmp_path / "a"), "--answers"]) == 0
    told = capsys.readouterr().out
    assert "Metal added: " in told
    assert "Slips planted with the seed 3: " in told
    assert "There stood " in told
    assert "; now it is " in told
    assert "/values/" not in told
    assert " -> " not in told
    assert max(len(line) for line in told.splitlines() if ".yaml" not in line) <= 80


def test_a_plain_copy_has_no_answers(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["demo", str(tmp_path / "a")]) == 0
    assert not (tmp_path / "a" / ANSWERS).exists()
    assert run(["demo", str(tmp_path / "a"), "--answers"]) == 2
    assert "no practice copy" in " ".join(capsys.readouterr().err.split())


def test_nothing_is_written_into_a_folder_that_holds_something(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("mine")
    assert run(["demo", str(tmp_path)]) == 2
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]


@pytest.mark.parametrize("wrong", [["--seed", "4"], ["--practice", "--answers"]])
def test_words_that_do_not_go_together_are_refused(tmp_path: Path, wrong: list[str]) -> None:
    assert run(["demo", str(tmp_path / "a"), *wrong]) == 2
    assert not (tmp_path / "a").exists()
