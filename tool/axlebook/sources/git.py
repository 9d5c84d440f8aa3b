"""The only module that reaches git: read, never written, and nothing that a repository's config names is run.

A ledger may come from a stranger. Its `.git/config` can name commands (filters, a file-system monitor, hooks,
a pager, a transport); all are switched off, git's own files of the machine and the user are not read, and no
object is ever fetched. Without git, or outside a repository, a ledger is only not under version control.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import IO, Any, NamedTuple

from axlebook.sources import names
from axlebook.sources.names import Entry
from axlebook.sources.refusals import Refusal, shown, too_large
from axlebook.sources.yaml_text import MAX_BYTES

_SECONDS = 60  # a config that includes a pipe would hold git for ever
_LONGEST_REVISION = 200

_SETTINGS = {
    "core.fsmonitor": "false",
    "core.untrackedCache": "false",
    "core.hooksPath": os.devnull,
    "core.attributesFile": os.devnull,
    "core.excludesFile": os.devnull,
    "core.pager": "cat",
    "core.sshCommand": "false",
    "credential.helper": "",
    "diff.external": "",
    "protocol.allow": "never",
    "status.submoduleSummary": "false",
}
_ENVIRONMENT = {
    "GIT_CONFIG_NOSYSTEM": "1",
    "GIT_CONFIG_SYSTEM": os.devnull,
    "GIT_CONFIG_GLOBAL": os.devnull,
    "GIT_CONFIG_PARAMETERS": "",
    "GIT_ATTR_NOSYSTEM": "1",
    "GIT_TERMINAL_PROMPT": "0",
    "GIT_OPTIONAL_LOCKS": "0",
    "GIT_NO_REPLACE_OBJECTS": "1",
    "GIT_NO_LAZY_FETCH": "1",
    "GIT_ALLOW_PROTOCOL": "none",
    "GIT_LITERAL_PATHSPECS": "1",
    "GIT_EXTERNAL_DIFF": "",
    "GIT_PAGER": "cat",
    "GIT_ASKPASS": "",
    "SSH_ASKPASS": "",
}


class Revision(NamedTuple):
    """Where a ledger stands in git. Outside git all but `reason` is empty, and `reason` says why."""

    commit: str | None
    dirty: bool | None
    shallow: bool
    root: Path | None
    reason: str = ""


class Blob(NamedTuple):
    """One file of a commit: its path inside the ledger as written there, its mode, hash and size."""

    path: str
    mode: str
    hash: str
    size: int


class _Failed(Exception):  # noqa: N818 - turned into a reason or a Refusal before it leaves this module
    """Git is not there, or answered no."""


def state_of(ledger: Path) -> Revision:
    """Return the commit that a ledger stands at, and whether its files differ from it."""
    root = _find_root(ledger)
    if root is None:
        return Revision(None, None, False, None, "not under version control")
    try:
        commit = _commit(root, "HEAD")
        shallow = _ask(root, "rev-parse", "--is-shallow-repository").strip() == b"true"
        changed = _ask(
            root, "status", "--porcelain", "-z", "--untracked-files=normal", "--no-renames",
            "--ignore-submodules=all", "--", _inside(root, ledger) or ".", settings=_without_filters(root),
        )
    except _Failed as error:
        return Revision(None, None, False, None, f"not under version control ({error})")
    return Revision(commit, bool(changed), shallow, root)


def resolve(ledger: Path, revision: str) -> str:
    """Return the full hash of the commit that `revision` names; raise Refusal where there is none."""
    root = _require_root(ledger)
    plain = revision.isprintable() and 0 < len(revision) <= _LONGEST_REVISION
    if not plain or revision.startswith("-"):
        raise _no_revision(revision)
    try:
        commit = _commit(root, revision)
    except _Failed as error:
        raise _not_in_git(str(error)) from None
    if commit is None:
        raise _no_revision(revision)
    return commit


def blobs_at(ledger: Path, commit: str) -> list[Blob]:
    """Return every file that the ledger had at a commit (a full hash, from `resolve`), in git's order."""
    root = _require_root(ledger)
    try:
        tree = f"{commit}:{_inside(root, ledger)}"
        listing = _ask(root, "ls-tree", "-r", "-l", "-z", "--end-of-options", tree)
    except _Failed:
        raise Refusal("no-ledger-there", f"There was no ledger here at {shown(commit[:12])}.",
                      "Name a later commit.") from None
    blobs = []
    for line in listing.split(b"\0")[:-1]:
        about, _, path = line.partition(b"\t")  # the size is no number for a module, or for a lost blob
        mode, _, name, size = about.split()
        known = int(size) if size.isdigit() else 0
        blobs.append(Blob(os.fsdecode(path), mode.decode(), name.decode(), known))
    return blobs


def read_blobs(ledger: Path, hashes: Iterable[str]) -> Iterator[bytes | None]:
    """Yield the content of each hash, in the order asked; None for one that this repository has not got."""
    root = _require_root(ledger)
    # A file, not a pipe: git may answer as slowly or as fast as it likes, and neither waits for the other.
    with tempfile.TemporaryFile() as asked:
        asked.writelines(f"{name}\n".encode("ascii") for name in hashes)
        asked.seek(0)
        # GitPython ends the program when `answers` goes: also if nobody asks for the rest.
        answers = _execute(root, ("cat-file", "--batch"), {}, istream=asked, as_process=True)
        yield from _contents(answers.stdout)


