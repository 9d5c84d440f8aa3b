"""`check` in a repository: the history is read where there is one, and left out where that is asked for."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.checks.histories import change, commit, git
from tests.cli.commands import AT, THICK, call, promised, small_ledger

SIGNED = THICK + "signed:\n  signed_by: lead\n  signed_on: 2026-01-11\n"
OTHER = {AT: [["1 1/4 in", "1 3/8 in"]]}


@pytest.fixture
def ledger(tmp_path: Path) -> Path:
    """A ledger in a folder below the top of its repository, with a signed record that was edited."""
    root = small_ledger(tmp_path, {AT: SIGNED})
    git(tmp_path, "init", "--quiet")
    commit(tmp_path)
    change(root, OTHER)
    commit(tmp_path, on="2026-02-02", by="v1")
    return root


def checks(root: Path, *arguments: str) -> set[str]:
    told = promised(call("check", "--format", "json", *arguments, at=root).out)
    return {finding["check"] for finding in told["findings"]}


def test_a_signed_record_that_was_edited_fails_the_check(ledger: Path) -> None:
    called = call("check", "--all", at=ledger)
    assert called.code == 1
    assert "was 1 1/4 in, now 1 3/8 in" in " ".join(called.out.split())


def test_without_history_nothing_of_it_is_said(ledger: Path) -> None:
    assert "signed-record-edited" in checks(ledger)
    assert "signed-record-edited" not in checks(ledger, "--no-history")


def test_status_fails_as_check_does(ledger: Path) -> None:
    assert call("status", at=ledger).code == call("check", at=ledger).code == 1


def test_outside_git_the_rest_works(tmp_path: Path) -> None:
    root = small_ledger(tmp_path, {AT: SIGNED})
    assert "signed-record-edited" not in checks(root)


def test_a_path_filters_what_the_history_tells_too(ledger: Path) -> None:
    assert call("check", "tires", at=ledger).code == 0
    assert call("check", "inspections", at=ledger).code == 1


def test_in_a_shallow_clone_what_came_before_is_not_held_against_a_record(ledger: Path, tmp_path: Path) -> None:
    git(tmp_path, "clone", "--quiet", "--depth=1", tmp_path.as_uri(), "shallow")
    assert not checks(tmp_path / "shallow" / "ledger") & {"signed-record-edited", "entered-late", "author-not-reader"}


def test_in_a_linked_work_tree_the_history_is_the_same(ledger: Path, tmp_path: Path) -> None:
    git(tmp_path, "worktree", "add", "--quiet", "linked")
    assert "signed-record-edited" in checks(tmp_path / "linked" / "ledger")


def test_in_a_hook_of_another_repository_its_own_history_is_read(
    ledger: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("GIT_DIR", str(tmp_path / "nowhere"))
    monkeypatch.setenv("GIT_INDEX_FILE", "nowhere")
    assert "signed-record-edited" in checks(ledger)


def test_a_repository_without_a_commit_has_no_history(tmp_path: Path) -> None:
    root = small_ledger(tmp_path, {AT: SIGNED})
    git(root, "init", "--quiet")
    assert call("check", at=root).code == 0


def test_a_hostile_config_runs_nothing(ledger: Path, tmp_path: Path) -> None:
    ran = tmp_path / "ran"
    command = f"touch {ran}"
    for key in ("core.fsmonitor", "core.pager", "gpg.program", "gpg.ssh.program", "diff.external", "core.sshCommand",
                "diff.yaml.textconv", "diff.yaml.command", "filter.evil.smudge", "filter.evil.clean",
                "filter.evil.process", "core.alternateRefsCommand", "alias.log", "interactive.diffFilter"):  # fmt: skip
        git(tmp_path, "config", key, command)
    git(tmp_path, "config", "log.showSignature", "true")
    git(tmp_path, "config", "diff.orderFile", str(tmp_path / "none"))
    (tmp_path / ".gitattributes").write_text("*.yaml diff=yaml filter=evil\n")
    assert "signed-record-edited" in checks(ledger)
    assert not ran.exists()


def test_sarif_and_annotations_come_from_the_command(ledger: Path) -> None:
    called = call("check", "ledger", "--format", "sarif", at=ledger.parent)
    assert called.code == 1
    (run,) = json.loads(called.out)["runs"]
    uris = {r["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] for r in run["results"]}
    assert f"ledger/{AT}" in uris
    assert run["properties"]["revision"] == git(ledger, "rev-parse", "HEAD")
    told = call("check", "ledger", "--format", "github", at=ledger.parent)
    assert told.code == 1
    assert f"::error file=ledger/{AT},line=12,col=14,title=signed-record-edited::" in told.out


NEXT = {"shallow": "git fetch --unshallow", "partial": "Look at a whole clone"}


@pytest.mark.parametrize("command", [["check"], ["check", "--all"], ["check", "inspections"], ["status"],
                                     ["check", "--format", "github"], ["check", "--at", "HEAD"]],
                         ids=" ".join)  # fmt: skip
@pytest.mark.parametrize(("how", "option"), [("shallow", "--depth=1"), ("partial", "--filter=blob:none")])
def test_a_clone_that_lacks_a_part_of_the_history_says_so_first(
    ledger: Path, tmp_path: Path, how: str, option: str, command: list[str]
) -> None:
    git(tmp_path, "config", "uploadpack.allowFilter", "true")
    git(tmp_path, "clone", "--quiet", option, tmp_path.as_uri(), how)
    called = call(*command, at=tmp_path / how / "ledger")
    assert called.code == 0
    told = " ".join(called.out.split())
    assert "Not looked at: the whole history" in told
    assert NEXT[how] in told


def test_the_annual_summary_of_a_shallow_clone_says_so_too(ledger: Path, tmp_path: Path) -> None:
    git(tmp_path, "clone", "--quiet", "--depth=1", tmp_path.as_uri(), "shallow")
    told = call("annual", "e-1", "2026", "--format", "markdown", at=tmp_path / "shallow" / "ledger").out
    assert "not all of the history could be looked at: this clone is shallow" in told


def test_grafts_and_replaced_commits_hide_nothing(ledger: Path) -> None:
    top = ledger.parent
    (top / ".git" / "info").mkdir(exist_ok=True)
    (top / ".git" / "info" / "grafts").write_text(git(top, "rev-parse", "HEAD") + "\n")
    assert "signed-record-edited" in checks(ledger)


def test_where_git_is_not_on_the_path_it_says_that_no_history_was_looked_at(
    ledger: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PATH", str(ledger))
    told = " ".join(call("check", at=ledger).out.split())
    assert "Not looked at: the whole history; the program git is not installed." in told


def test_strictly_a_cut_history_is_not_let_pass(ledger: Path, tmp_path: Path) -> None:
    git(tmp_path, "clone", "--quiet", "--depth=1", tmp_path.as_uri(), "shallow")
    assert "history-cut" in checks(tmp_path / "shallow" / "ledger")


@pytest.mark.parametrize("arguments", [["check"], ["status"], ["check", "--no-history"]], ids=" ".join)
def test_a_whole_history_and_a_plain_folder_say_nothing_of_it(
    ledger: Path, tmp_path: Path, arguments: list[str]
) -> None:
    assert "Not looked at" not in call(*arguments, at=ledger).out
    plain = small_ledger(tmp_path / "plain")
    assert "Not looked at" not in call("check", at=plain).out
