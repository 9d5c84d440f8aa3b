"""How records came into a ledger, as git tells it: on real repositories of every shape."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from tests.checks.histories import change, commit, git, write

from axlebook.records.entered import Entered, changes, edit_after_signing
from axlebook.sources.git import resolve
from axlebook.sources.git_entries import entries_at
from axlebook.sources.git_history import carrying_signature, read_entered

OLD, NEW = "kind: tire\nnote: old\n", "kind: tire\nnote: new\n"
TIRE = "tires/t-1.yaml"


def contents(root: Path) -> dict[str, bytes]:
    """What stands in a ledger's folders, by path."""
    found = [root / "ledger.yaml", *sorted(root.glob("*/**/*.yaml"))]
    return {path.relative_to(root).as_posix(): path.read_bytes() for path in found if path.is_file()}


def entered(root: Path) -> Entered:
    return read_entered(root, contents(root))


@pytest.fixture
def ledger(tmp_path: Path) -> Path:
    """A ledger in a folder below the top of its repository, with one tire that was altered once."""
    root = tmp_path / "book"
    git_root = tmp_path
    root.mkdir()
    git(git_root, "init", "--quiet")
    write(root, {"ledger.yaml": "kind: ledger\nrailway: x\n"})
    commit(git_root)
    write(root, {TIRE: OLD})
    commit(git_root, on="2026-01-12", by="v1")
    write(root, {TIRE: NEW})
    commit(git_root, on="2026-02-02", by="V. Two")
    return root


def test_a_record_has_its_commits_days_and_authors(ledger: Path) -> None:
    found = entered(ledger)
    life = found.lives["t-1"]
    assert [(str(v.commit.on), v.commit.author) for v in life.versions if v.commit] == [
        ("2026-01-12", "v1"), ("2026-02-02", "V. Two"),
    ]  # fmt: skip
    assert [v.tree and v.tree["note"] for v in life.versions] == ["old", "new"]
    assert found.begun_in == git(ledger, "rev-list", "--max-parents=0", "HEAD")
    assert found.entered("t-1") == life.versions[0].commit


def test_a_text_is_read_only_when_somebody_asks_what_it_says(ledger: Path) -> None:
    versions = entered(ledger).lives["t-1"].versions
    assert not [version for version in versions if "tree" in vars(version)]
    assert versions[0].tree == {"kind": "tire", "note": "old"}


def test_a_text_that_was_read_already_is_not_read_again(ledger: Path) -> None:
    found = read_entered(ledger, contents(ledger), "HEAD", lambda path, content: {"read": path})
    assert found.lives["t-1"].versions[-1].tree == {"read": TIRE}


def test_the_disk_is_a_version_of_its_own_where_it_differs(ledger: Path) -> None:
    write(ledger, {TIRE: OLD})
    last = entered(ledger).lives["t-1"].versions[-1]
    assert last.commit is None
    assert last.tree == {"kind": "tire", "note": "old"}


def test_other_line_ends_are_no_version(ledger: Path) -> None:
    (ledger / TIRE).write_bytes(NEW.replace("\n", "\r\n").encode())
    assert len(entered(ledger).lives["t-1"].versions) == 2


def test_a_file_outside_the_folders_of_records_has_no_life(ledger: Path) -> None:
    write(ledger, {"notes.yaml": "a: b\n", "attachments/x.yaml": "a: b\n", "tires/.hidden.yaml": "a: b\n"})
    write(ledger.parent, {"other/tires/t-9.yaml": OLD})
    commit(ledger.parent)
    assert set(entered(ledger).lives) == {"ledger", "t-1"}


def test_outside_git_the_reason_is_told(tmp_path: Path) -> None:
    found = read_entered(tmp_path, {})
    assert (dict(found.lives), found.reason) == ({}, "not under version control")


def test_a_repository_without_a_commit_tells_why(tmp_path: Path) -> None:
    git(tmp_path, "init", "--quiet")
    found = entered(tmp_path)
    assert (found.reason, found.cut) == ("in a git repository in which nothing is committed yet", None)


def test_a_merge_that_says_what_neither_side_said_is_seen(ledger: Path) -> None:
    top = ledger.parent
    git(top, "checkout", "--quiet", "-b", "wheel")
    write(ledger, {"tires/t-2.yaml": OLD})
    commit(top, on="2026-02-03", by="v2")
    git(top, "checkout", "--quiet", "main")
    git(top, "merge", "--quiet", "--no-ff", "--no-commit", "wheel")
    write(ledger, {"tires/t-2.yaml": NEW})
    commit(top, on="2026-02-04", by="who merged")
    versions = entered(ledger).lives["t-2"].versions
    assert [v.commit.author for v in versions if v.commit] == ["v2", "who merged"]


def test_a_merge_of_two_branches_that_each_add_a_record_alters_none(ledger: Path) -> None:
    top = ledger.parent
    git(top, "checkout", "--quiet", "-b", "wheel")
    write(ledger, {"tires/t-2.yaml": OLD})
    commit(top, by="v2")
    git(top, "checkout", "--quiet", "main")
    write(ledger, {"tires/t-3.yaml": OLD})
    commit(top, by="v3")
    git(top, "merge", "--quiet", "--no-ff", "-m", "both", "wheel")
    found = entered(ledger).lives
    assert [len(found[id].versions) for id in ("t-2", "t-3")] == [1, 1]


