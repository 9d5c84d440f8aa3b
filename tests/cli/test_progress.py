"""How far the work is: shown on standard error to a person who waits, and to nobody else."""

from __future__ import annotations

import io
import subprocess
import sys

import pytest

from axlebook.cli import progress


class Terminal(io.StringIO):
    """Standard error as a person has it."""

    def isatty(self) -> bool:
        return True


@pytest.fixture
def impatient(monkeypatch: pytest.MonkeyPatch) -> None:
    """Work that takes too long from its first moment."""
    monkeypatch.setattr(progress, "PATIENCE", -1.0)


@pytest.mark.usefixtures("impatient")
def test_a_person_who_waits_is_shown_how_far_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    seen = Terminal()
    monkeypatch.setattr(sys, "stderr", seen)
    monkeypatch.setenv("TERM", "xterm")
    assert list(progress.Watch()("Reading", [1, 2, 3])) == [1, 2, 3]
    assert "Reading" in seen.getvalue()


@pytest.mark.usefixtures("impatient")
def test_work_of_which_nobody_knows_how_much_there_is_shows_a_bar_too(monkeypatch: pytest.MonkeyPatch) -> None:
    seen = Terminal()
    monkeypatch.setattr(sys, "stderr", seen)
    monkeypatch.setenv("TERM", "xterm")
    assert list(progress.Watch()("Writing", iter([1, 2, 3]))) == [1, 2, 3]
    assert "Writing" in seen.getvalue()


@pytest.mark.usefixtures("impatient")
def test_a_program_that_reads_standard_error_is_not_disturbed(monkeypatch: pytest.MonkeyPatch) -> None:
    seen = io.StringIO()
    monkeypatch.setattr(sys, "stderr", seen)
    assert list(progress.Watch()("Reading", [1, 2, 3])) == [1, 2, 3]
    assert not seen.getvalue()


def test_work_of_less_than_a_second_shows_no_bar(monkeypatch: pytest.MonkeyPatch) -> None:
    seen = Terminal()
    monkeypatch.setattr(sys, "stderr", seen)
    assert list(progress.Watch()("Reading", [1, 2, 3])) == [1, 2, 3]
    assert not seen.getvalue()


@pytest.mark.usefixtures("impatient")
def test_work_that_breaks_off_leaves_no_bar_behind(monkeypatch: pytest.MonkeyPatch) -> None:
    seen = Terminal()
    monkeypatch.setattr(sys, "stderr", seen)
    monkeypatch.setenv("TERM", "xterm")
    passed = progress.Watch()("Reading", [1, 2, 3])
    next(passed)
    passed.close()
    assert seen.getvalue().endswith(("\x1b[2K", "\x1b[?25h"))  # the line is wiped, the cursor shown again


def test_no_bar_is_imported_before_it_is_shown() -> None:
    code = "import sys, axlebook.cli.progress; sys.exit('rich' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
