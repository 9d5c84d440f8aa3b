"""A repository written from commits: the same everywhere, and git finds nothing wrong with it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from tests.cli.repositories import git

from axlebook.sources.new_repository import NewCommit, write_repository

COMMITS = [
    NewCommit(date(2024, 1, 5), "lead", "the book", {"ledger.yaml": b"kind: ledger\n", "a/odd \"name\".txt": b"x\n"}),
    NewCommit(date(2025, 2, 6), "v1", "a session", {"tires/t-1.yaml": b"kind: tire\n"}, tag="annual-2025"),
    NewCommit(date(2026, 1, 7), "v2", "new tires", {"tires/t-2.yaml": b"kind: tire\n"}, branch="winter", start="main"),
    NewCommit(date(2026, 1, 8), "lead", "tidy", {"a/odd \"name\".txt": None}),
    NewCommit(date(2026, 1, 9), "lead", "merge", {"tires/t-2.yaml": b"kind: tire\n"}, merges="winter"),
]  # fmt: skip


def test_the_same_commits_have_the_same_hashes_wherever_they_are_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = write_repository(tmp_path / "one", COMMITS)
    for name in ("GIT_AUTHOR_NAME", "GIT_COMMITTER_DATE", "GIT_DIR", "TZ", "HOME"):
        monkeypatch.setenv(name, str(tmp_path))
    assert write_repository(tmp_path / "two", COMMITS) == first
    assert set(first) == {"main", "winter"}


def test_git_itself_finds_it_whole_and_the_files_checked_out(tmp_path: Path) -> None:
    root = tmp_path / "book"
    write_repository(root, COMMITS)
    git(root, "fsck", "--strict")
    assert git(root, "status", "--porcelain") == ""
    assert sorted(path.name for path in root.rglob("*.yaml")) == ["ledger.yaml", "t-1.yaml", "t-2.yaml"]
    assert git(root, "log", "-1", "--format=%an %ad %p", "--date=short", "winter").startswith("v2 2026-01-07")
    assert git(root, "cat-file", "-t", "annual-2025") == "tag"
    assert len(git(root, "log", "-1", "--format=%p", "main").split()) == 2


def test_a_repository_that_is_there_is_left_alone(tmp_path: Path) -> None:
    git(tmp_path, "init", "--quiet")
    with pytest.raises(FileExistsError):
        write_repository(tmp_path, COMMITS)
