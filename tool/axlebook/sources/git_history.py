"""How the records of a ledger came into it, gathered from git in a few calls, however many records there are.

One `git log` tells which commit brought, changed or took away which file; one stream gives the older texts of the
few records that were changed. A merge is looked at where it says what none of its parents said. No signature is
verified: that would run a program that the repository's config may name.
"""

from __future__ import annotations

import hashlib
import os
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import partial
from pathlib import Path
from typing import NamedTuple

from axlebook.findings import id_of
from axlebook.records.entered import NOT_VERSIONED, Commit, Cut, Entered, Life, Tree, Version
from axlebook.sources import names
from axlebook.sources.git import GitFailed, GitMissing, Repository, ask, find_repository, has_commit, read_blobs
from axlebook.sources.git_tags import tags_of
from axlebook.sources.refusals import Refusal
from axlebook.sources.yaml_text import MAX_BYTES, read_tree

_FORMAT = "--format=%H%x1f%P%x1f%as%x1f%ae%x1f%an"
_HOW = (
    "-z", "-c", "--raw", "--no-abbrev", "--no-renames", "--full-history", "--topo-order", "--reverse",
    "--no-show-signature", "--no-relative", "--encoding=UTF-8", f"-O{os.devnull}", _FORMAT,
)  # fmt: skip
_SHALLOW = Cut(
    "this clone is shallow, and its first commits were not fetched",
    "Fetch the whole history: git fetch --unshallow (in a workflow, fetch-depth: 0).",
)
_PARTIAL = Cut(
    "this clone was made without older texts (git clone --filter), or has lost them",
    "Look at a whole clone, made without --filter.",
)
_NO_PROGRAM = "Install git, or put it on the PATH."
_BROKEN = "Ask git what is wrong with this repository: git fsck."
_UNKNOWN_DAY = date(1970, 1, 1)
_TreeOf = Callable[[str, bytes], Tree | None]


class _Event(NamedTuple):
    commit: Commit
    path: str
    blob: str  # '' where the commit takes the file away


@dataclass
class _Trail:
    """What happened to one record, in git's order."""

    path: str = ""
    events: list[_Event] = field(default_factory=list)


def read_entered(
    ledger: Path,
    contents: Mapping[str, bytes],
    revision: str = "HEAD",
    tree_of: _TreeOf | None = None,
) -> Entered:
    """Return how the records of a ledger came into it, up to a commit; `contents` is what they say now, by path.

    `revision` is a full hash (from `git.resolve`) or HEAD. `tree_of` gives the tree of what stands there now, where
    it has been read already.
    """
    repository = find_repository(ledger)
    if repository is None:
        return Entered(reason=NOT_VERSIONED)
    try:
        shallow = ask(repository, "rev-parse", "--is-shallow-repository").strip() == b"true"
        log = ask(repository, "log", *_HOW, "--end-of-options", revision, "--", repository.inside or ".")
        tags = tags_of(repository, revision)
    except GitFailed as error:
        return _not_told(repository, error)
    begun, trails = _trails(_events(repository, log, shallow))
    drafts, new = _drafts(trails, contents)
    older = _older_texts(ledger, drafts)
    lives = _lives(drafts, older, new, contents, tree_of or (lambda _, content: _tree(content)))
    begins_late = any(event.commit.edge for trail in trails.values() for event in trail.events)
    cut = _SHALLOW if begins_late else _PARTIAL if None in older.values() else None
    return Entered(lives, tags, shallow, begun, "", cut)


def _not_told(repository: Repository, error: GitFailed) -> Entered:
    """No history, and why: there is none yet, or git cannot tell it, so that what it would say is not looked at."""
    try:
        if not has_commit(repository):
            return Entered(reason="in a git repository in which nothing is committed yet")
    except GitFailed:
        pass  # it answers nothing at all
    next = _NO_PROGRAM if isinstance(error, GitMissing) else _BROKEN
    return Entered(reason=f"not under version control ({error})", cut=Cut(str(error) or "git does not tell it", next))


# --- what git log says --------------------------------------------------------------------------------------


def _events(repository: Repository, log: bytes, shallow: bool) -> Iterator[_Event]:
    """Yield every change of a record's file; a token is a commit, what changed in it, or the path of that."""
    inside = f"{repository.inside}/" if repository.inside else ""
    commit, tokens = None, iter(log.split(b"\0"))
    for token in tokens:
        token = token.strip(b"\n")
        if token.startswith(b":"):
            path = os.fsdecode(next(tokens)).removeprefix(inside)
            if commit is not None and _is_record(path):
                yield _Event(commit, path, _blob(token))
        elif token:
            commit = _commit(token, shallow)


def _blob(about: bytes) -> str:
    """Return the blob that a change leaves: the last hash, and none of zeros."""
    blob = about.split()[-2].decode("ascii")
    return blob if blob.strip("0") else ""


def _commit(token: bytes, shallow: bool) -> Commit:
    hash_, parents, on, email, author = token.decode("utf-8", "replace").split("\x1f", 4)
    return Commit(hash_, author, email, _day(on), shallow and not parents)


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return _UNKNOWN_DAY


def _is_record(path: str) -> bool:
    folder, _, rest = path.partition("/")
    known = folder in names.FOLDERS and rest.endswith(".yaml") and "/." not in path
    return path == names.LEDGER or (known and path.isprintable())  # a name that is none is told as such


