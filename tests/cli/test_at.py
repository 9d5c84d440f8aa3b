"""`--at REV`: the book as a commit has it, in every shape of repository, and no file touched."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.cli.commands import AT, THICK, THIN, call, promised
from tests.cli.repositories import commit, git, small_repository, written


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """A ledger whose first commit has a flange on its limit, and whose second has it thick again."""
    root = small_repository(tmp_path / "own", {AT: THIN})
    git(root, "tag", "thin")
    written(root, {AT: THICK})
    commit(root)
    return root


@pytest.mark.parametrize("command", ["check", "status", "due", "wear"])
def test_a_revision_is_told_as_a_checkout_of_it_is_to_the_byte(book: Path, tmp_path: Path, command: str) -> None:
    git(tmp_path, "clone", "--quiet", str(book), "there/ledger")
    git(tmp_path / "there/ledger", "checkout", "--quiet", "thin")
    for shape in (["--format", "json"], ["--all"]):
        at = call(command, "--at", "thin", *shape, at=book)
        checkout = call(command, *shape, at=tmp_path / "there/ledger")
        named = f"At {git(book, 'rev-parse', '--short=12', 'thin')} (thin), "
        if shape[0] == "--all":
            assert at.out.startswith(named)
            told = _unwrapped(at.out).replace(f"{named}as of", "As of", 1)
            assert told.replace(" --at thin", "") == _unwrapped(checkout.out)  # next commands stay at the revision
        else:
            assert at.out == checkout.out
        assert at.code == checkout.code


def _unwrapped(text: str) -> str:
    """The text with its first paragraph on one line: that alone may break elsewhere."""
    lines = text.splitlines()
    rest = next(number for number, line in enumerate(lines) if number and not line.startswith("  "))
    return "\n".join([" ".join(line.strip() for line in lines[:rest]), *lines[rest:]])


def test_the_days_files_are_neither_read_nor_touched(book: Path) -> None:
    written(book, {AT: "no record at all: [\n", "tires/t-9.yaml": "kind: tire\n"})
    before = {path: path.read_bytes() for path in book.rglob("*") if path.is_file()}
    at = call("check", "--at", "HEAD", "--format", "json", at=book)
    assert {path: path.read_bytes() for path in book.rglob("*") if path.is_file()} == before
    told = promised(at.out)
    assert (told["dirty"], told["revision"]) == (False, git(book, "rev-parse", "HEAD"))
    assert not [f for f in told["findings"] if f["path"] in (AT, "tires/t-9.yaml") and f["verdict"] == "unreadable"]


def shapes(book: Path, tmp_path: Path) -> dict[str, Path]:
    """The same ledger in every shape of repository; the paths as one would give them to --ledger."""
    for way, name in (["--bare"], "bare.git"), (["--depth=2", "--no-tags"], "shallow"), ([], "below"):
        git(tmp_path, "clone", "--quiet", *way, book.as_uri(), name)
    git(book, "worktree", "add", "--quiet", "--detach", str(tmp_path / "linked"))
    below = tmp_path / "below"
    inner = below / "far/book"
    inner.mkdir(parents=True)
    for name in git(below, "ls-tree", "--name-only", "HEAD").splitlines():
        git(below, "mv", name, f"far/book/{name}")
    commit(below)
    git(tmp_path, "clone", "--quiet", "--bare", str(below), "bare-below.git")
    return {
        "a bare clone": tmp_path / "bare.git",
        "a shallow clone": tmp_path / "shallow",
        "a linked work tree": tmp_path / "linked",
        "a folder of a repository": inner,
        "a folder of a bare clone": tmp_path / "bare-below.git/far/book",
        "the git folder itself": book / ".git",
    }


def test_every_shape_of_repository_tells_the_same(book: Path, tmp_path: Path) -> None:
    how = ["--at", "HEAD", "--no-history", "--format", "json"]  # a ledger that was moved has another history
    expected = promised(call("check", *how, at=book).out)
    for shape, place in shapes(book, tmp_path).items():
        called = call("check", "--ledger", str(place), *how, at=tmp_path)
        assert called.code == 0, (shape, called.err)
        told = promised(called.out)
        assert {**told, "revision": ""} == {**expected, "revision": ""}, shape


def test_a_path_may_be_one_that_only_that_revision_has(book: Path, tmp_path: Path) -> None:
    written(book, {AT: None})
    assert call("check", "--at", "thin", AT, at=book).code == 1
    assert call("check", "--at", "thin", "tires", at=book).code == 0
    git(tmp_path, "clone", "--quiet", "--bare", str(book), "bare.git")
    bare = str(tmp_path / "bare.git")
    assert call("check", "--ledger", bare, "--at", "thin", "inspections/2026", at=tmp_path).code == 1
    assert call("check", "--ledger", bare, "--at", "thin", "tires", at=tmp_path).code == 0
    assert call("check", "--at", "thin", at=tmp_path / "bare.git").code == 1
    called = call("check", "--ledger", bare, "--at", "thin", "../tires", at=tmp_path)
    assert (called.code, called.out) == (2, "")


def test_a_bare_clone_without_a_revision_says_what_is_missing(book: Path, tmp_path: Path) -> None:
    git(tmp_path, "clone", "--quiet", "--bare", str(book), "bare.git")
    called = call("check", "--ledger", "bare.git", at=tmp_path)
    assert called.code == 2
    assert "It is a bare clone: name a commit, a tag or a branch with --at." in called.err


def test_the_folder_of_a_ledger_inside_a_bare_clone_is_asked_for(book: Path, tmp_path: Path) -> None:
    bare = shapes(book, tmp_path)["a folder of a bare clone"].parents[1]
    called = call("check", "--ledger", str(bare), "--at", "HEAD", at=tmp_path)
    assert called.code == 2
    assert "--ledger BOOK.git/FOLDER" in called.err


NO_REVISIONS = ["", "-x", "--help", "--output=x", "nope", "HEAD\n", "x\x1b[31m", "HEAD~9", "^HEAD", "HEAD:tires"]


@pytest.mark.parametrize("revision", NO_REVISIONS)
def test_a_revision_that_is_none_is_one_sentence_and_exit_2(book: Path, revision: str) -> None:
    for command in ("check", "status"):
        called = call(command, f"--at={revision}", at=book)
        assert (called.code, called.out) == (2, "")
        assert called.err.startswith("axlebook: git knows no commit ")
        assert "\x1b" not in called.err
        assert called.err.count("\n") == 1


def test_outside_git_and_before_the_ledger_it_is_said(book: Path, tmp_path: Path) -> None:
    import shutil

    plain = tmp_path / "plain"
    shutil.copytree(book, plain, ignore=shutil.ignore_patterns(".git"))
    assert "not under version control" in call("check", "--at", "HEAD", at=plain).err
    assert call("check", at=plain).code == 0  # the rest works
    git(book, "checkout", "--quiet", "--orphan", "empty")
    git(book, "rm", "-r", "--quiet", "--cached", ".")
    git(book, "commit", "--quiet", "--allow-empty", "--message", "nothing yet")
    called = call("check", "--at", "empty", at=book)
    assert called.code == 2
    assert "there is no ledger in" in called.err


def test_the_variables_of_another_repository_lead_nowhere(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    expected = call("check", "--at", "thin", "--format", "json", at=book).out
    other = small_repository(tmp_path / "other")
    for name in ("GIT_COMMON_DIR", "GIT_DIR"):
        monkeypatch.setenv(name, str(other / ".git"))
    for name in ("GIT_OBJECT_DIRECTORY", "GIT_ALTERNATE_OBJECT_DIRECTORIES"):
        monkeypatch.setenv(name, str(other / ".git/objects"))
    monkeypatch.setenv("GIT_SHALLOW_FILE", str(tmp_path / "nothing"))
    monkeypatch.setenv("GIT_NAMESPACE", "elsewhere")
    monkeypatch.setenv("GIT_TRACE", str(tmp_path / "trace"))
    assert call("check", "--at", "thin", "--format", "json", at=book).out == expected
    assert not (tmp_path / "trace").exists()


def test_a_module_and_a_linked_folder_are_told_and_not_gone_into(book: Path, tmp_path: Path) -> None:
    other = small_repository(tmp_path / "other")
    git(book, "-c", "protocol.file.allow=always", "submodule", "add", "--quiet", str(other), "wheelsets/inner")
    (book / "defects").symlink_to(tmp_path)
    commit(book)
    told = promised(call("check", "--at", "HEAD", "--format", "json", at=book).out)
    found = {f["path"]: f["message"] for f in told["findings"] if f["check"] == "unreadable-record"}
    assert "a repository of its own" in found["wheelsets/inner"]
    assert "a link to another place" in found["defects"]
    assert (
        call("check", "--format", "json", at=book).out == call("check", "--at", "HEAD", "--format", "json", at=book).out
    )
