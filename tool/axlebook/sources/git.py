"""The only module that reaches git: what a ledger asks of it. Read, never written.

A ledger is the top of a work tree, a folder in one, a linked work tree, or a bare clone given by its path
(`book.git`, or `book.git/folder` where the ledger is not at its top). Nothing that a repository's config names is
run (`git_settings.py`), and no object is ever fetched. Without git, or outside a repository, a ledger is only not
under version control.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator
from itertools import chain, islice, repeat
from pathlib import Path
from typing import IO, Any, NamedTuple

from axlebook.sources.git_settings import environment, without_the_callers_git
from axlebook.sources.refusals import Refusal, shown

NOT_INSTALLED = "the program git is not installed"
_SECONDS = 60  # a config that includes a pipe would hold git for ever
_LONGEST_REVISION = 200
_HASH = re.compile(r"[0-9a-f]{40}(?:[0-9a-f]{24})?")
_PLAIN_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._/-]{0,99}")


class Revision(NamedTuple):
    """Where a ledger stands in git. Outside git all but `reason` is empty, and `reason` says why."""

    commit: str | None
    dirty: bool | None  # None also in a bare clone: it has no files that could differ
    shallow: bool
    root: Path | None
    reason: str = ""
    bare: bool = False


class Repository(NamedTuple):
    """The repository of a ledger, and where the ledger is in it."""

    git_folder: Path
    work_tree: Path | None
    inside: str  # '' is the top

    @property
    def top(self) -> Path:
        """The folder that git is asked from."""
        return self.work_tree or self.git_folder


class Blob(NamedTuple):
    """One file of a commit: its path inside the ledger as written there, its mode, hash and size."""

    path: str
    mode: str
    hash: str
    size: int


class GitFailed(Exception):  # noqa: N818 - turned into a reason or a Refusal before it leaves this layer
    """Git is not there, or answered no."""


class GitMissing(GitFailed):
    """The program is not there to be asked."""


def state_of(ledger: Path) -> Revision:
    """Return the commit that a ledger stands at, and whether its files differ from it."""
    repository = find_repository(ledger)
    if repository is None:
        return Revision(None, None, False, None, "not under version control")
    try:
        commit = _commit(repository, "HEAD")
        shallow = ask(repository, "rev-parse", "--is-shallow-repository").strip() == b"true"
        dirty = None if repository.work_tree is None else _is_dirty(repository)
    except GitFailed as error:
        return Revision(None, None, False, None, f"not under version control ({error})")
    return Revision(commit, dirty, shallow, repository.top, "", repository.work_tree is None)


def resolve(ledger: Path, revision: str) -> str:
    """Return the full hash of the commit that `revision` names; raise Refusal where there is none."""
    repository = _require_repository(ledger)
    plain = revision.isprintable() and 0 < len(revision) <= _LONGEST_REVISION
    if not plain or revision.startswith("-"):
        raise _no_revision(revision)
    try:
        commit = _commit(repository, revision)
    except GitFailed as error:
        raise _not_in_git(str(error)) from None
    if commit is None:
        raise _no_revision(revision)
    return commit


def is_hash(revision: str) -> bool:
    """Return whether a revision is written as a full hash: such a one may be right and only not be here."""
    return _HASH.fullmatch(revision) is not None


def merge_base(ledger: Path, one: str, other: str) -> str | None:
    """Return the commit at which two commits (full hashes) parted; None where it is not here, or there is none."""
    try:
        return ask(_require_repository(ledger), "merge-base", one, other).split()[0].decode("ascii")
    except (GitFailed, IndexError):
        return None


def authors_between(ledger: Path, old: str | None, new: str, path: str) -> list[str]:
    """Return who committed to a file after one commit (None: ever) and up to another, the newest first, each once."""
    repository = _require_repository(ledger)
    within = new if old is None else f"{old}..{new}"
    full = f"{repository.inside}/{path}" if repository.inside else path
    try:
        told = ask(repository, "rev-list", "--format=%an", within, "--", full)
    except GitFailed:
        return []
    lines = told.decode("utf-8", "replace").splitlines()
    return list(dict.fromkeys(lines[1::2]))  # every other line is `commit` and a hash


def commits_of(ledger: Path, most: int) -> list[str]:
    """Return the last commits that changed something in a ledger, the newest first; none where git is not."""
    repository = find_repository(ledger)
    if repository is None:
        return []
    try:
        told = ask(repository, "rev-list", f"--max-count={most}", "HEAD", "--", repository.inside or ".")
    except GitFailed:
        return []
    return told.decode("ascii").split()


def blobs_at(ledger: Path, commit: str) -> list[Blob]:
    """Return every file that the ledger had at a commit (a full hash, from `resolve`), in git's order."""
    repository = _require_repository(ledger)
    try:
        tree = f"{commit}:{repository.inside}"
        listing = ask(repository, "ls-tree", "-r", "-l", "-z", "--end-of-options", tree)
    except GitFailed:
        raise Refusal(
            "no-ledger-there", f"There was no ledger here at {shown(commit[:12])}.", "Name a later commit."
        ) from None
    blobs = []
    for line in listing.split(b"\0")[:-1]:
        about, _, path = line.partition(b"\t")  # the size is no number for a module, or for a lost blob
        mode, _, name, size = about.split()
        known = int(size) if size.isdigit() else 0
        blobs.append(Blob(os.fsdecode(path), mode.decode(), name.decode(), known))
    return blobs


