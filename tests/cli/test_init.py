"""`init`: an empty ledger that checks clean, helps an editor, and is never written over anything."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from tests.cli.commands import TOP, call, promised, small_ledger, uncommented

from axlebook.reports.first_steps import UNNAMED
from axlebook.sources import new_ledger
from axlebook.sources.names import FOLDERS
from axlebook.sources.writing import write_new


def test_a_new_ledger_checks_clean_and_says_what_to_fill_in_first(tmp_path: Path) -> None:
    called = call("init", "mine", at=tmp_path)
    assert called.code == 0
    assert UNNAMED in called.out
    checked = call("check", "mine", at=tmp_path)
    assert checked.code == 0
    assert "Nothing has been judged yet: silence is no pass." in checked.out
    words = " ".join(checked.out.split())
    assert "First: Write your railway's name, and the limit sets you work to, into ledger.yaml. Then: Write" in words
    assert "`axlebook new --ledger mine engine e-1`" in words
    assert "In that folder `axlebook check` always tells what comes next.\n" in called.out
    assert call("check", "mine", "--strict", at=tmp_path).code == 0


def test_the_first_step_says_once_that_limit_sets_are_to_be_named(tmp_path: Path) -> None:
    call("init", "mine", at=tmp_path)
    engine = "kind: engine\nwheelsets:\n  - at: driver-1\n    wheelset: d-1\n    from: unknown\n"
    (tmp_path / "mine/engines/e-1.yaml").write_text(engine, encoding="utf-8")
    (tmp_path / "mine/drivers/d-1.yaml").write_text("kind: driver\naxle:\n  main: yes\n", encoding="utf-8")
    told = " ".join(call("check", "mine", at=tmp_path).out.split())
    assert "the limit sets you work to, into ledger.yaml. This reports" in told


def test_every_folder_is_there_with_its_note_and_every_first_line_leads_to_a_schema(tmp_path: Path) -> None:
    call("init", "mine", at=tmp_path)
    root = tmp_path / "mine"
    assert {name for name in FOLDERS if not (root / name / "README.md").is_file()} == set()
    records = [path for path in root.rglob("*.yaml") if path.name != "vocabulary.yaml"]
    assert len(records) > 10
    for path in records:
        first = path.read_text(encoding="utf-8").splitlines()[0]
        assert (path.parent / first.partition("$schema=")[2]).is_file(), path
    assert "eol=lf" in (root / ".gitattributes").read_text()
    assert not list(root.rglob("*.part"))


def test_the_template_of_the_ledger_is_the_one_that_the_first_step_asks_to_name(tmp_path: Path) -> None:
    call("init", "mine", at=tmp_path)
    path = tmp_path / "mine" / "ledger.yaml"
    assert f'railway: "{UNNAMED}"' in path.read_text(encoding="utf-8")
    path.write_text(uncommented(path.read_text(encoding="utf-8")))
    called = promised(call("check", "mine", "--format", "json", at=tmp_path).out)
    other = ("unknown-reference", "nothing-to-judge")
    found = [f for f in called["findings"] if f["path"] == "ledger.yaml" and f["check"] not in other]
    assert found == []
    assert called["as_of"] == "2026-12-31"  # of the line `closed_on`, so it was read


def test_in_the_checkout_the_first_line_leads_to_the_schemas_at_its_top() -> None:
    first = (TOP / "ledger" / "ledger.yaml").read_text(encoding="utf-8").splitlines()[0]
    assert (TOP / "ledger" / first.partition("$schema=")[2]).is_file()


def test_an_empty_folder_is_taken_also_the_one_stood_in(tmp_path: Path) -> None:
    assert call("init", ".", at=tmp_path).code == 0
    assert (tmp_path / "ledger.yaml").is_file()


@pytest.mark.parametrize(
    ("folder", "says"),
    [("full", "is not empty"), ("file", "is a file"), ("", "no name"), ("nul\0", "no name"), ("link", "is not empty"),
     ("file/below", "cannot be written"), ("led/ger", "lies inside the ledger")],
)  # fmt: skip
def test_a_place_that_is_not_free_is_refused_and_left_as_it_was(tmp_path: Path, folder: str, says: str) -> None:
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / ".hidden").write_text("mine")
    (tmp_path / "file").write_text("mine")
    (tmp_path / "link").symlink_to("full")
    small_ledger(tmp_path).rename(tmp_path / "led")
    before = sorted(tmp_path.rglob("*"))
    called = call("init", folder, at=tmp_path)
    assert (called.code, called.out) == (2, "")
    assert says in called.err
    assert sorted(tmp_path.rglob("*")) == before


def test_a_disk_that_fills_up_half_way_leaves_nothing_behind(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    written: list[Path] = []

    def write_some(path: Path, content: bytes) -> None:
        if len(written) == 30:
            raise OSError(28, os.strerror(28))
        write_new(path, content)
        written.append(path)

    monkeypatch.setattr(new_ledger, "write_new", write_some)
    called = call("init", "mine", at=tmp_path)
    assert called.code == 2
    assert "No space left on device" in called.err
    assert list(tmp_path.iterdir()) == []


def test_the_json_tells_how_many_files(tmp_path: Path) -> None:
    result = promised(call("init", "mine", "--format", "json", at=tmp_path).out)["result"]
    files = [path for path in (tmp_path / "mine").rglob("*") if path.is_file()]
    assert result == {"path": "mine", "files": len(files)}


def test_a_folder_that_is_not_empty_is_told_with_what_to_do(tmp_path: Path) -> None:
    (tmp_path / "half" / "schema").mkdir(parents=True)
    assert "a call that was cut off left" in call("init", "half", at=tmp_path).err
    (tmp_path / "half" / "letters.txt").write_text("mine")
    assert "Name a folder that is empty or not there yet." in call("init", "half", at=tmp_path).err
    assert call("init", "ours", at=tmp_path).code == 0
    assert "It is a ledger already" in call("init", "ours", at=tmp_path).err
