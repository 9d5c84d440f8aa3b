"""The hook, run by pre-commit itself in a scratch repository: it reads the whole ledger and shows what is committed."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
import yaml
from tests.checks.histories import change, commit, git
from tests.cli.commands import AT, THICK, THIN, TOP, small_ledger

PRE_COMMIT = (sys.executable, "-m", "pre_commit")


def hooks() -> list[dict[str, object]]:
    found: list[dict[str, object]] = yaml.safe_load((TOP / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))
    return found


def installed(root: Path, id: str) -> None:
    """Set up a hook as it ships, but with the axlebook of this very environment: no network is asked."""
    (hook,) = [dict(one) for one in hooks() if one["id"] == id]
    hook.update(language="system", entry=f"{sys.executable} -m axlebook check")
    config = {"repos": [{"repo": "local", "hooks": [hook]}]}
    (root / ".pre-commit-config.yaml").write_text(yaml.safe_dump(config), encoding="utf-8")


def run(root: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "PRE_COMMIT_HOME": str(root.parent / "home"), "PRE_COMMIT_COLOR": "never",
                   "GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_NOSYSTEM": "1"}  # fmt: skip
    return subprocess.run(
        [*PRE_COMMIT, "run", *arguments], cwd=root, env=environment, capture_output=True, text=True, check=False
    )


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    """A repository whose ledger, below its top, has one old record that is outside."""
    root = tmp_path / "repository"
    small_ledger(root, {AT: THIN})
    git(root, "init", "--quiet")
    commit(root)
    return root


def test_the_manifest_is_one_that_pre_commit_takes() -> None:
    manifest = str(TOP / ".pre-commit-hooks.yaml")
    done = subprocess.run([*PRE_COMMIT, "validate-manifest", manifest], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout


def test_what_was_wrong_before_does_not_stop_a_commit_of_something_else(repository: Path) -> None:
    installed(repository, "axlebook-check")
    (repository / "ledger/people/v9.yaml").write_text("kind: person\nrole: volunteer\n", encoding="utf-8")
    git(repository, "add", "ledger/people/v9.yaml")
    done = run(repository)
    assert done.returncode == 0, done.stdout


def test_a_record_that_is_outside_stops_its_commit_by_a_limit_in_a_file_that_is_not_committed(repository: Path) -> None:
    installed(repository, "axlebook-check")
    later = "ledger/inspections/2026/2026-02-20-e-1-annual.yaml"
    (repository / later).write_text(THIN.replace("2026-01-10", "2026-02-20"), encoding="utf-8")
    git(repository, "add", later)
    done = run(repository)
    assert done.returncode == 1
    assert "230.113" in done.stdout


def test_a_signed_record_that_is_edited_is_stopped_before_it_is_committed(repository: Path) -> None:
    (repository / "ledger" / AT).write_text(
        THICK + "signed:\n  signed_by: lead\n  signed_on: 2026-01-11\n", encoding="utf-8"
    )
    commit(repository)
    installed(repository, "axlebook-check")
    change(repository / "ledger", {AT: [["1 1/4 in", "1 3/8 in"]]})
    git(repository, "add", f"ledger/{AT}")
    done = run(repository)
    assert done.returncode == 1
    assert "signed-record-edited" in done.stdout
    assert "what is not committed yet" in " ".join(done.stdout.split())


def test_a_file_that_is_no_record_does_not_call_the_hook(repository: Path) -> None:
    installed(repository, "axlebook-check")
    (repository / "notes.yaml").write_text("a: b\n", encoding="utf-8")
    git(repository, "add", "notes.yaml")
    assert "Skipped" in run(repository).stdout


def test_the_whole_ledger_is_shown_by_the_other_hook(repository: Path) -> None:
    (hook,) = [one for one in hooks() if one["id"] == "axlebook-check-all"]
    assert (hook["pass_filenames"], hook["always_run"]) == (False, True)
    small = yaml.safe_dump({"repos": [{"repo": "local", "hooks": [
        {**hook, "language": "system", "entry": f"{sys.executable} -m axlebook check --ledger ledger"}]}]})  # fmt: skip
    (repository / ".pre-commit-config.yaml").write_text(small, encoding="utf-8")
    done = run(repository, "--all-files")
    assert done.returncode == 1
    assert "flange-thin" in done.stdout
