"""The demonstration ledger as a git repository: its sessions as commits, and a branch that waits for review."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path

from axlebook.practice.replay import replay
from axlebook.practice.written import Written
from axlebook.records import fields

from .new_repository import MAIN, NewCommit, write_repository
from .yaml_text import read_tree

BRANCH = "re-tiring-d-1"
BRANCH_FILES = Path(__file__).resolve().parent.parent / "practice" / "branch"
MAIL = "mossgate.invalid"


def write_demo_repository(target: Path, files: Mapping[str, bytes], records: Mapping[str, Written]) -> None:
    """Make `target` a repository that holds these files, entered session by session, and the branch.

    Raises
    ------
    axlebook.sources.git.GitFailed
        Git is not installed, or refuses.
    """
    closed_on = date.fromisoformat(str(read_tree(files["ledger.yaml"])["closed_on"]))
    others = tuple(path for path in files if path not in records)
    main = (
        NewCommit(
            session.day,
            session.author,
            session.message,
            {path: files[path] for path in session.paths},
            tag=session.tag,
            email=f"{session.author}@{MAIL}",
        )
        for session in replay(records, others, closed_on)
    )
    write_repository(target, [*main, *_waiting()])


def _waiting() -> Iterator[NewCommit]:
    """The commits of the branch: this winter's work on d-1, with one slip in it to be found in review."""
    for place in sorted(BRANCH_FILES.rglob("*.yaml")):
        content, path = place.read_bytes(), place.relative_to(BRANCH_FILES).as_posix()
        tree = read_tree(content)
        author = fields.texts(tree, "by")[0]
        yield NewCommit(
            date.fromisoformat(str(tree["measured_on"])),
            author,
            f"Enter {place.stem}",
            {path: content},
            branch=BRANCH,
            start=MAIN,
            email=f"{author}@{MAIL}",
        )
