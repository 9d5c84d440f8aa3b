"""A repository from a stranger: its config names commands, and none of them runs."""

import os
import subprocess
from pathlib import Path

import pytest

from axlebook.sources.git import authors_between, merge_base, resolve, state_of
from axlebook.sources.git_entries import entries_at

COMMANDS = {
    "a clean filter": "[filter \"evil\"]\n\tclean = touch {flag}; cat\n",
    "a required clean filter": "[filter \"evil\"]\n\tclean = touch {flag}; cat\n\trequired = true\n",
    "a filter process": "[filter \"evil\"]\n\tprocess = touch {flag}\n\trequired = true\n",
    "a filter with an odd name": "[filter \"a=b.c\"]\n\tclean = touch {flag}; cat\n",
    "a file-system monitor": "[core]\n\tfsmonitor = \"touch {flag}; true\"\n",
    "a pager": "[core]\n\tpager = touch {flag}\n[pager]\n\tstatus = touch {flag}\n\tls-tree = touch {flag}\n",
    "an external diff": "[diff]\n\texternal = touch {flag}\n",
    "a transport": "[core]\n\tsshCommand = touch {flag}\n\tgitProxy = touch {flag}\n",
    "a credential helper": "[credential]\n\thelper = \"!touch {flag}\"\n",
    "an alias": "[alias]\n\tstatus = \"!touch {flag}\"\n\tls-tree = \"!touch {flag}\"\n",
    "a folder of hooks": "[core]\n\thooksPath = {hooks}\n",
    "a signature program": "[gpg]\n\tprogram = touch {flag}\n[log]\n\tshowSignature = true\n",
    "a remote that promises": "[remote \"origin\"]\n\turl = \"ext::sh -c touch% {flag}\"\n\tpromisor = true\n"
    "[protocol \"ext\"]\n\tallow = always\n[extensions]\n\tpartialClone = origin\n",
    "a file included": "[include]\n\tpath = {included}\n",
}


WHO = ["-c", "user.name=v", "-c", "user.email=v@example.invalid", "-c", "commit.gpgsign=false"]


def git(root: Path, *arguments: str) -> None:
    subprocess.run(["git", *arguments], cwd=root, check=True, capture_output=True)


def trap(tmp_path: Path, name: str) -> tuple[Path, Path]:
    """Return a repository whose config names a command, and the flag that the command would raise."""
    root, flag, hooks, included = (tmp_path / part for part in ("book", "flag", "hooks", "included"))
    record = root / "tires/t-1.yaml"
    record.parent.mkdir(parents=True)
    record.write_bytes(b"kind: tire\n")
    git(root, "init", "--quiet")
    git(root, "add", "--all")
    git(root, *WHO, "commit", "--quiet", "--message=x")
    driver = "a=b.c" if name == "a filter with an odd name" else "evil"
    (root / ".gitattributes").write_text(f"*.yaml filter={driver}\n")
    hooks.mkdir()
    for place in (hooks, root / ".git/hooks"):
        (place / "post-index-change").write_text(f"#!/bin/sh\ntouch {flag}\n")
        (place / "post-index-change").chmod(0o755)
    included.write_text(COMMANDS["a clean filter"].format(flag=flag))
    with (root / ".git/config").open("a") as config:
        config.write(COMMANDS[name].format(flag=flag, hooks=hooks, included=included))
    if name == "a remote that promises":
        lost = subprocess.check_output(["git", "hash-object", str(record)], cwd=tmp_path, text=True).strip()
        (root / ".git/objects" / lost[:2] / lost[2:]).unlink()
    os.utime(record, (1, 1))  # so that git must look into the file, through its filters
    return root, flag


@pytest.mark.parametrize("name", COMMANDS)
def test_no_command_of_a_repositorys_config_runs(name: str, tmp_path: Path) -> None:
    root, flag = trap(tmp_path, name)
    assert state_of(root).dirty is True  # .gitattributes is new
    entries = list(entries_at(root, "HEAD"))
    assert [entry.path for entry in entries] == ["tires/t-1.yaml"]
    assert not flag.exists()


@pytest.mark.parametrize("name", COMMANDS)
def test_no_command_runs_where_two_states_are_compared(name: str, tmp_path: Path) -> None:
    root, flag = trap(tmp_path, name)
    head = resolve(root, "HEAD")
    assert merge_base(root, head, head) == head
    assert authors_between(root, None, head, "tires/t-1.yaml") == ["v"]
    assert not flag.exists()


SPRUNG = [
    "a clean filter", "a required clean filter", "a filter process", "a filter with an odd name",
    "a file-system monitor", "a folder of hooks", "a remote that promises", "a file included",
]


@pytest.mark.parametrize("name", SPRUNG)
def test_the_trap_is_real_where_git_is_asked_without_care(name: str, tmp_path: Path) -> None:
    root, flag = trap(tmp_path, name)
    for asked in (["status"], ["cat-file", "-p", "HEAD:tires/t-1.yaml"]):
        subprocess.run(["git", *asked], cwd=root, check=False, capture_output=True)
    assert flag.exists()


def test_a_config_that_waits_for_ever_is_given_up(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    root = tmp_path / "book"
    root.mkdir()
    git(root, "init", "--quiet")
    os.mkfifo(tmp_path / "pipe")
    git(root, "config", "include.path", str(tmp_path / "pipe"))
    monkeypatch.setattr("axlebook.sources.git._SECONDS", 1)
    assert "not under version control" in state_of(root).reason


def test_a_work_tree_named_elsewhere_is_not_gone_to(tmp_path: Path) -> None:
    root = tmp_path / "book"
    root.mkdir()
    git(root, "init", "--quiet")
    git(root, "config", "core.worktree", "/")
    assert state_of(root)[:2] == (None, False)


def test_a_module_inside_is_not_asked(tmp_path: Path) -> None:
    flag, root, inner = tmp_path / "flag", tmp_path / "book", tmp_path / "book/tires"
    inner.mkdir(parents=True)
    for place in (root, inner):
        git(place, "init", "--quiet")
    (inner / "t-1.yaml").write_bytes(b"kind: tire\n")
    for place in (inner, root):
        git(place, "add", "--all")
        git(place, *WHO, "commit", "--quiet", "--message=x")
    (inner / ".gitattributes").write_text("*.yaml filter=evil\n")
    with (inner / ".git/config").open("a") as config:
        config.write(COMMANDS["a clean filter"].format(flag=flag))
    os.utime(inner / "t-1.yaml", (1, 1))
    state_of(root)
    assert not flag.exists()
