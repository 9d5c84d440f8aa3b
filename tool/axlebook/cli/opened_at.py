"""A ledger at a revision: its folder may be a checkout, a bare clone, or a folder that holds no ledger any more."""

from __future__ import annotations

import os
from pathlib import Path

from axlebook.cli import CannotRun
from axlebook.sources.folder import find_ledger
from axlebook.sources.names import LEDGER
from axlebook.sources.refusals import Refusal

from .opened import At, Opened, beside, inside, quoted


def open_at(ledger: str | None, paths: tuple[str, ...], named: str) -> Opened:
    """Find the ledger and the commit; what a path names may be gone from the disk since."""
    root = find_root(ledger, paths)
    found = At(named, resolved(root, named))
    require_ledger(root, found)
    only = tuple(dict.fromkeys(_asked(root, path) for path in paths))
    return Opened(root, () if "." in only else only, "" if _is_bare(root) else beside(root), found)


def find_root(ledger: str | None, paths: tuple[str, ...]) -> Path:
    """The folder of the ledger: the one named, else upward from the paths, else from here, else the clone here."""
    for text in (*paths, ledger or ""):
        if "\0" in text:
            raise CannotRun(f"there is no file or folder {quoted(text)}.")
    if ledger is not None:
        if not ledger or _repository_of(Path(ledger)) is None:
            raise CannotRun(f"--ledger names {quoted(ledger)}, which is not under version control.")
        return Path(os.path.realpath(ledger))
    start = Path(paths[0]).parent if paths and not os.path.isdir(paths[0]) else Path(paths[0] if paths else ".")
    root = find_ledger(start)
    if root is None and _is_bare(Path(".")):
        return Path(os.path.realpath("."))
    if root is None:
        raise CannotRun(f"there is no ledger here or in a folder above (no {LEDGER}). Name one with --ledger.")
    return root


def resolved(root: Path, named: str) -> str:
    """The commit that a revision names."""
    from axlebook.sources.git import resolve

    try:
        return resolve(root, named)
    except Refusal as refused:
        raise CannotRun(f"{_lower(refused.reason)} {refused.hint}") from None


def require_ledger(root: Path, at: At) -> None:
    """Refuse a revision at which the folder holds no ledger."""
    if not holds_ledger(root, at.commit):
        where = quoted(str(root))
        hint = " In a bare clone, name the ledger's folder: --ledger BOOK.git/FOLDER." if _is_bare(root) else ""
        raise CannotRun(f"at {at.words} there is no ledger in {where} (no {LEDGER}).{hint}")


def holds_ledger(root: Path, commit: str) -> bool:
    """Whether a folder held a ledger at a commit."""
    from axlebook.sources.git import blobs_at

    try:
        return any(blob.path == LEDGER for blob in blobs_at(root, commit))
    except Refusal:
        return False


def is_bare_ledger(ledger: str) -> bool:
    """Whether a folder named on the command line is a bare clone, or a place in one."""
    return "\0" not in ledger and bool(ledger) and _is_bare(Path(ledger))


def _repository_of(folder: Path) -> object:
    from axlebook.sources.git import find_repository

    return find_repository(folder)


def _is_bare(root: Path) -> bool:
    from axlebook.sources.git import find_repository

    found = find_repository(root)
    return found is not None and found.work_tree is None


def _asked(root: Path, path: str) -> str:
    """A path as the ledger names it; in a bare clone it is written so already."""
    if not _is_bare(root):
        return inside(root, path)
    plain = os.path.normpath(path).replace(os.sep, "/")
    if plain.startswith(("/", "../")) or plain == "..":
        raise CannotRun(f"{quoted(path)} is not in the ledger; in a bare clone write a path as the ledger has it.")
    return plain


def _lower(sentence: str) -> str:
    return sentence[:1].lower() + sentence[1:]
