"""`check`: counts first, worst first, a screen at most, and an exit code that other programs can rely on."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from tests.cli.commands import AT, THICK, THIN, call, promised, small_ledger

import axlebook.run

OVERRIDE = "\u202e"


@pytest.fixture
def thin(tmp_path: Path) -> Path:
    """A ledger in which one flange stands exactly on its condemning limit."""
    return small_ledger(tmp_path, {AT: THIN})


def test_the_first_line_tells_the_day_and_counts_and_the_last_who_decides(thin: Path) -> None:
    called = call("check", "ledger", at=thin.parent)
    first = " ".join(called.lines[:2])
    assert re.match(
        r"As of 2026-02-28 \(closed\): \d+ read, \d+ checked: \d+ outside, \d+ suspect, \d+ +undecided, "
        r"\d+ not assessed, \d+ +unreadable\.", first
    ), first  # fmt: skip
    assert " ".join(called.lines[-2:]) == (
        "This reports against the limits on file; qualified people and the authority having jurisdiction decide."
    )


def test_a_flange_on_its_limit_is_told_in_words_with_source_next_step_and_place(thin: Path) -> None:
    called = call("check", "ledger", at=thin.parent)
    found = called.out[called.out.index("✗ OUTSIDE, condemning: e-1 driver-2 right") :]
    assert "15/16 in" in found
    assert "230.113(g)" in found
    assert "→ Re-measure" in found
    assert f"ledger/{AT}:12:14  flange-thin" in found


def test_something_outside_exits_1_and_nothing_outside_exits_0(tmp_path: Path, thin: Path) -> None:
    assert call("check", at=thin).code == 1
    (thin / AT).write_text(THICK)
    assert call("check", at=thin).code == 0


def test_strict_exits_1_for_what_was_not_assessed(thin: Path) -> None:
    (thin / AT).write_text(THICK.replace("    where: 3/8 in above tread\n", "").replace("    with: gauge-1\n", ""))
    assert call("check", at=thin).code == 0
    assert call("check", "--strict", at=thin).code == 1


def test_a_path_chooses_what_is_shown_and_counted_and_everything_is_still_read(thin: Path) -> None:
    whole, one = (promised(call("check", *path, "--format", "json", at=thin).out) for path in ([], ["tires"]))
    assert one["counts"]["read"] == whole["counts"]["read"]
    assert not [f for f in one["findings"] if not f["path"].startswith("tires/")]
    assert call("check", "tires", at=thin).code == 0
    assert call("check", AT, at=thin).code == 1
    assert "Shown is only what stands in tires" in call("check", "tires", at=thin).out


def test_the_ledger_itself_as_path_is_all_of_it_from_wherever_one_stands(thin: Path) -> None:
    for path, at in ((".", thin), ("..", thin / "tires"), (str(thin), thin.parent), (str(thin), Path("/"))):
        assert "flange-thin" in call("check", path, at=at).out
    assert "flange-thin" in call("check", "--ledger", str(thin), at=Path("/")).out
    assert "flange-thin" in call("check", at=thin / "inspections" / "2026").out


def test_at_most_24_lines_are_printed_and_what_is_not_shown_is_counted(thin: Path) -> None:
    wheels = [f"driver-{n} {side}" for n in (1, 2) for side in ("left", "right")]
    reading = THIN[THIN.index("  - quantity") :]
    (thin / AT).write_text(THIN.replace(reading, "".join(reading.replace("driver-2 right", w) for w in wheels)))
    short, whole = call("check", at=thin), call("check", "--all", at=thin)
    assert len(short.lines) <= 24
    assert re.search(r"^Not shown: .*\. In full: --all$", short.out, re.M)
    assert whole.out.count("OUTSIDE, condemning") == 4
    assert "Not shown" not in whole.out


def test_as_of_another_day_is_said_and_reads_the_book_of_that_day(thin: Path) -> None:
    called = call("check", "--as-of", "2026-01-09", at=thin)
    assert called.lines[0].startswith("As of 2026-01-09 (as asked): ")
    assert called.code == 0
    assert "flange-thin" not in called.out


@pytest.mark.parametrize(
    ("written", "hint"),
    [("3/14/2025", "Write 2025-03-14."), ("2026-02-30", "calendar"), ("tomorrow", "2026-02-28"), ("", "2026-02-28"),
     ("2026-02", "2026-02-28"), ("\x1b[31m", "2026-02-28"), ("9" * 5000, "2026-02-28")],
)  # fmt: skip
def test_a_day_that_is_none_is_refused_in_a_sentence(thin: Path, written: str, hint: str) -> None:
    called = call("check", "--as-of", written, at=thin)
    assert (called.code, called.out) == (2, "")
    assert hint in called.err
    assert "\x1b" not in called.err
    assert len(called.err) < 300


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["nowhere"], "there is no file or folder 'nowhere'"),
        (["no\x1b[31mwhere\n"], "no\\x1b[31mwhere"),
        (["nul\0name"], "there is no file or folder"),
        (["--ledger", "tires"], "which is no ledger: there is no ledger.yaml in it"),
        (["--ledger", "nowhere"], "which is no folder"),
        (["--ledger", ""], "which is no folder"),
        (["/"], "there is no ledger in or above '/'"),
        (["--format", "xml"], "xml"),
        (["--frobnicate"], "frobnicate"),
    ],
)
def test_what_cannot_run_is_a_sentence_on_stderr_and_exit_2(thin: Path, arguments: list[str], says: str) -> None:
    called = call("check", *arguments, at=thin)
    assert (called.code, called.out) == (2, "")
    assert says in called.err
    assert "\x1b" not in called.err


def test_outside_of_any_ledger_it_says_how_to_begin_one(tmp_path: Path) -> None:
    called = call("check", at=tmp_path)
    assert called.code == 2
    assert "there is no ledger here or in a folder above" in called.err
    assert "axlebook init DIR" in called.err


def test_paths_of_two_ledgers_and_a_path_out_of_the_named_ledger_are_refused(thin: Path, tmp_path: Path) -> None:
    other = small_ledger(tmp_path / "other")
    assert "different ledgers" in call("check", str(thin), str(other), at=tmp_path).err
    called = call("check", "--ledger", str(thin), str(other / "tires"), at=tmp_path)
    assert called.code == 2
    assert "is not in the ledger" in called.err


def test_a_link_out_of_the_ledger_can_be_named_and_is_not_followed(thin: Path) -> None:
    (thin / "tires" / "t-9.yaml").symlink_to("/etc/hostname")
    called = call("check", "tires/t-9.yaml", at=thin)
    assert called.code == 1
    assert "link" in called.out


def test_the_json_has_the_promised_form_with_figures_as_written(thin: Path) -> None:
    called = call("check", "--format", "json", at=thin)
    told = promised(called.out)
    assert (told["command"], told["as_of"], told["revision"], told["dirty"]) == ("check", "2026-02-28", None, None)
    [found] = [f for f in told["findings"] if f["check"] == "flange-thin" and f["verdict"] == "outside"]
    assert (found["path"], found["line"], found["column"]) == (AT, 12, 14)
    assert found["figures"][0]["value"].startswith("15/16")
    assert found["waived"] is None
    assert called.code == 1
    assert called.out.isascii()


def test_a_fault_of_axlebook_is_said_as_such_and_never_as_bad_records(
    thin: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object) -> list[object]:
        raise ZeroDivisionError("a bug")

    monkeypatch.setattr(axlebook.run, "run_checks", broken)
    monkeypatch.delenv("AXLEBOOK_DEBUG", raising=False)
    called = call("check", at=thin)
    assert (called.code, called.out) == (2, "")
    assert "a fault of axlebook itself, not of your records (ZeroDivisionError: a bug)" in called.err
    assert "Traceback" not in called.err
    monkeypatch.setenv("AXLEBOOK_DEBUG", "1")
    assert "Traceback" in call("check", at=thin).err


def test_text_of_a_record_cannot_act_on_the_terminal(thin: Path) -> None:
    (thin / "tires" / "evil.yaml").write_text(f'kind: "tire\\e[2J{OVERRIDE}"\nnote: x\n', encoding="utf-8")
    bad = os.fsencode(thin / "tires") + b"/\x1b[31m\xff\n.yaml"
    Path(os.fsdecode(bad)).write_text("kind: tire\n")
    called = call("check", "--all", at=thin)
    assert called.code == 1
    assert not [sign for sign in called.out if not sign.isprintable() and sign != "\n"]


def test_a_folder_whose_name_acts_on_the_terminal_is_written_out_by_every_command(tmp_path: Path) -> None:
    bad = os.fsdecode(b"led\x1b[31m\xff\nger")
    small_ledger(tmp_path, {AT: THIN}).rename(tmp_path / bad)
    for command in (["check", bad], ["status", "--ledger", bad], ["new", "tire", "t-9", "--ledger", bad],
                    ["init", bad], ["init", f"{bad}-2"], ["explain", "us-49-cfr-230", "--ledger", bad]):  # fmt: skip
        called = call(*command, at=tmp_path)
        assert "fault of axlebook" not in called.err
        assert not [sign for sign in called.out + called.err if not sign.isprintable() and sign != "\n"], command


def test_an_output_that_cannot_be_written_is_no_fault_of_axlebook_or_of_the_records(thin: Path) -> None:
    full = Path("/dev/full")
    if not full.exists():  # a system without such a device
        return
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(p for p in sys.path if p)}
    command = [sys.executable, "-m", "axlebook", "check"]
    with full.open("w") as out:
        done = subprocess.run(command, stdout=out, stderr=subprocess.PIPE, text=True, cwd=thin, env=environment)
    assert done.returncode == 2
    assert done.stderr == "axlebook: the output cannot be written (No space left on device).\n"


def test_where_the_encoding_has_no_symbols_the_words_carry_the_meaning(thin: Path) -> None:
    called = call("check", at=thin, encoding="ascii")
    assert called.out.isascii()
    assert "x OUTSIDE, condemning: e-1 driver-2 right" in called.out
    assert "> Re-measure" in called.out


@pytest.mark.parametrize(
    ("flag", "environment", "colored"),
    [
        (["--color"], {"NO_COLOR": "1"}, True),
        (["--no-color"], {"FORCE_COLOR": "1"}, False),
        ([], {"NO_COLOR": "1", "FORCE_COLOR": "1"}, False),
        ([], {"FORCE_COLOR": "1"}, True),
        ([], {"FORCE_COLOR": "0"}, False),
        ([], {}, False),
    ],
)
def test_color_is_the_flag_then_no_color_then_force_color_then_the_terminal(
    thin: Path, monkeypatch: pytest.MonkeyPatch, flag: list[str], environment: dict[str, str], colored: bool
) -> None:
    for name in ("NO_COLOR", "FORCE_COLOR"):
        monkeypatch.delenv(name, raising=False)
    for name, value in environment.items():
        monkeypatch.setenv(name, value)
    plain = call("check", "--no-color", at=thin).out
    called = call("check", *flag, at=thin)
    assert ("\x1b[" in called.out) is colored
    assert re.sub(r"\x1b\[[0-9;]*m", "", called.out) == plain


def test_it_runs_as_a_module_and_says_its_version_and_a_reader_may_leave_early(thin: Path) -> None:
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(p for p in sys.path if p)}
    command = [sys.executable, "-m", "axlebook"]
    version = subprocess.run([*command, "--version"], capture_output=True, text=True, env=environment, check=True)
    assert re.fullmatch(r"axlebook \d+\.\d+\.\d+\n", version.stdout)
    reader = f"{sys.executable} -m axlebook check --all | head -1"
    left = subprocess.run(reader, shell=True, capture_output=True, text=True, env=environment, cwd=thin, check=True)
    assert left.stdout.startswith("As of 2026-02-28")
    assert "Error" not in left.stderr


def test_check_imports_nothing_heavy_and_help_nothing_but_click(thin: Path) -> None:
    heavy = {"numpy", "scipy", "matplotlib", "pint", "jinja2", "git"}
    assert not heavy & _imported("check", thin)
    later = heavy | {"rich", "yaml", "jsonschema", "axlebook.run", "importlib.metadata"}
    assert not later & _imported("--help", thin)


def _imported(argument: str, at: Path) -> set[str]:
    code = (
        "import sys\nfrom axlebook.cli import run\nrun(sys.argv[1:])\n"
        "print(*sorted(sys.modules), file=sys.stderr)"
    )  # fmt: skip
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(p for p in sys.path if p)}
    done = subprocess.run(
        [sys.executable, "-c", code, argument], capture_output=True, text=True, cwd=at, env=environment, check=True
    )
    return set(done.stderr.split())


def test_a_misspelled_command_is_answered_with_the_nearest(tmp_path: Path) -> None:
    called = call("chekc", at=tmp_path)
    assert called.code == 2
    assert "Did you mean check?" in called.err
