"""How records came into the book: which commits brought, changed and took away each, as plain values.

The shell gathers them; nothing here knows how. A record is its id: moved to another folder it is the same one.
Dates are those of the committer's machine and can be set at will; a history that is only here proves nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from typing import Any, NamedTuple

Tree = Mapping[str, Any]
NOT_VERSIONED = "not under version control"
NOT_OURS = "not of this book"
SHORT = 10  # signs of a hash that a person compares
_LIVES_ON = ("/disposition", "/closed_on", "/repair", "/approved")  # what closes a defect: told after it was found


class Commit(NamedTuple):
    """One commit, as far as it says where a record came from."""

    hash: str
    author: str
    email: str
    on: date  # the author's own day
    edge: bool = False  # the clone holds nothing before it: what it seems to bring may be older

    @property
    def named(self) -> str:
        """`1a2b3c4d5e of 2026-03-04 by v3`."""
        return f"{self.hash[:SHORT]} of {self.on} by {self.author}"


@dataclass(frozen=True, eq=False)
class Version:
    """One text of a record; it is read when somebody asks what it says."""

    commit: Commit | None  # None: it stands on the disk and nobody committed it yet
    read: Callable[[], Tree | None] = lambda: None

    @cached_property
    def tree(self) -> Tree | None:
        """What it says; None where it cannot be read."""
        return self.read()

    @property
    def named(self) -> str:
        """Where the text is, in words."""
        return f"commit {self.commit.named}" if self.commit else "what is not committed yet"


class Life(NamedTuple):
    """One record from its first text to its last."""

    id: str
    path: str  # where it stands, or stood last
    versions: tuple[Version, ...]  # oldest first, each unlike the one before
    gone: bool = False
    taken_by: Commit | None = None  # who took it away, where a commit says so
    renamed: str = ""  # the id that the very same text bears now

    @property
    def entered(self) -> Commit | None:
        """The commit that brought it; None where it is not committed, or the clone does not reach back so far."""
        first = self.versions[0].commit if self.versions else None
        return None if first is None or first.edge else first


class Tag(NamedTuple):
    """A tag, as far as the repository here tells of it."""

    name: str
    inner_name: str  # what the tag itself says it is called; '' of a lightweight one
    commit: str
    made_on: date | None
    commit_on: date | None
    moved_here: int  # how often the log of this very repository saw it move
    reachable: bool  # from the commit the ledger stands at
    signature: bool = False  # one is there; it was not verified


class Cut(NamedTuple):
    """What keeps a history that is there from being seen whole."""

    why: str
    next: str


@dataclass(frozen=True)
class Entered:
    """All that the history tells; `reason` says why nothing is known where there is none, `cut` why not all of it."""

    lives: Mapping[str, Life] = field(default_factory=dict)
    tags: tuple[Tag, ...] = ()
    shallow: bool = False
    begun_in: str = ""  # the commit that brought `ledger.yaml`: what came with it may have been kept long before
    reason: str = ""
    cut: Cut | None = None

    def entered(self, id: str) -> Commit | None:
        """The commit that brought a record; None where that is not known."""
        life = self.lives.get(id)
        return life.entered if life else None


def has_own_history(ledger: Tree) -> bool:
    """Whether the history of the repository is the book's, by `ledger.yaml`."""
    return ledger.get("git_history") != NOT_OURS


class Change(NamedTuple):
    """One value that is no longer what it was; '' where it was or is not there."""

    pointer: str
    was: str
    now: str


def changes(old: Any, new: Any, pointer: str = "") -> Iterator[Change]:
    """Every value that differs between two trees, in the order of the older one."""
    if type(old) is not type(new):
        yield Change(pointer, _said(old), _said(new))
    elif isinstance(old, Mapping):
        for key in [*old, *(key for key in new if key not in old)]:
            yield from changes(old.get(key), new.get(key), f"{pointer}/{_escaped(str(key))}")
    elif isinstance(old, list):
        for index in range(max(len(old), len(new))):
            yield from changes(_at(old, index), _at(new, index), f"{pointer}/{index}")
    elif old != new:
        yield Change(pointer, _said(old), _said(new))


def _at(items: list[Any], index: int) -> Any:
    return items[index] if index < len(items) else None


def _escaped(step: str) -> str:
    return step.replace("~", "~0").replace("/", "~1")


def _said(value: Any) -> str:
    """A value in few words."""
    if value is None:
        return ""
    if isinstance(value, str):
        return value
    return ", ".join(value) if isinstance(value, Mapping) else f"{len(value)} entries"


class Edit(NamedTuple):
    """What a signed record lost its text to: the text that was signed, and the first that no longer says it."""

    signed_in: Version
    edited_in: Version | None  # None: the record is gone
    changes: tuple[Change, ...]


def signed_version(life: Life) -> Version | None:
    """The first text that bears a signature."""
    return next((v for v in life.versions if v.tree is not None and "signed" in v.tree), None)


def edit_after_signing(life: Life) -> Edit | None:
    """How a record differs now from what was signed; None where it does not, or nobody signed it."""
    signed = signed_version(life)
    if signed is None or signed.tree is None:
        return None
    if life.gone:
        return None if life.renamed else Edit(signed, None, ())
    found = _held_against(signed.tree, life.versions[-1].tree)
    if not found:
        return None
    later = life.versions[life.versions.index(signed) + 1 :]
    first = next(v for v in later if _held_against(signed.tree, v.tree))
    return Edit(signed, first, found)


def _held_against(signed: Tree, now: Tree | None) -> tuple[Change, ...]:
    if now is None:
        return (Change("", "", ""),)
    return tuple(c for c in changes(signed, now) if not _lives_on(signed, c))


def _lives_on(first: Tree, change: Change) -> bool:
    """Whether a change is of what closes a defect, which is no part of what was found."""
    return first.get("kind") == "defect" and change.pointer.startswith(_LIVES_ON)


def altered_values(life: Life) -> Edit | None:
    """What an unsigned record said when it was entered and says no more.

    What was only added is no alteration, nor what closes a defect.
    """
    first, last = life.versions[0], life.versions[-1]
    if life.gone or first.tree is None or last.tree is None or signed_version(life) is not None:
        return None
    found = _said_no_more(first.tree, last.tree)
    if not found:
        return None
    edited = next(v for v in life.versions[1:] if v.tree is not None and _said_no_more(first.tree, v.tree))
    return Edit(first, edited, found)


def _said_no_more(first: Tree, now: Tree) -> tuple[Change, ...]:
    return tuple(c for c in changes(first, now) if c.was and not _lives_on(first, c))
