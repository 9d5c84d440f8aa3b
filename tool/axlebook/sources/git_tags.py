"""What the tags of a repository tell of themselves: read, never verified, for that would run a program.

A tag that was moved leaves little behind: an annotated one carries its own name and day; a repository that logs its
tags (`core.logAllRefUpdates=always`) saw the move. A clone made afterwards knows nothing of it.
"""

from __future__ import annotations

import os
from datetime import date
from itertools import pairwise
from pathlib import Path

from axlebook.records.entered import Tag
from axlebook.sources.git import Repository, ask
from axlebook.sources.yaml_text import MAX_BYTES

_FORMAT = "%1f".join([
    "%(refname:strip=2)", "%(tag)", "%(objectname)", "%(*objectname)", "%(taggerdate:short)",
    "%(committerdate:short)%(*committerdate:short)", "%(if)%(contents:signature)%(then)signed%(end)",
])  # fmt: skip


def tags_of(repository: Repository, revision: str) -> tuple[Tag, ...]:
    """Return the tags of a repository, in the order of their names."""
    listed = ask(repository, "for-each-ref", f"--format={_FORMAT}", "refs/tags").decode("utf-8", "replace")
    lines = [line.split("\x1f") for line in listed.splitlines() if line.count("\x1f") == 6]
    if not lines:
        return ()
    merged = ask(repository, "for-each-ref", f"--merged={revision}", "--format=%(refname:strip=2)", "refs/tags")
    reachable = set(merged.decode("utf-8", "replace").splitlines())
    logs = _logs(repository)
    return tuple(_tag(line, reachable, logs) for line in lines)


def _tag(line: list[str], reachable: set[str], logs: Path | None) -> Tag:
    name, inner, own, inner_commit, made, commit_on, signature = line
    moved = _moves(logs, name) if logs else 0
    return Tag(name, inner, inner_commit or own, _day(made), _day(commit_on), moved, name in reachable, bool(signature))


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def _logs(repository: Repository) -> Path | None:
    """Return the folder of the tags' own logs; most repositories keep none."""
    common = Path(os.fsdecode(ask(repository, "rev-parse", "--git-common-dir").rstrip(b"\n")))
    folder = (common if common.is_absolute() else repository.top / common) / "logs" / "refs" / "tags"
    return folder if folder.is_dir() and not folder.is_symlink() else None


def _moves(logs: Path, name: str) -> int:
    """Return how often a tag was seen to move: the log has a line for each, the first of them its making."""
    place = logs / name
    if place.is_symlink() or not place.is_file():
        return 0
    with place.open("rb") as file:
        lines = file.read(MAX_BYTES).splitlines()
    named = [parts[1] for line in lines if len(parts := line.split(b" ", 2)) == 3]
    return sum(one != other for one, other in pairwise(named))
