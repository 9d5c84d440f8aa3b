"""The first hour of the ledger's README, command by command: what it says is printed is printed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from tests.cli.commands import TOP, call

README = TOP / "ledger" / "README.md"
FENCE = re.compile(r"^```(\w+)\n(.*?)^```$", re.M | re.S)


def test_the_first_hour_goes_as_the_readme_tells_it(tmp_path: Path) -> None:
    assert call("init", "ours", at=tmp_path).code == 0
    root = tmp_path / "ours"
    told = 0
    for kind, block in FENCE.findall(README.read_text(encoding="utf-8")):
        if kind == "yaml":
            _fill_in(root, block)
        for command, printed in _session(block) if kind == "console" else ():
            called = call(*command.split()[1:], at=root)
            assert re.fullmatch(_pattern(printed), called.out, re.S), f"$ {command}\n{called.out}\n{called.err}"
            told += 1
    assert told == 10


def _fill_in(root: Path, block: str) -> None:
    """Write a block to the file that its first line names; that file is there, because a command wrote it."""
    path = root / block.partition("\n")[0].removeprefix("# ")
    assert path.is_file(), path
    path.write_text(path.read_text(encoding="utf-8").partition("\n")[0] + "\n" + block, encoding="utf-8")


def _session(block: str) -> Iterator[tuple[str, str]]:
    for part in re.split(r"^\$ ", block, flags=re.M)[1:]:
        command, _, printed = part.partition("\n")
        yield command, printed


def _pattern(printed: str) -> str:
    return re.escape(printed).replace(re.escape("...\n"), ".*").replace(re.escape("..."), ".*")


def test_readings_on_two_tires_of_a_new_wheelset_get_their_first_real_answers(tmp_path: Path) -> None:
    call("init", "ours", at=tmp_path)
    root = tmp_path / "ours"
    for kind, block in FENCE.findall(README.read_text(encoding="utf-8")):
        for command, _ in _session(block) if kind == "console" and "new" in block else ():
            call(*command.split()[1:], at=root)
        if kind == "yaml":
            _fill_in(root, block)
    checked = call("check", at=root)
    assert checked.code == 1
    assert "53.38 in" in checked.out
    assert "120 deg" not in checked.out.partition("NOT ASSESSED")[0]  # exactly on the limit is within
    assert len(checked.lines) <= 24
