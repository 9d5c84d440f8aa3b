"""`import --write` that is stopped midway tells which records are on the disk."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.cli.commands import call, small_ledger

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
