"""The demo as a repository: its sessions as commits, its annuals as tags, a branch with one slip to find in review."""

from __future__ import annotations

import json
import subprocess
from datetime import date
from pathlib import Path

import pytest

from axlebook.practice.replay import replay
from axlebook.sources.practice_copy import demo_files, read_texts
from axlebook.sources.shipped import shipped
from tests.cli.commands import call


def git(folder: Path, *arguments: str) -> str:
    """What git says in a folder."""
    told = subprocess.run(["git", *arguments], cwd=folder, capture_output=True, text=True, check=True)
    return told.stdout.strip()


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo, written once."""
    folder = tmp_path_factory.mktemp("demo") / "book"
    assert call("demo", str(folder), at=folder.parent).code == 0
    return folder


def test_it_is_a_clean_repository_that_holds_every_file_of_the_demo(demo: Path) -> None:
    assert git(demo, "status", "--porcelain") == ""
    files = demo_files(shipped("demo-ledger"))
    assert set(git(demo, "ls-files").splitlines()) == set(files)
    assert all((demo / path).read_bytes() == content for path, content in files.items())


def test_its_hashes_are_the_same_each_time(demo: Path, tmp_path: Path) -> None:
    assert call("demo", str(tmp_path / "again"), at=tmp_path).code == 0
    for name in ("main", "re-tiring-d-1", "e-12-annual-2025"):
        assert git(demo, "rev-parse", name) == git(tmp_path / "again", "rev-parse", name)


def test_each_session_is_a_commit_on_its_day_by_who_read_it(demo: Path) -> None:
    log = git(demo, "log", "--format=%as %an %s", "--", "inspections/2026/2026-02-14-e-12-annual.yaml")
    assert log.split(" ")[:2] == ["2026-02-15", "lead"]
    authors = set(git(demo, "log", "--format=%ae").splitlines())
    assert len(authors) >= 5
    assert all(author.endswith("@mossgate.invalid") for author in authors)


def test_no_record_is_entered_before_its_work_was_done(demo: Path) -> None:
    texts = {p: c.decode() for p, c in demo_files(shipped("demo-ledger")).items() if p.endswith(".yaml")}
    records = read_texts({p: t for p, t in texts.items() if not p.startswith("schema/")})
    for session in replay(records, (), date(2026, 2, 28)):
        for path in session.paths:
            done = str(records[path].tree.get("measured_on", ""))
            assert not done or date.fromisoformat(done) <= session.day, path


def test_every_annual_inspection_has_its_tag(demo: Path) -> None:
    assert len(git(demo, "tag", "--list", "e-12-annual-*").splitlines()) == 13


def test_the_branch_compared_to_main_names_its_slip(demo: Path) -> None:
    told = call("compare", "main", "re-tiring-d-1", "--format", "json", at=demo)
    assert told.code == 1
    new = [f for f in json.loads(told.out)["findings"] if f["check"] == "digits-transposed"]
    assert [(f["subject"].split(",")[0], f["path"]) for f in new] == [
        ("t-2604", "inspections/2026/2026-02-26-t-2604-receiving.yaml")
    ]


def test_the_comment_on_the_branch_says_what_it_means_for_the_metal(demo: Path) -> None:
    told = call("compare", "main", "re-tiring-d-1", "--format", "markdown", at=demo)
    assert "43.916 in" in told.out
    assert "two digits exchanged" in told.out
    assert len(told.out) < 60_000


def test_an_annual_proposes_its_tag_and_sets_none(demo: Path) -> None:
    before = git(demo, "tag")
    told = call("annual", "21", "2025", "--tag", "--format", "markdown", at=demo)
    assert (
        f"git tag --annotate --message 'e-21: annual summary of 2025' e-21-annual-2025 {git(demo, 'rev-parse', 'HEAD')}"
        in told.err
    )
    assert git(demo, "tag") == before


def test_an_annual_proposes_no_tag_whose_name_is_taken(demo: Path) -> None:
    told = call("annual", "12", "2025", "--tag", "--format", "markdown", at=demo)
    kept = git(demo, "rev-parse", "--short=12", "e-12-annual-2025^{commit}")
    assert f"No tag to propose: e-12-annual-2025 is set already, at {kept}, not at this state." in told.err
    assert "git tag" not in told.err
    there = call("annual", "12", "2025", "--tag", "--at", "e-12-annual-2025", "--format", "markdown", at=demo)
    assert "No tag to propose: e-12-annual-2025 keeps this state already." in there.err


def test_an_annual_at_a_tag_is_of_that_commit(demo: Path) -> None:
    told = call("annual", "12", "2024", "--at", "e-12-annual-2025", "--format", "json", at=demo)
    assert json.loads(told.out)["revision"] == git(demo, "rev-parse", "e-12-annual-2025^{commit}")
