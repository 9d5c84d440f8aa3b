"""A ledger with a history: the steps of a case are taken with git itself, in a repository of their own.

history:                    # what the case's ledger holds is committed first, on 2019-01-01 by lead
- on: 2026-01-12            # the author's day
  by: v1                    # the author; default lead
  ledger: {path: text, other: ~}        # files written or taken away
  change: {path: [[old, new]]}          # words of files put otherwise
  git: [[tag, -f, name]]    # optional: git commands after the commit; `@` stands for the last commit
- not_committed: yes        # what is only on the disk
  change: ...
"""

from __future__ import annotations

import os
import subprocess
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from axlebook.run import Outcome, run_folder
from axlebook.sources.names import Entry

BEGUN = "2019-01-01"
SETTINGS = ("commit.gpgsign=false", "tag.gpgsign=false", "core.autocrlf=false", "gc.auto=0", "init.defaultBranch=main")


def git(root: Path, *arguments: str, on: str = BEGUN, by: str = "lead") -> str:
    """Run git as somebody, on a day, untouched by what the machine or its user has set."""
    moment = f"{on}T12:00:00+00:00"
    environment = {
        "PATH": os.environ["PATH"],
        "HOME": str(root),
        "GIT_CONFIG_NOSYSTEM": "1",
        "GIT_CONFIG_GLOBAL": os.devnull,
        "GIT_AUTHOR_NAME": by,
        "GIT_AUTHOR_EMAIL": f"{by.replace(' ', '.')}@example.invalid",
        "GIT_COMMITTER_NAME": by,
        "GIT_COMMITTER_EMAIL": f"{by.replace(' ', '.')}@example.invalid",
        "GIT_AUTHOR_DATE": moment,
        "GIT_COMMITTER_DATE": moment,
    }
    settings = [word for setting in SETTINGS for word in ("-c", setting)]
    done = subprocess.run(
        ["git", *settings, *arguments], cwd=root, env=environment, check=True, capture_output=True, text=True
    )
    return done.stdout.strip()


def commit(root: Path, *, on: str = BEGUN, by: str = "lead", message: str = "day's work") -> str:
    """Commit all that stands in a folder."""
    git(root, "add", "--all")
    git(root, "commit", "--quiet", "--allow-empty", "--message", message, on=on, by=by)
    return git(root, "rev-parse", "HEAD")


def write(root: Path, files: dict[str, Any]) -> None:
    """Write texts into a folder; nothing (`~`) takes a file away."""
    for name, text in files.items():
        path = root / name
        if text in (None, "", "~"):
            path.unlink()
            continue
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="")


def change(root: Path, changes: dict[str, list[list[str]]]) -> None:
    """Put some words of files otherwise, each standing there once."""
    for name, pairs in changes.items():
        text = (root / name).read_text(encoding="utf-8")
        for old, new in pairs:
            assert text.count(old) == 1, f"{name}: {old!r} stands there {text.count(old)} times"
            text = text.replace(old, new)
        (root / name).write_text(text, encoding="utf-8", newline="")


def take(root: Path, steps: list[dict[str, Any]]) -> None:
    """Take the steps of a history."""
    for step in steps:
        write(root, step.get("ledger") or {})
        change(root, step.get("change") or {})
        on, by = step.get("on", BEGUN), step.get("by", "lead")
        if "not_committed" not in step:
            commit(root, on=on, by=by)
        for words in step.get("git") or []:
            git(root, *words, on=on, by=by)


def begin(root: Path, found: list[Entry]) -> None:
    """Begin a repository with a ledger in it."""
    git(root, "init", "--quiet")
    for entry in found:
        path = root / entry.path
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(entry.content or b"")
    commit(root)


def run_with_history(found: list[Entry], steps: list[dict[str, Any]], as_of: date | None, today: date) -> Outcome:
    """Run over a ledger that has a history."""
    with TemporaryDirectory() as folder:
        root = Path(folder)
        begin(root, found)
        take(root, steps)
        return run_folder(root, as_of=as_of, today=today, with_history=True)
