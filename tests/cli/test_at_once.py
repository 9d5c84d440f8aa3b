"""Two people, two processes, one ledger, the same moment: every record is whole, and none is lost or written over."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import pytest
from tests.cli.commands import TOP
from tests.cli.sheet_ledger import sheet_ledger
from tests.cli.sheets import records, row, sheet, small_ledger, tree_at

from axlebook.sources.schemas import judge
from axlebook.sources.yaml_text import read_tree

RECORD = "inspections/2026/2026-01-10-e-1-annual.yaml"


def begun(root: Path, *arguments: str) -> subprocess.Popen[str]:
    """A call of axlebook that has begun."""
    return subprocess.Popen(
        [sys.executable, "-m", "axlebook", *arguments], cwd=root, stdin=subprocess.PIPE, stdout=subprocess.PIPE,
        stderr=subprocess.PIPE, text=True, env={**os.environ, "PYTHONPATH": str(TOP / "tool")},
    )  # fmt: skip


def at_once(calls: Sequence[subprocess.Popen[str]], typed: Sequence[str]) -> list[tuple[int, str, str]]:
    """Let all go on with what is typed at the same moment, up to their ends: exit codes, and what each said."""
    for one, answers in zip(calls, typed, strict=True):
        assert one.stdin is not None
        one.stdin.write(answers)
        one.stdin.flush()
    for one in calls:
        assert one.stdin is not None
        one.stdin.close()
        one.stdin = None
    ended = [one.communicate(timeout=120) for one in calls]
    return [(one.returncode, out, err) for one, (out, err) in zip(calls, ended, strict=True)]


def all_sound(root: Path) -> dict[str, str]:
    found = records(root)
    for path, text in found.items():
        assert judge(read_tree(text.encode()), path) == [], path
    return found


def test_three_people_who_enter_at_once_each_have_their_whole_record(tmp_path: Path) -> None:
    root = sheet_ledger(tmp_path)
    before = records(root)
    values = ["2 7/8 in", "2 27/32 in", "2 29/32 in"]
    typed = ["\n".join(["2026-02-20", "lead", *["-"] * 7, value, "e", "w", ""]) for value in values]
    ended = at_once([begun(root, "enter", "d-2", "--purpose", "yearly") for _ in values], typed)
    assert [code for code, _, _ in ended] == [0, 0, 0], ended
    new = {path: text for path, text in all_sound(root).items() if path not in before}
    assert set(new) == {f"inspections/2026/2026-02-20-d-2-yearly{number}.yaml" for number in ("", "-2", "-3")}
    for (_, out, _), value in zip(ended, values, strict=True):
        assert f"0 deg: {value}" in new[out.strip()]
    assert {path: text for path, text in records(root).items() if path in before} == before
    assert not list((root / ".drafts").glob("*.jsonl"))


def test_one_sheet_imported_twice_at_once_is_on_record_once(tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    (root.parent / "a.csv").write_text(sheet(row(), row(position="90 deg")), encoding="utf-8")
    ended = at_once([begun(root, "import", "../a.csv", "--write") for _ in range(2)], ["", ""])
    assert list(all_sound(root)) == [RECORD]
    codes = sorted(code for code, _, _ in ended)
    assert codes in ([0, 0], [0, 2], [0, 1], [1, 1], [1, 2])
    for code, _, err in ended:
        assert code != 2 or f"{RECORD} is there already. Nothing was written. The same call goes on" in err


@pytest.mark.parametrize("number", range(2))
def test_two_sheets_of_one_session_imported_at_once_lose_nothing(tmp_path: Path, number: int) -> None:
    root = small_ledger(tmp_path)
    for name, position in (("a", "0 deg"), ("b", "90 deg")):
        (root.parent / f"{name}.csv").write_text(sheet(row(position=position)), encoding="utf-8")
    ended = at_once([begun(root, "import", f"../{name}.csv", "--write") for name in "ab"], ["", ""])
    for (code, _, _), name in zip(ended, "ab", strict=True):
        if code == 2:  # the name was taken in that moment: the same call goes on
            assert at_once([begun(root, "import", f"../{name}.csv", "--write")], [""])[0][0] != 2
    found = all_sound(root)
    assert len(found) == 2
    positions = sorted(at for path in found for one in tree_at(root, path)["readings"] for at in one["values"])
    assert positions == ["0 deg", "90 deg"]
