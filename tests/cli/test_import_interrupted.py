"""`import --write` that is stopped midway tells which records are on the disk."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.cli.commands import call, small_ledger

from axlebook.cli import import_printed
from axlebook.sources import writing

ROWS = """what,place,position,value,measured on
flange_height,driver-2 left,worst,1 1/8 in,2026-02-01
flange_height,driver-2 left,worst,1 1/8 in,2026-02-02
"""


def test_what_was_written_before_the_stop_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    root = small_ledger(tmp_path)
    (tmp_path / "own.csv").write_text(ROWS, encoding="utf-8")
    write_new = writing.write_new

    def stopped(path: Path, content: bytes) -> None:
        if "2026-02-02" in path.name:
            raise KeyboardInterrupt
        write_new(path, content)

    monkeypatch.setattr(writing, "write_new", stopped)
    called = call("import", "../own.csv", "--engine", "e-1", "--purpose", "shop", "--by", "lead", "--write", at=root)
    assert called.code == 2
    told = " ".join(called.err.split())
    assert "stopped at inspections/2026/2026-02-02-e-1-shop.yaml." in told
    assert "Written before it: inspections/2026/2026-02-01-e-1-shop.yaml." in told


CALL = ("import", "../own.csv", "--engine", "e-1", "--purpose", "shop", "--by", "lead", "--write")
FIRST, LAST = "inspections/2026/2026-02-01-e-1-shop.yaml", "inspections/2026/2026-02-02-e-1-shop.yaml"


@pytest.mark.parametrize(
    ("day", "words"),
    [
        ("2026-02-02", f"stopped once all of it was written: {FIRST}, {LAST}."),
        ("2026-02-01", f"stopped after {FIRST}. Written: {FIRST}. The same call goes on where it stopped."),
    ],
)
def test_a_record_that_was_whole_on_the_disk_when_the_stop_came_is_told_as_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, day: str, words: str
) -> None:
    root = small_ledger(tmp_path)
    (tmp_path / "own.csv").write_text(ROWS, encoding="utf-8")
    write_new = writing.write_new

    def stopped(path: Path, content: bytes) -> None:
        write_new(path, content)
        if day in path.name:
            raise KeyboardInterrupt

    monkeypatch.setattr(writing, "write_new", stopped)
    called = call(*CALL, at=root)
    assert called.code == 2
    assert words in " ".join(called.err.split())
    assert (root / LAST).exists() is (day == "2026-02-02")


def test_a_stop_while_it_is_told_what_was_written_tells_what_was_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = small_ledger(tmp_path)
    (tmp_path / "own.csv").write_text(ROWS, encoding="utf-8")

    def stopped(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(import_printed, "put", stopped)
    called = call(*CALL, at=root)
    assert called.code == 2
    assert f"stopped once all of it was written: {FIRST}, {LAST}." in " ".join(called.err.split())
    assert "written" not in call(*CALL[:-1], at=root).err