def _trails(events: Iterator[_Event]) -> tuple[str, dict[str, _Trail]]:
    """The events by record, and the commit that brought the ledger itself."""
    trails: dict[str, _Trail] = defaultdict(_Trail)
    begun = ""
    for event in events:
        trail = trails[id_of(event.path)]
        if event.blob:
            trail.path = event.path
        trail.events.append(event)
        if event.path == names.LEDGER and not begun:
            begun = event.commit.hash
    return begun, trails


# --- from events to lives -----------------------------------------------------------------------------------


class _Draft(NamedTuple):
    """A life whose texts are not read yet: a blob's hash, or what stands on the disk."""

    path: str
    texts: list[tuple[Commit | None, str | bytes]]
    gone: bool
    taken_by: Commit | None


def _drafts(trails: Mapping[str, _Trail], contents: Mapping[str, bytes]) -> tuple[dict[str, _Draft], dict[str, bytes]]:
    """The lives that git tells of, and what stands here and no commit brought, by id."""
    here = {id_of(path): path for path in contents}
    bearers = Counter(map(id_of, contents))  # of two records with one id nobody can tell whose history it is
    drafts = {id: _draft(trail, here.get(id), contents) for id, trail in trails.items() if bearers[id] < 2}
    return drafts, {id: contents[path] for id, path in here.items() if id not in trails}


def _older_texts(ledger: Path, drafts: Mapping[str, _Draft]) -> dict[str, bytes | None]:
    """The texts of the records that were changed or are gone, by hash; None for what is not in this clone."""
    wanted = {text for draft in drafts.values() if _told(draft) for _, text in draft.texts if isinstance(text, str)}
    return dict(zip(wanted, read_blobs(ledger, wanted), strict=True)) if wanted else {}


def _lives(
    drafts: Mapping[str, _Draft], older: Mapping[str, bytes | None], new: Mapping[str, bytes],
    contents: Mapping[str, bytes], tree_of: _TreeOf,
) -> dict[str, Life]:  # fmt: skip
    return {
        id: Life(
            id, draft.path, tuple(_versions(draft, older, contents, tree_of)), draft.gone, draft.taken_by,
            _renamed(draft, drafts, new),
        )
        for id, draft in drafts.items()
    }  # fmt: skip


def _told(draft: _Draft) -> bool:
    """Whether a record's texts are needed: it was changed, or is gone."""
    return draft.gone or len(draft.texts) > 1


def _draft(trail: _Trail, path: str | None, contents: Mapping[str, bytes]) -> _Draft:
    texts: list[tuple[Commit | None, str | bytes]] = []
    for event in trail.events:
        if event.blob and (not texts or texts[-1][1] != event.blob):
            texts.append((event.commit, event.blob))
    last = trail.events[-1]
    if path is None:
        return _Draft(trail.path, texts, True, last.commit if not last.blob else None)
    if texts and not _is_blob(contents[path], str(texts[-1][1])):
        texts.append((None, contents[path]))
    return _Draft(path, texts, False, None)


def _is_blob(content: bytes, blob: str) -> bool:
    """Whether a file is what git holds, whatever its line ends became on the way to the disk."""
    algorithm = "sha1" if len(blob) == 40 else "sha256"
    plain = content.replace(b"\r\n", b"\n") if b"\r" in content else content
    return any(
        hashlib.new(algorithm, b"blob %d\0" % len(text) + text, usedforsecurity=False).hexdigest() == blob
        for text in dict.fromkeys((plain, content))
    )


def _versions(
    draft: _Draft, older: Mapping[str, bytes | None], contents: Mapping[str, bytes], tree_of: _TreeOf
) -> Iterator[Version]:
    """The texts of a record, none of them read yet; the last of one that is there is what stands there."""
    last = len(draft.texts) - 1
    for number, (commit, text) in enumerate(draft.texts):
        if number == last and not draft.gone:
            yield Version(commit, partial(tree_of, draft.path, contents[draft.path]))
        else:
            yield Version(commit, partial(_tree, older.get(text) if isinstance(text, str) else text))


def _renamed(gone: _Draft, drafts: Mapping[str, _Draft], new: Mapping[str, bytes]) -> str:
    """The id that came with the very text of a record, as that was taken away; '' where none did."""
    if not gone.gone or not gone.texts:
        return ""
    text = str(gone.texts[-1][1])
    if gone.taken_by is None:
        return next((id for id, content in new.items() if _is_blob(content, text)), "")
    came = ((id, draft.texts[0]) for id, draft in drafts.items() if draft.texts)
    return next((id for id, first in came if first == (gone.taken_by, text)), "")


def _tree(content: bytes | None) -> Tree | None:
    if content is None or len(content) > MAX_BYTES:
        return None
    try:
        return read_tree(content)
    except Refusal:
        return None


def carrying_signature(ledger: Path, commits: Iterable[str]) -> set[str]:
    """Return which of some commits (full hashes) carry a signature; it is not verified."""
    asked = list(commits)
    try:
        texts = list(read_blobs(ledger, asked))
    except (GitFailed, Refusal):
        return set()
    heads = ((commit, text.partition(b"\n\n")[0]) for commit, text in zip(asked, texts, strict=True) if text)
    return {commit for commit, head in heads if b"\ngpgsig" in head}