def test_a_shallow_clone_knows_no_entering_before_its_edge(ledger: Path, tmp_path: Path) -> None:
    write(ledger, {"tires/t-2.yaml": OLD})
    commit(ledger.parent, on="2026-02-05", by="v2")
    git(tmp_path, "clone", "--quiet", "--depth=2", ledger.parent.as_uri(), "shallow")
    found = entered(tmp_path / "shallow" / "book")
    assert found.shallow
    assert found.entered("t-1") is None
    assert found.entered("t-2") is not None


def test_a_linked_work_tree_has_the_same_history(ledger: Path, tmp_path: Path) -> None:
    git(ledger.parent, "worktree", "add", "--quiet", "-b", "other", str(tmp_path / "linked"))
    assert len(entered(tmp_path / "linked" / "book").lives["t-1"].versions) == 2


def test_a_bare_clone_has_a_history_at_a_commit(ledger: Path, tmp_path: Path) -> None:
    git(tmp_path, "clone", "--quiet", "--bare", ledger.parent.as_uri(), "book.git")
    root = tmp_path / "book.git" / "book"
    texts = {entry.path: entry.content or b"" for entry in entries_at(root, "HEAD")}
    found = read_entered(root, texts, resolve(root, "HEAD"))
    assert len(found.lives["t-1"].versions) == 2
    assert found.lives["t-1"].versions[-1].commit is not None


def test_at_an_older_commit_only_what_had_come_by_then_is_told(ledger: Path) -> None:
    early = git(ledger, "rev-parse", "HEAD~1")
    texts = {entry.path: entry.content or b"" for entry in entries_at(ledger, early)}
    assert len(read_entered(ledger, texts, early).lives["t-1"].versions) == 1


def test_names_that_look_like_git_or_a_terminal_are_only_names(ledger: Path) -> None:
    write(ledger, {"tires/t-2.yaml": OLD})
    commit(ledger.parent, by=":100644 \x1f\x1b[31m né")
    commit_of = entered(ledger).entered("t-2")
    assert commit_of is not None
    assert "né" in commit_of.author


def test_a_repository_of_sha256_is_read_too(tmp_path: Path) -> None:
    git(tmp_path, "init", "--quiet", "--object-format=sha256")
    write(tmp_path, {"ledger.yaml": "kind: ledger\n", TIRE: OLD})
    commit(tmp_path)
    (version,) = entered(tmp_path).lives["t-1"].versions
    assert version.commit is not None
    assert len(version.commit.hash) == 64


def test_two_records_of_one_id_have_no_history_for_nobody_knows_whose_it_is(ledger: Path) -> None:
    write(ledger, {"people/t-1.yaml": "kind: person\nrole: x\n"})
    commit(ledger.parent)
    assert "t-1" not in entered(ledger).lives


def test_a_text_that_git_has_lost_is_no_crash(ledger: Path) -> None:
    blob = git(ledger, "rev-parse", f"HEAD~1:book/{TIRE}")
    path = ledger.parent / ".git" / "objects" / blob[:2] / blob[2:]
    path.chmod(0o600)
    path.unlink()
    versions = entered(ledger).lives["t-1"].versions
    assert versions[0].tree is None
    assert edit_after_signing(entered(ledger).lives["t-1"]) is None


def test_which_commits_carry_a_signature_is_told_without_verifying_it(ledger: Path) -> None:
    head = git(ledger, "rev-parse", "HEAD")
    assert carrying_signature(ledger, [head]) == set()
    assert carrying_signature(ledger, ["0" * 40]) == set()


def test_tags_are_told_with_their_day_and_where_they_lead(ledger: Path) -> None:
    top = ledger.parent
    git(top, "tag", "--annotate", "--message=x", "e-1-annual-2025", on="2026-02-02")
    git(top, "tag", "light")
    tags = {tag.name: tag for tag in entered(ledger).tags}
    annual, light, head = tags["e-1-annual-2025"], tags["light"], git(top, "rev-parse", "HEAD")
    assert (annual.inner_name, annual.commit, annual.made_on) == ("e-1-annual-2025", head, date(2026, 2, 2))
    assert (annual.reachable, annual.moved_here, annual.signature) == (True, 0, False)
    assert (light.inner_name, light.commit, light.made_on) == ("", head, None)


def test_changes_are_told_by_place_with_both_values() -> None:
    old = {"a": "1", "b": ["x", "y"], "c": {"d/e": "2"}, "f": "3"}
    new = {"a": "1", "b": ["x"], "c": {"d/e": "4"}, "g": "5"}
    assert [tuple(one) for one in changes(old, new)] == [
        ("/b/1", "y", ""), ("/c/d~1e", "2", "4"), ("/f", "3", ""), ("/g", "", "5"),
    ]  # fmt: skip


def test_a_record_deleted_and_brought_back_is_one_life(ledger: Path) -> None:
    write(ledger, {TIRE: None})
    commit(ledger.parent)
    write(ledger, {TIRE: NEW})
    commit(ledger.parent)
    life = entered(ledger).lives["t-1"]
    assert not life.gone
    change(ledger, {TIRE: [["new", "newer"]]})
    assert len(entered(ledger).lives["t-1"].versions) == 3
