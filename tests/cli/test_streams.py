"""Standard streams that are closed, full or no longer read, and a stop at a bad moment: exit 2, in a sentence."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from .commands import TOP, small_ledger

COMMAND = [sys.executable, "-m", "axlebook"]


def _called(at: Path, *arguments: str, before: Callable[[], None]) -> subprocess.CompletedProcess[str]:
    told = {**os.environ, "PYTHONPATH": str(TOP / "tool")}
    return subprocess.run(
        [*COMMAND, *arguments], cwd=at, env=told, preexec_fn=before, capture_output=True, text=True, check=False
    )


def _unread(stream: int) -> None:
    reads, writes = os.pipe()
    os.close(reads)
    os.dup2(writes, stream)


def test_with_standard_output_closed_nothing_is_done_and_that_is_said(tmp_path: Path) -> None:
    called = _called(tmp_path, "init", "book", before=lambda: os.close(1))
    assert (called.returncode, called.stderr.count("standard output is closed")) == (2, 1)
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("stream", [0, 2])
def test_with_a_stream_closed_that_is_asked_or_answered_on_nothing_is_asked(tmp_path: Path, stream: int) -> None:
    root = small_ledger(tmp_path)
    called = _called(root, "enter", "d-1", "--purpose", "periodic", before=lambda: os.close(stream))
    assert called.returncode == 2
    assert "a fault of axlebook" not in called.stderr
    assert stream == 2 or "standard input is closed" in called.stderr
    assert _called(root, "check", before=lambda: os.close(stream)).returncode == 0


@pytest.mark.parametrize("asked", ["check", "init book", "demo copy", "annual e-1 2026 --ledger {ledger} -o a.html"])
def test_a_folder_that_is_gone_under_ones_feet_is_no_fault_of_axlebook(tmp_path: Path, asked: str) -> None:
    root, here = small_ledger(tmp_path), tmp_path / "gone"
    here.mkdir()
    called = _called(here, *asked.format(ledger=root).split(), before=lambda: os.rmdir(here))
    assert called.returncode == 2
    assert called.stderr == "axlebook: the folder in which this was called is gone. Change into one that is there.\n"


@pytest.mark.parametrize("asked", ["explain", "--help", "check --help"])
def test_output_that_nobody_reads_any_more_is_no_finding(tmp_path: Path, asked: str) -> None:
    called = _called(tmp_path, *asked.split(), before=lambda: _unread(1))
    assert (called.returncode, called.stderr) == (2, "")


def test_a_copy_that_was_written_is_not_said_to_be_none_where_nobody_reads(tmp_path: Path) -> None:
    called = _called(tmp_path, "demo", "copy", before=lambda: _unread(1))
    assert (called.returncode, called.stderr) == (2, "")
    assert (tmp_path / "copy" / "ledger.yaml").is_file()


def test_a_refusal_that_nobody_reads_is_a_refusal_still(tmp_path: Path) -> None:
    assert _called(tmp_path, "check", "nowhere", before=lambda: _unread(2)).returncode == 2


def test_a_stop_while_the_program_is_loaded_shows_no_traceback(tmp_path: Path) -> None:
    (tmp_path / "click.py").write_text("raise KeyboardInterrupt\n")
    told = {**os.environ, "PYTHONPATH": os.pathsep.join([str(tmp_path), str(TOP / "tool")])}
    called = subprocess.run(COMMAND, env=told, cwd=TOP, capture_output=True, text=True, check=False)
    assert (called.returncode, called.stderr) == (2, "axlebook: stopped.\n")
