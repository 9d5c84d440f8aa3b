"""Real repositories for tests, made with git itself, as a shop would."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

from tests.cli.commands import small_ledger

WHO = ["-c", "user.name=lead", "-c", "user.email=lead@example.invalid", "-c", "commit.gpgsign=false"]
QUIET = {"GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_SYSTEM": os.devnull}


def git(root: Path, *arguments: str) -> str:
    """What git answers, asked in a folder."""
    own = {key: value for key, value in os.environ.items() if not key.startswith("GIT_")}
    done = subprocess.run(
        ["git", *WHO, *arguments], cwd=root, check=True, capture_output=True, text=True, env={**own, **QUIET}
    )
    return done.stdout.strip()


def commit(root: Path, message: str = "a day's work") -> str:
    """Commit all there is; give the hash."""
    git(root, "add", "--all")
    git(root, "commit", "--quiet", "--allow-empty", "--message", message)
    return git(root, "rev-parse", "HEAD")


def small_repository(folder: Path, files: dict[str, str] | None = None) -> Path:
    """The one-engine ledger as the top of a repository with one commit on `main`."""
    folder.mkdir(parents=True, exist_ok=True)
    root = small_ledger(folder, files)
    git(root, "init", "--quiet", "--initial-branch=main")
    commit(root, "the book as it was")
    return root


def written(root: Path, files: dict[str, str | None]) -> None:
    """Write files of a ledger; None takes one away."""
    for path, text in files.items():
        if text is None:
            (root / path).unlink()
            continue
        (root / path).parent.mkdir(parents=True, exist_ok=True)
        (root / path).write_text(text, encoding="utf-8")
