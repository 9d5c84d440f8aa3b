"""What git says of a ledger, on real repositories."""

import subprocess
from pathlib import Path

import pytest

from axlebook.sources.folder import read_folder
from axlebook.sources.git import blobs_at, read_blobs, resolve, state_of
from axlebook.sources.git_entries import entries_at
from axlebook.sources.refusals import Refusal


def git(root: Path, *arguments: str) -> str:
    who = ["-c", "user.name=lead", "-c", "user.email=lead@example.invalid", "-c", "commit.gpgsign=false"]
    done = subprocess.run(["git", *who, *arguments], cwd=root, check=True, capture_output=True, text=True)
    return done.stdout.strip()


def commit(root: Path) -> str:
    git(root, "add", "--all")
    git(root, "commit", "--quiet", "--message", "day's work")
    return git(root, "rev-parse", "HEAD")


@pytest.fixture
def ledger(tmp_path: Path) -> Path:
    """Return a ledger in a folder below the top of its repository."""
    git(tmp_path, "init", "--quiet")
    book = tmp_path / "book"
    (book / "tires").mkdir(parents=True)
    (book / "ledger.yaml").write_bytes(b"kind: ledger\n")
    (book / "tires/t-1.yaml").write_bytes(b"kind: tire\n")
    commit(tmp_path)
    return book


def test_a_clean_ledger_says_its_commit(ledger: Path) -> None:
    state = state_of(ledger)
    assert state.commit == git(ledger, "rev-parse", "HEAD")
    assert (state.dirty, state.shallow, state.root) == (False, False, ledger.parent.resolve())


def test_a_changed_or_new_record_makes_it_dirty_and_a_file_outside_does_not(ledger: Path) -> None:
    (ledger.parent / "elsewhere.txt").write_text("x")
    assert state_of(ledger).dirty is False
    (ledger / "tires/t-2.yaml").write_text("kind: tire\n")
    assert state_of(ledger).dirty is True
    (ledger / "tires/t-2.yaml").unlink()
    (ledger / "tires/t-1.yaml").write_text("kind: tyre\n")
    assert state_of(ledger).dirty is True


def test_a_repository_without_a_commit_is_said_so(tmp_path: Path) -> None:
    git(tmp_path, "init", "--quiet")
    assert state_of(tmp_path)[:3] == (None, False, False)


def test_outside_git_nothing_is_known_and_the_reason_is_told(tmp_path: Path) -> None:
    state = state_of(tmp_path)
    assert (state.commit, state.dirty, state.root) == (None, None, None)
    assert "not under version control" in state.reason
    with pytest.raises(Refusal, match="not under version control"):
        resolve(tmp_path, "HEAD")


def test_without_the_program_git_the_reason_is_told(ledger: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(ledger))
    state = state_of(ledger)
    assert (state.commit, state.dirty) == (None, None)
    assert "git is not installed" in state.reason


def test_a_broken_repository_is_a_reason_and_not_a_crash(tmp_path: Path) -> None:
    (tmp_path / ".git").write_text("gitdir: nowhere\n")
    assert "not under version control (fatal" in state_of(tmp_path).reason


def test_a_shallow_clone_says_so(ledger: Path, tmp_path: Path) -> None:
    (ledger / "tires/t-2.yaml").write_text("kind: tire\n")
    commit(ledger.parent)
    git(tmp_path, "clone", "--quiet", "--depth=1", ledger.parent.as_uri(), "shallow")
    assert state_of(tmp_path / "shallow/book").shallow is True


def test_the_environment_of_a_hook_of_another_repository_changes_nothing(
    ledger: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("GIT_DIR", str(tmp_path / "nowhere"))
    monkeypatch.setenv("GIT_WORK_TREE", "/")
    monkeypatch.setenv("GIT_INDEX_FILE", "nowhere")
    monkeypatch.setenv("GIT_CONFIG_PARAMETERS", "'core.bare=true'")
    assert state_of(ledger).dirty is False


def test_a_linked_work_tree_is_read_as_its_own_checkout(ledger: Path, tmp_path: Path) -> None:
    git(ledger.parent, "worktree", "add", "--quiet", str(tmp_path / "linked"), "-b", "other")
    linked = tmp_path / "linked/book"
    assert state_of(linked)[:2] == (git(ledger, "rev-parse", "HEAD"), False)
    (linked / "tires/t-1.yaml").unlink()
    assert state_of(linked).dirty is True
    assert state_of(ledger).dirty is False


NO_REVISIONS = ["", "-x", "--help", "--output=x", "nope", "HEAD~9", "HEAD\n", "x" * 500, "\x00"]


@pytest.mark.parametrize("revision", NO_REVISIONS)
def test_a_revision_that_is_none_is_refused(ledger: Path, revision: str) -> None:
    with pytest.raises(Refusal) as caught:
        resolve(ledger, revision)
    assert caught.value.kind == "no-revision"
    assert str(caught.value).isprintable()


def test_a_revision_is_named_as_git_names_it(ledger: Path) -> None:
    head = git(ledger, "rev-parse", "HEAD")
    git(ledger, "tag", "--annotate", "--message=x", "v1")
    assert {resolve(ledger, name) for name in ("HEAD", "@", "v1", head[:10], "HEAD^{/work}")} == {head}


def test_a_commit_is_read_as_the_folder_was(ledger: Path) -> None:
    (ledger / "tires/T-2.yaml").write_bytes(b"kind: tire\n")
    (ledger / "tires/README.md").write_bytes(b"notes\n")
    (ledger / "tires/stray.txt").write_bytes(b"x\n")
    (ledger / "tires/big.yaml").write_bytes(b"x" * 2000)
    (ledger / "tires/link.yaml").symlink_to("/etc/passwd")
    (ledger / "tires/new\nline\x1b[31m.yaml").write_bytes(b"x\n")
    (ledger / "notes").mkdir()
    (ledger / "notes/free.txt").write_bytes(b"x\n")
    commit(ledger.parent)

    def seen(entries: object) -> dict[str, tuple[bytes | None, str | None]]:
        return {e.path: (e.content, e.problem and e.problem.kind) for e in entries}  # type: ignore[attr-defined]

    on_disk = seen(read_folder(ledger, max_bytes=1000))
    assert seen(entries_at(ledger, "HEAD", max_bytes=1000)) == on_disk
    assert on_disk["tires/T-2.yaml"] == (b"kind: tire\n", "bad-name")


def test_an_older_commit_gives_its_own_text(ledger: Path) -> None:
    old = resolve(ledger, "HEAD")
    (ledger / "tires/t-1.yaml").write_bytes(b"kind: tire\nmarks: {}\n")
    commit(ledger.parent)
    assert dict(entry[:2] for entry in entries_at(ledger, old))["tires/t-1.yaml"] == b"kind: tire\n"


def test_blobs_come_in_the_order_asked_and_a_missing_one_is_none(ledger: Path) -> None:
    hashes = [blob.hash for blob in blobs_at(ledger, resolve(ledger, "HEAD"))]
    asked = [hashes[1], "0" * 40, hashes[0]]
    assert list(read_blobs(ledger, asked)) == [b"kind: tire\n", None, b"kind: ledger\n"]


def test_a_commit_before_the_ledger_is_refused(tmp_path: Path) -> None:
    git(tmp_path, "init", "--quiet")
    (tmp_path / "x").write_text("x")
    commit(tmp_path)
    (tmp_path / "book").mkdir()
    with pytest.raises(Refusal) as caught:
        list(entries_at(tmp_path / "book", "HEAD"))
    assert caught.value.kind == "no-ledger-there"