def entries_at(ledger: Path, revision: str, *, max_bytes: int = MAX_BYTES) -> Iterator[Entry]:
    """Yield the records of a ledger at a revision, as `read_folder` yields those on disk."""
    blobs = [(blob, *_judged(blob, max_bytes)) for blob in blobs_at(ledger, resolve(ledger, revision))
             if _is_record_place(blob.path)]
    seen: dict[str, str] = {}
    contents = read_blobs(ledger, [blob.hash for blob, readable, _ in blobs if readable])
    for blob, readable, problem in blobs:
        path = shown_path(blob.path)
        content = next(contents) if readable else None
        if readable and content is None:
            problem = Refusal("unreadable", "Git has not got the content of this file here.",
                              "Fetch the whole history, or look whether the disk is well.")
        yield Entry(path, content, names.twin_problem(path, seen) or problem)


def shown_path(path: str) -> str:
    """Return a path fit to print, each of its names by itself."""
    return path if path.isprintable() else "/".join(shown(name) for name in path.split("/"))


# --- which files of a commit are records --------------------------------------------------------------------


def _is_record_place(path: str) -> bool:
    folder, _, rest = path.partition("/")
    if not rest:
        return path == names.LEDGER
    return folder in names.FOLDERS and not any(names.is_ignored(name) for name in rest.split("/"))


def _judged(blob: Blob, max_bytes: int) -> tuple[bool, Refusal | None]:
    """Return whether a file of a commit is to be read, and what is wrong with it."""
    *folders, name = blob.path.split("/")
    if blob.mode == "120000":
        return False, names.symlink()
    if not blob.mode.startswith("100"):
        return False, names.not_a_file()
    if blob.size > max_bytes:
        return False, too_large(blob.size, max_bytes)
    if len(folders) > names.MAX_NESTING:
        return False, names.folder_problem(folders[-1], len(folders))
    wrong = [names.folder_problem(folder, nesting) for nesting, folder in enumerate(folders, 1)]
    problem = (names.file_problem(name) if folders else None) or next(filter(None, wrong), None)
    return problem is None or (problem.kind != "stray-file" and names.is_printable(name)), problem


# --- git itself ---------------------------------------------------------------------------------------------


def _find_root(ledger: Path) -> Path | None:
    here = Path(os.path.realpath(ledger))
    return next((folder for folder in (here, *here.parents) if os.path.exists(folder / ".git")), None)


def _require_root(ledger: Path) -> Path:
    root = _find_root(ledger)
    if root is None:
        raise _not_in_git("there is no repository here or above")
    return root


def _inside(root: Path, ledger: Path) -> str:
    inside = Path(os.path.realpath(ledger)).relative_to(root).as_posix()
    return "" if inside == "." else inside


def _commit(root: Path, revision: str) -> str | None:
    try:
        answer = _ask(root, "rev-parse", "--verify", "--quiet", "--end-of-options", revision + "^{commit}")
    except _Failed as error:
        if str(error):
            raise
        return None  # --quiet: git had no such commit, and nothing else to say
    return answer.decode("ascii").split()[-1]


def _without_filters(root: Path) -> dict[str, str]:
    """Return settings that empty every filter the repository's config names: git runs no empty command."""
    listed = _ask(root, "config", "--list", "--name-only", "-z").decode("utf-8", "surrogateescape")
    filters = [key for key in listed.split("\0") if key.startswith("filter.")]
    return {key: "false" if key.endswith(".required") else "" for key in filters}


def _ask(root: Path, *arguments: str, settings: dict[str, str] | None = None) -> bytes:
    """Return what git answers; raise _Failed with its complaint where it answers no."""
    status, answer, complaint = _execute(
        root, arguments, settings or {}, stdout_as_string=False, with_extended_output=True,
        with_exceptions=False, strip_newline_in_stdout=False,
        kill_after_timeout=_SECONDS if os.name != "nt" else None,
    )
    if status:
        raise _Failed(shown(str(complaint).strip()))
    return bytes(answer)


def _execute(root: Path, arguments: tuple[str, ...], settings: dict[str, str], **how: Any) -> Any:
    try:
        from git import Git, GitCommandNotFound  # slow, and it looks for the program: only where git is asked
    except ImportError:
        raise _Failed("the program git is not installed") from None
    try:
        command = ["git", "--no-pager", *arguments]
        return Git(str(root)).execute(command, env=_environment(root, settings), **how)
    except GitCommandNotFound:
        raise _Failed("the program git is not installed") from None


def _environment(root: Path, settings: dict[str, str]) -> dict[str, str]:
    """Return what git is told: by environment, because a key of a hostile config may hold any sign.

    The repository is named, not searched for, so that neither a hook's GIT_DIR nor `core.worktree` nor who
    owns the folder leads elsewhere.
    """
    told = dict(_ENVIRONMENT, GIT_DIR=str(root / ".git"), GIT_WORK_TREE=str(root))
    if (root / ".git").is_dir():  # in a linked work tree it is a file, and git alone knows where the index is
        told["GIT_INDEX_FILE"] = str(root / ".git" / "index")
    pairs = {**_SETTINGS, **settings}
    told["GIT_CONFIG_COUNT"] = str(len(pairs))
    for number, (key, value) in enumerate(pairs.items()):
        told[f"GIT_CONFIG_KEY_{number}"] = key
        told[f"GIT_CONFIG_VALUE_{number}"] = value
    return told


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
    return Refusal("no-revision", f"Git knows no commit `{shown(revision)}`.",
                   "Name a commit, a tag or a branch, as `git log` shows them.")


def _not_in_git(why: str) -> Refusal:
    return Refusal("not-in-git", f"The ledger is not under version control ({why}).",
                   "Run this inside a git checkout, or leave the revision away.")
