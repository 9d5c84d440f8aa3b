"""The first hour of the ledger's README, command by command: what it says is printed is printed."""

from __future__ import annotations

from pathlib import Path

from tests.cli.commands import TOP, call, promised
from tests.cli.shown import Reader, blocks, commands

README = TOP / "ledger" / "README.md"


def test_the_first_hour_goes_as_the_readme_tells_it(tmp_path: Path) -> None:
    assert call("init", "ours", at=tmp_path).code == 0
    reader = Reader(tmp_path / "ours")
    for block in blocks(README):
        reader.read(block)
    assert reader.told == 33
    found = promised(reader.call("check", "--format", "json").out)["findings"]
    assert "left-as-template" not in {finding["check"] for finding in found}  # who does as told leaves none behind


def test_readings_on_two_tires_of_a_new_wheelset_get_their_first_real_answers(tmp_path: Path) -> None:
    call("init", "ours", at=tmp_path)
    reader = Reader(tmp_path / "ours")
    for block in blocks(README):
        if any(command == "axlebook check" for command, _ in commands(block)):
            break
        reader.read(block)
    checked = reader.call("check")
    assert checked.code == 1
    assert "53.38 in" in checked.out
    assert "120 deg" not in checked.out.partition("NOT ASSESSED")[0]  # exactly on the limit is within
    assert len(checked.lines) <= 24
