"""Which two states of a book a comparison is of, and what about them cannot be known."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from axlebook.cli import CannotRun
from axlebook.reports.compare_view import State
from axlebook.sources.git import Revision as Standing
from axlebook.sources.git import is_hash, merge_base, resolve, state_of
from axlebook.sources.refusals import Refusal

from .opened import At, quoted
from .opened_at import holds_ledger, resolved

FETCH = "git fetch --unshallow"


@dataclass(frozen=True)
class Chosen:
    """Two states; a commit of None is nothing yet for the first, and the files as they are for the second."""

    before: State
    after: State
    standing: Standing
    notes: tuple[str, ...]


def choose(root: Path, first: str, second: str | None, *, exact: bool) -> Chosen:
    """Choose the states: from where the first revision and the second parted, unless `exact`."""
    standing = state_of(root)
    if standing.root is None:
        raise CannotRun(f"the ledger is {standing.reason}: there are no two states of it to compare.")
    after, head = _second(root, second, standing)
    notes: list[str] = []
    commit = _first(root, first, standing, notes)
    named = first
    if commit is not None and head is not None and not exact:
        parted = merge_base(root, commit, head)
        if parted is None:
            notes.append(f"Git does not know here where {_short(commit)} and {_short(head)} parted"
                         f"{_shallow(standing)}: what only the first has is shown as deleted.")  # fmt: skip
        elif parted != commit:
            commit, named = parted, f"where it and {first} parted"
    if commit is not None and not holds_ledger(root, commit):
        notes.append(f"At {At(named, commit).words} there was no ledger here: everything is shown as new.")
        commit = None
    before = State(At(named, commit).words if commit else "nothing", commit, False if commit else None)
    if standing.shallow:
        notes.append(f"This is a shallow clone: who changed a limit may not be told. For the whole: {FETCH}.")
    return Chosen(before, after, standing, tuple(notes))


def _second(root: Path, second: str | None, standing: Standing) -> tuple[State, str | None]:
    """The state now, and the commit it stands on."""
    if second is not None:
        commit = resolved(root, second)
        if not holds_ledger(root, commit):
            raise CannotRun(f"at {At(second, commit).words} there is no ledger in {quoted(str(root))}.")
        return State(At(second, commit).words, commit, False), commit
    if standing.bare:
        raise CannotRun("a bare clone has no files: name two revisions, axlebook compare REV REV.")
    changed = ", with changes not committed" if standing.dirty else ""
    where = f" on {_short(standing.commit)}" if standing.commit else ""
    return State(f"the files as they are{where}{changed}", standing.commit, standing.dirty), standing.commit


def _first(root: Path, first: str, standing: Standing, notes: list[str]) -> str | None:
    """The commit to compare with; where it may well exist and only is not here, nothing, and a note."""
    try:
        return resolve(root, first)
    except Refusal:
        plain = first.isprintable() and not first.startswith("-") and 0 < len(first) <= 200
        if not plain or not (standing.shallow or is_hash(first)):
            return resolved(root, first)  # says what is wrong with it
    why = "" if is_hash(first) else " Or no commit, tag or branch has that name: look at how it is written."
    notes.append(f"The base {first} is not here{_shallow(standing)}: everything is shown as new.{why}")
    return None


def _shallow(standing: Standing) -> str:
    return f" (this is a shallow clone; fetch the rest: {FETCH})" if standing.shallow else ""


def _short(commit: str) -> str:
    return commit[:12]
