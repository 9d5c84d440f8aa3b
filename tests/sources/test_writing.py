"""A file is written whole or not at all, and never over another."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from axlebook.sources.writing import AlreadyThere, write_new


def test_a_new_file_is_there_whole_and_alone(tmp_path: Path) -> None:
    write_new(tmp_path / "a" / "b" / "t-1.yaml", b"kind: tire\n")
    assert (tmp_path / "a" / "b" / "t-1.yaml").read_bytes() == b"kind: tire\n"
    assert os.listdir(tmp_path / "a" / "b") == ["t-1.yaml"]


@pytest.mark.parametrize("with_links", [True, False], ids=["links", "no links"])
def test_what_stands_there_is_left_as_it_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, with_links: bool
) -> None:
    if not with_links:
        monkeypatch.setattr(os, "link", _refuse)
    (tmp_path / "t-1.yaml").write_bytes(b"mine")
    (tmp_path / "t-2.yaml").symlink_to("t-1.yaml")
    (tmp_path / "t-3.yaml").symlink_to("nowhere")
    for name in ("t-1.yaml", "t-2.yaml", "t-3.yaml"):
        with pytest.raises(AlreadyThere):
            write_new(tmp_path / name, b"other")
    assert (tmp_path / "t-1.yaml").read_bytes() == b"mine"
    assert sorted(os.listdir(tmp_path)) == ["t-1.yaml", "t-2.yaml", "t-3.yaml"]


def test_a_disk_without_links_gets_its_file_too(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "link", _refuse)
    write_new(tmp_path / "t-1.yaml", b"kind: tire\n")
    assert (tmp_path / "t-1.yaml").read_bytes() == b"kind: tire\n"
    assert os.listdir(tmp_path) == ["t-1.yaml"]


def test_a_disk_that_says_no_leaves_nothing_behind(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "fsync", _refuse)
    with pytest.raises(OSError, match="not permitted"):
        write_new(tmp_path / "t-1.yaml", b"kind: tire\n")
    assert os.listdir(tmp_path) == []


def _refuse(*_: object, **__: object) -> None:
    raise OSError(1, "Operation not permitted")
