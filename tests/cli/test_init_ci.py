"""`init --ci`: what lets a code host check a ledger, written once and never over anything."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import yaml
from tests.checks.histories import commit, git
from tests.cli.commands import AT, THIN, call, promised, small_ledger

FILES = (".github/workflows/ledger.yml", ".github/pull_request_template.md", ".github/ISSUE_TEMPLATE/readings.yml")


def workflow(top: Path) -> dict[Any, Any]:
    found: dict[Any, Any] = yaml.safe_load((top / FILES[0]).read_text(encoding="utf-8"))
    return found


def test_a_new_ledger_gets_all_three_and_still_checks_clean(tmp_path: Path) -> None:
    called = call("init", "mine", "--ci", at=tmp_path)
    assert called.code == 0
    assert all((tmp_path / "mine" / path).is_file() for path in FILES)
    assert workflow(tmp_path / "mine")["env"]["LEDGER"] == "."
    assert call("check", "mine", at=tmp_path).code == 0


def test_in_a_repository_they_stand_at_its_top_and_name_the_ledgers_folder(tmp_path: Path) -> None:
    git(tmp_path, "init", "--quiet")
    (tmp_path / "books").mkdir()
    assert call("init", "books/our wheels", "--ci", at=tmp_path).code == 0
    assert workflow(tmp_path)["env"]["LEDGER"] == "books/our wheels"
    assert not (tmp_path / "books" / "our wheels" / ".github").exists()


def test_a_ledger_that_is_there_gets_only_them_and_what_stands_there_is_left(tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    own = root / FILES[1]
    own.parent.mkdir()
    own.write_text("our own\n")
    before = {path for path in root.rglob("*") if ".github" not in path.parts}
    called = call("init", "ledger", "--ci", at=tmp_path)
    assert called.code == 0
    assert f"Left as it is: {FILES[1]}." in called.out
    assert own.read_text() == "our own\n"
    assert {path for path in root.rglob("*") if ".github" not in path.parts} == before
    assert "Written to" not in call("init", "ledger", "--ci", at=tmp_path).out


def test_without_the_flag_a_ledger_that_is_there_is_refused_as_before(tmp_path: Path) -> None:
    small_ledger(tmp_path)
    assert call("init", "ledger", at=tmp_path).code == 2


def test_json_counts_the_files_too(tmp_path: Path) -> None:
    bare = promised(call("init", "a", "--format", "json", at=tmp_path).out)["result"]["files"]
    assert promised(call("init", "b", "--ci", "--format", "json", at=tmp_path).out)["result"]["files"] == bare + 3


def test_the_workflow_may_write_nothing_and_puts_no_text_of_a_change_into_a_command(tmp_path: Path) -> None:
    call("init", "mine", "--ci", at=tmp_path)
    told = workflow(tmp_path / "mine")
    assert told["permissions"] == {"contents": "read"}
    assert set(told[True]) == {"push", "pull_request"}  # YAML 1.1 reads `on` as a yes
    steps = told["jobs"]["check"]["steps"]
    assert not [step for step in steps if "${{" in step.get("run", "")]
    assert steps[0]["with"] == {"fetch-depth": 0, "persist-credentials": False}


def test_the_form_asks_for_what_a_reading_must_tell(tmp_path: Path) -> None:
    call("init", "mine", "--ci", at=tmp_path)
    form = yaml.safe_load((tmp_path / "mine" / FILES[2]).read_text(encoding="utf-8"))
    asked = {field["id"] for field in form["body"] if "id" in field}
    assert {"engine", "measured", "people", "instruments", "held", "temperatures", "readings", "left-out"} <= asked
    required = {field["id"] for field in form["body"] if field.get("validations", {}).get("required")}
    assert required == {"engine", "measured", "people", "readings"}


@pytest.mark.parametrize("name", ["check", "compare"])
def test_the_commands_of_the_workflow_run_as_they_are_written(tmp_path: Path, name: str) -> None:
    root = small_ledger(tmp_path)
    git(tmp_path, "init", "--quiet")
    base = commit(tmp_path)
    call("init", "ledger", "--ci", at=tmp_path)
    (root / AT).parent.mkdir(parents=True, exist_ok=True)
    (root / AT).write_text(THIN, encoding="utf-8")
    commit(tmp_path, on="2026-01-12")
    (step,) = [s["run"] for s in workflow(tmp_path)["jobs"]["check"]["steps"] if f"axlebook {name}" in s.get("run", "")]
    summary = str(tmp_path / "summary.md")
    done = _typed(tmp_path, step, {"BASE": base, "LEDGER": "ledger", "GITHUB_STEP_SUMMARY": summary})
    if name == "check":
        assert done.returncode == 1, done.stderr
        assert f"::error file=ledger/{AT}," in done.stdout
    else:
        assert done.returncode == 0, done.stderr
        assert "15/16 in" in (tmp_path / "summary.md").read_text(encoding="utf-8")


def _typed(top: Path, step: str, told: dict[str, str]) -> subprocess.CompletedProcess[str]:
    """Run a step of the workflow as a code host does, with this axlebook."""
    (top / "bin").mkdir()
    (top / "bin" / "axlebook").write_text(f'#!/bin/sh\nexec "{sys.executable}" -m axlebook "$@"\n')
    (top / "bin" / "axlebook").chmod(0o755)
    environment = {**os.environ, "PATH": f"{top / 'bin'}{os.pathsep}{os.environ['PATH']}", **told}
    return subprocess.run(["bash", "-ec", step], cwd=top, env=environment, capture_output=True, text=True, check=False)


def test_a_name_that_needs_quotes_is_kept(tmp_path: Path) -> None:
    git(tmp_path, "init", "--quiet")
    name = 'our "wheels"'
    assert call("init", name, "--ci", at=tmp_path).code == 0
    assert workflow(tmp_path)["env"]["LEDGER"] == name
    assert json.dumps(name)[1:-1] in (tmp_path / FILES[0]).read_text(encoding="utf-8")


def test_where_all_stand_there_already_none_is_written_and_that_keeps_the_promise(tmp_path: Path) -> None:
    call("init", "mine", "--ci", at=tmp_path)
    assert promised(call("init", "mine", "--ci", "--format", "json", at=tmp_path).out)["result"]["files"] == 0


def test_publishing_is_off_until_it_is_switched_on_and_only_that_job_may_write(tmp_path: Path) -> None:
    printed = call("init", "mine", "--ci", at=tmp_path).out
    assert "It can publish the book as pages. That is off" in printed
    told = workflow(tmp_path / "mine")
    job = told["jobs"]["pages"]
    assert set(told["jobs"]) == {"check", "pages"}
    assert job["if"] == "${{ vars.AXLEBOOK_PAGES == 'yes' && github.event_name == 'push' }}"
    assert job["permissions"] == {"contents": "read", "pages": "write", "id-token": "write"}
    assert job["environment"] == "github-pages"
    assert job["steps"][0]["with"] == {"fetch-depth": 0, "persist-credentials": False}
    assert not [step for step in job["steps"] if "${{" in step.get("run", "")]
    uploaded = next(s for s in job["steps"] if s.get("uses", "").startswith("actions/upload-pages-artifact@"))
    assert uploaded["with"] == {"path": "${{ runner.temp }}/pages"}
    assert job["steps"][-1]["uses"].startswith("actions/deploy-pages@")


def test_the_pages_are_written_where_the_workflow_takes_them_from_outside_the_checkout(tmp_path: Path) -> None:
    small_ledger(tmp_path)
    call("init", "ledger", "--ci", at=tmp_path)
    steps = workflow(tmp_path / "ledger")["jobs"]["pages"]["steps"]
    (step,) = [s["run"] for s in steps if "axlebook pages" in s.get("run", "")]
    done = _typed(tmp_path, step, {"LEDGER": "ledger", "RUNNER_TEMP": str(tmp_path / "room")})
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "room" / "pages" / "index.html").is_file()


def test_nothing_is_said_of_pages_where_a_workflow_stands_there_already(tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    (root / FILES[0]).parent.mkdir(parents=True)
    (root / FILES[0]).write_text("name: our own\n", encoding="utf-8")
    assert "publish" not in call("init", "ledger", "--ci", at=tmp_path).out
