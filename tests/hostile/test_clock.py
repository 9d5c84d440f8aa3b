"""A machine whose clock stands in the past, or far ahead: every command that writes does so whole, or says why not."""

from __future__ import annotations

import os
from datetime import date
from pathlib import Path

import pytest
from tests.cli.commands import AT, THIN, call, small_ledger
from tests.cli.repositories import small_repository
from tests.hostile.faults import files_of
from tests.hostile.stage import OURS, Stage
from tests.hostile.writers import ENTER, WRITERS

from axlebook.cli import opened
from axlebook.sources.writing import Changed, rewrite

CLOCKS = [date(1970, 1, 1), date(2025, 6, 1), date(2099, 12, 31)]


def put_back(monkeypatch: pytest.MonkeyPatch, day: date) -> None:
    """Let the clock stand at a day, in this process and in those that it forks."""

    class Clock(date):
        @classmethod
        def today(cls) -> date:  # type: ignore[override]
            return day

    monkeypatch.setattr(opened, "date", Clock)


@pytest.fixture(scope="module", params=WRITERS, ids=[writer.name for writer in WRITERS])
def stage(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Stage:
    return Stage(request.param, tmp_path_factory.mktemp("stage"))


@pytest.mark.parametrize("day", CLOCKS, ids=str)
def test_a_command_that_writes_is_whole_or_refused_whatever_the_clock_says(
    stage: Stage, day: date, monkeypatch: pytest.MonkeyPatch
) -> None:
    put_back(monkeypatch, day)
    room = stage.room()
    ended = stage.run(room)
    assert ended.code in (0, 1, 2), ended
    assert OURS not in ended.err, ended.err
    assert "Traceback" not in ended.err
    left = files_of(room)
    assert not [path for path, content in stage.before.items() if path.startswith("ledger/") and path not in left]
    if ended.code == 2:
        assert "axlebook: " in ended.err
        assert left == stage.before
        assert stage.writer is not ENTER or not ended.made or "kept as a draft" in ended.err


def test_records_dated_after_the_clock_are_found_and_none_is_lost(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = small_repository(tmp_path, {AT: THIN})  # its commit is of today
    put_back(monkeypatch, date(2001, 1, 1))
    for asked in ("check", "status", "due", "wear", "history t-2-right", "annual e-1 2026", "compare HEAD"):
        called = call(*asked.split(), at=root)
        assert called.code in (0, 1, 2), asked
        assert OURS not in called.err, asked
    assert "2026-01-10" in call("check", "--all", at=root).out


def test_a_day_before_every_record_can_be_asked_for(tmp_path: Path) -> None:
    root = small_ledger(tmp_path, {AT: THIN})
    for asked in ("check", "status", "due", "wear", "turning e-1", "braking e-1"):
        called = call(*asked.split(), "--as-of", "1901-01-01", at=root)
        assert called.code in (0, 1, 2), asked
        assert OURS not in called.err, asked


@pytest.mark.parametrize("seconds", [-40_000_000, 40_000_000])
def test_what_a_power_cut_left_is_passed_over_also_where_the_clock_was_put_back(tmp_path: Path, seconds: int) -> None:
    file = tmp_path / "e-1-2026-02.yaml"
    file.write_bytes(b"a")
    left = tmp_path / ".e-1-2026-02.yaml.part"
    left.write_bytes(b"half")
    with pytest.raises(Changed):  # somebody may be writing it right now
        rewrite(file, b"a", b"b")
    at = left.stat().st_mtime + seconds
    os.utime(left, (at, at))
    rewrite(file, b"a", b"b")
    assert file.read_bytes() == b"b"
    assert not left.exists()