def read_blobs(ledger: Path, hashes: Iterable[str]) -> Iterator[bytes | None]:
    """Yield the content of each hash, in the order asked; None for one that this repository has not got."""
    import tempfile

    repository, wanted = _require_repository(ledger), list(hashes)
    # A file, not a pipe: git may answer as slowly or as fast as it likes, and neither waits for the other.
    with tempfile.TemporaryFile() as asked:
        asked.writelines(f"{name}\n".encode("ascii") for name in wanted)
        asked.seek(0)
        # GitPython ends the program when `answers` goes: also if nobody asks for the rest.
        answers = execute(repository, ("cat-file", "--batch"), {}, istream=asked, as_process=True)
        # In a partial clone git ends at the first that it may not fetch: of all that follow nothing is known.
        yield from islice(chain(_contents(answers.stdout), repeat(None)), len(wanted))


def names_of_commits(ledger: Path) -> list[str]:
    """Return the branches and tags of a ledger's repository that can be typed as they stand; none where git is not."""
    repository = find_repository(ledger)
    if repository is None:
        return []
    try:
        told = ask(repository, "for-each-ref", "--format=%(refname:short)", "refs/heads", "refs/tags")
    except GitFailed:
        return []
    return [name for name in told.decode("utf-8", "replace").splitlines() if _PLAIN_NAME.fullmatch(name)]


# --- git itself ---------------------------------------------------------------------------------------------


def find_repository(ledger: Path) -> Repository | None:
    """Return the nearest repository from a ledger upward: a work tree, or a folder that is itself a repository."""
    here = Path(os.path.realpath(ledger))
    for folder in (here, *here.parents):
        inside = "" if folder == here else here.relative_to(folder).as_posix()
        if os.path.exists(folder / ".git"):
            return Repository(folder / ".git", folder, inside)
        if is_bare(folder):
            return Repository(folder, None, inside)
    return None


def is_bare(folder: Path) -> bool:
    """Return whether a folder is a repository without a work tree, as git itself tells one."""
    return os.path.isfile(folder / "HEAD") and all(os.path.isdir(folder / name) for name in ("objects", "refs"))


def has_commit(repository: Repository) -> bool:
    """Return whether anything is committed where a repository stands."""
    return _commit(repository, "HEAD") is not None


def _require_repository(ledger: Path) -> Repository:
    repository = find_repository(ledger)
    if repository is None:
        raise _not_in_git("there is no repository here or above")
    return repository


def _is_dirty(repository: Repository) -> bool:
    return bool(ask(
        repository, "status", "--porcelain", "-z", "--untracked-files=normal", "--no-renames",
        "--ignore-submodules=all", "--", repository.inside or ".", settings=_without_filters(repository),
    ))  # fmt: skip


def _commit(repository: Repository, revision: str) -> str | None:
    try:
        answer = ask(repository, "rev-parse", "--verify", "--quiet", "--end-of-options", revision + "^{commit}")
    except GitFailed as error:
        if str(error):
            raise
        return None  # --quiet: git had no such commit, and nothing else to say
    found = answer.decode("ascii").split()[-1]
    return found if is_hash(found) else None  # `^main` is a commit to leave out, not one to read


def _without_filters(repository: Repository) -> dict[str, str]:
    """Return settings that empty every filter the repository's config names: git runs no empty command."""
    listed = ask(repository, "config", "--list", "--name-only", "-z").decode("utf-8", "surrogateescape")
    filters = [key for key in listed.split("\0") if key.startswith("filter.")]
    return {key: "false" if key.endswith(".required") else "" for key in filters}


def ask(repository: Repository, *arguments: str, settings: dict[str, str] | None = None, **how: Any) -> bytes:
    """Return what git answers; raise GitFailed with its complaint where it answers no."""
    status, answer, complaint = execute(
        repository, arguments, settings or {}, stdout_as_string=False, with_extended_output=True,
        with_exceptions=False, strip_newline_in_stdout=False,
        kill_after_timeout=_SECONDS if os.name != "nt" else None, **how,
    )  # fmt: skip
    if status:
        raise GitFailed(shown(str(complaint).strip()))
    return bytes(answer)


def execute(repository: Repository, arguments: tuple[str, ...], settings: dict[str, str], **how: Any) -> Any:
    """Run one of git's own programs, told what `git_settings` says; what comes back is GitPython's."""
    try:
        from git import Git, GitCommandNotFound  # slow, and it looks for the program: only where git is asked
    except ImportError:
        raise GitMissing(NOT_INSTALLED) from None
    told = environment(repository.git_folder, repository.work_tree, settings)
    try:
        with without_the_callers_git():
            return Git(str(repository.top)).execute(["git", "--no-pager", *arguments], env=told, **how)
    except GitCommandNotFound:
        raise GitMissing(NOT_INSTALLED) from None


def _contents(answers: IO[bytes]) -> Iterator[bytes | None]:
    while header := answers.readline():
        name_type_size = header.split()
        if len(name_type_size) != 3:
            yield None
            continue
        content = answers.read(int(name_type_size[2]))
        answers.read(1)
        yield content


def _no_revision(revision: str) -> Refusal:
    return Refusal(
        "no-revision",
        f"Git knows no commit `{shown(revision)}`.",
        "Name a commit, a tag or a branch, as `git log` shows them.",
    )


def _not_in_git(why: str) -> Refusal:
    return Refusal(
        "not-in-git",
        f"The ledger is not under version control ({why}).",
        "Run this inside a git checkout, or leave the revision away.",
    )
