"""A new repository with a history of its own: for the demonstration and for tests, in a folder that has none.

Nothing is taken from the machine (no name, clock, config, template or hook), so that the same commits have the same
hashes everywhere. This is the only place where git is told to write, and never in a repository that was there before.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from pathlib import Path

from axlebook.sources.git import Repository, ask

MAIN = "main"
_NOON = time(12, tzinfo=UTC)


@dataclass(frozen=True)
class NewCommit:
    """One commit: who, when, why, and the files it writes (None: takes away)."""

    day: date
    author: str  # a role: "lead"
    message: str
    files: Mapping[str, bytes | None]
    branch: str = MAIN
    start: str = ""  # of a branch's first commit: the branch it leaves; '' begins anew
    merges: str = ""  # a branch that comes in; `files` then holds what it brings, for nothing is merged here
    tag: str = ""  # an annotated tag on it
    email: str = ""  # else one of the reserved kind, from the author

    @property
    def signature(self) -> str:
        """Who and when, as git writes it."""
        seconds = int(datetime.combine(self.day, _NOON).timestamp())
        return f"{self.author} <{self.email or f'{self.author}@example.invalid'}> {seconds} +0000"


def write_repository(folder: Path, commits: Iterable[NewCommit]) -> dict[str, str]:
    """Make a folder a repository with these commits, check out `main`, and return the hash of each branch.

    Raises
    ------
    FileExistsError
        The folder is a repository already.
    axlebook.sources.git.GitFailed
        Git is not installed, or refuses a commit.
    """
    if os.path.lexists(folder / ".git"):
        raise FileExistsError(f"{folder} is a repository already")
    folder.mkdir(parents=True, exist_ok=True)
    repository = Repository(folder / ".git", folder, "")
    ask(repository, "init", "--quiet", "--template=", "--object-format=sha1", f"--initial-branch={MAIN}")
    with tempfile.TemporaryFile() as stream:
        stream.writelines(_stream(commits))
        stream.seek(0)
        ask(repository, "fast-import", "--quiet", "--done", "--date-format=raw", istream=stream)
    ask(repository, "reset", "--quiet", "--hard", MAIN)
    told = ask(repository, "for-each-ref", "--format=%(refname:short) %(objectname)", "refs/heads").decode()
    return dict(line.split(" ") for line in told.splitlines())


def _stream(commits: Iterable[NewCommit]) -> Iterator[bytes]:
    """Commits as `git fast-import` reads them."""
    begun: set[str] = set()
    for number, commit in enumerate(commits, 1):
        branch = f"refs/heads/{commit.branch}"
        yield f"commit {branch}\nmark :{number}\n".encode()
        yield f"author {commit.signature}\ncommitter {commit.signature}\n".encode()
        yield _data(f"{commit.message.rstrip()}\n".encode())
        if commit.branch not in begun and commit.start:
            yield f"from refs/heads/{commit.start}\n".encode()
        if commit.merges:
            yield f"merge refs/heads/{commit.merges}\n".encode()
        begun.add(commit.branch)
        for path, content in sorted(commit.files.items()):
            named = _quoted(path)
            if content is None:
                yield f"D {named}\n".encode()
            else:
                yield f"M 100644 inline {named}\n".encode() + _data(content)
        yield b"\n"
        if commit.tag:
            yield f"tag {commit.tag}\nfrom :{number}\ntagger {commit.signature}\n".encode()
            yield _data(f"{commit.tag}\n".encode())
    yield b"done\n"


def _data(content: bytes) -> bytes:
    return f"data {len(content)}\n".encode() + content + b"\n"


def _quoted(path: str) -> str:
    return '"' + path.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n") + '"'
