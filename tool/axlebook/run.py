"""One run, joined: from files to findings. The only module that knows the whole way.

Two rules hold the house up:

1. All that decides is in the core. It takes values and gives values: no files, no clock, no git, no printing.
2. All that touches the world is in the shell. It decides nothing.
"""

from __future__ import annotations

import gc
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from typing import Any, NamedTuple

from axlebook.checks import run_checks
from axlebook.checks._corrected import say_corrected
from axlebook.checks._waiving import waive
from axlebook.findings import Finding, Place, Problem, Verdict, worst_first
from axlebook.records import fields
from axlebook.records.attached import Attached, all_cited
from axlebook.records.book import Book
from axlebook.records.build import Record, build_book
from axlebook.records.corrections import Correction, correct
from axlebook.records.entered import Entered, has_own_history
from axlebook.sources.attachments import read_attached
from axlebook.sources.folder import read_folder
from axlebook.sources.git_attachments import read_attached_at
from axlebook.sources.git_entries import entries_at
from axlebook.sources.git_history import read_entered
from axlebook.sources.names import Entry
from axlebook.sources.refusals import Refusal
from axlebook.sources.schema_problems import Problem as FormProblem
from axlebook.sources.schemas import judge, sound_part
from axlebook.sources.shipped import content_hash, shipped_hash
from axlebook.sources.vocabulary import read_vocabulary
from axlebook.sources.yaml_text import read_places, read_tree

MISPLACED = frozenset({"stray-file", "unknown-folder", "bad-name", "twin-name"})


@dataclass(frozen=True)
class Outcome:
    """What one run found: the book, the findings worst first, and the counts."""

    book: Book
    findings: tuple[Finding, ...]  # without what is within
    within: tuple[Finding, ...]
    counts: dict[str, int]
    contents: Mapping[str, bytes] = field(default_factory=dict)  # what was read, by path


@dataclass(frozen=True)
class Known:
    """What was read, judged and built already, by path and text: a second state of the book shares it."""

    trees: dict[tuple[str, bytes], dict[str, Any] | Refusal] = field(default_factory=dict)
    sound: dict[int, tuple[dict[str, Any], dict[str, Any] | None, list[Problem]]] = field(default_factory=dict)
    built: dict[int, tuple[dict[str, Any], Any]] = field(default_factory=dict)

    def tree(self, path: str, content: bytes) -> dict[str, Any] | None:
        """A record's tree as it is written; None where it could not be read."""
        found = self.trees.get((path, content))
        return None if isinstance(found, Refusal) else found


TreeOf = Callable[[str, bytes], Mapping[str, Any] | None]


class Beside(NamedTuple):
    """What lies beside the records of a ledger and is asked for once they are read; None where nobody asks."""

    entered: Callable[[Mapping[str, bytes], TreeOf], Entered] | None = None  # how records came in, by their texts
    attached: Callable[[Iterable[str]], Mapping[str, Attached]] | None = None  # the attachments of these names


NOTHING_BESIDE = Beside()


def beside_folder(root: Path, *, with_history: bool) -> Beside:
    """What lies beside the records of a folder: its attachments and, where it is asked for, its history."""
    history = (lambda texts, tree_of: read_entered(root, texts, "HEAD", tree_of)) if with_history else None
    return Beside(history, lambda names: read_attached(root, names))


def run_folder(root: Path, *, as_of: date | None, today: date, with_history: bool = False) -> Outcome:
    """Read a ledger's folder and run every check."""
    beside = beside_folder(root, with_history=with_history)
    return run_entries(read_folder(root), as_of=as_of, today=today, beside=beside)


def beside_commit(root: Path, commit: str, *, with_history: bool) -> Beside:
    """What lies beside the records of a ledger at a commit."""
    history = (lambda texts, tree_of: read_entered(root, texts, commit, tree_of)) if with_history else None
    return Beside(history, lambda names: read_attached_at(root, commit, names))


def run_commit(root: Path, commit: str, *, as_of: date | None, today: date, with_history: bool = False) -> Outcome:
    """Read a ledger as a commit (a full hash) has it and run every check; no file is touched."""
    beside = beside_commit(root, commit, with_history=with_history)
    return run_entries(entries_at(root, commit), as_of=as_of, today=today, beside=beside)


def run_entries(
    entries: Iterable[Entry],
    *,
    as_of: date | None,
    today: date,
    beside: Beside = NOTHING_BESIDE,
    known: Known | None = None,
) -> Outcome:
    """Run every check over entries, from a folder or from a commit."""
    with _collector_at_rest():
        contents: dict[str, bytes] = {}
        known = known or Known()
        book = read_book(entries, as_of=as_of, today=today, contents=contents, known=known)
        book = with_beside(book, contents, beside, known)
        everything = list(waive(book, say_corrected(book, run_checks(book))))
    findings = sorted((f for f in everything if f.verdict is not Verdict.WITHIN), key=worst_first)
    within = tuple(f for f in everything if f.verdict is Verdict.WITHIN)
    return Outcome(book, tuple(located(findings, contents)), within, count(book, findings, len(within)), contents)


def read_book(
    entries: Iterable[Entry],
    *,
    as_of: date | None,
    today: date,
    contents: dict[str, bytes] | None = None,
    known: Known | None = None,
) -> Book:
    """Read entries into a book; `contents` is filled with what was read, so that places can be looked up."""
    known = known or Known()
    problems: list[Problem] = []
    altered: set[str] = set()
    read = 0
    trees: list[tuple[str, str, dict[str, Any]]] = []
    for entry in entries:
        read += entry.content is not None
        if entry.problem is not None:
            problems.append(_refused(entry.path, entry.problem, read=entry.content is not None))
        if entry.content is None:
            continue
        if contents is not None:
            contents[entry.path] = entry.content
        tree = _tree(entry.path, entry.content, problems, known)
        if tree is not None:
            id = entry.path.rsplit("/", 1)[-1].removesuffix(".yaml")
            trees.append((id, entry.path, tree))
            if tree.get("kind") == "limit-set" and shipped_hash(id) not in (None, content_hash(entry.content)):
                altered.add(id)
    trees, corrections = _corrected(trees, as_of or _closed_on(trees) or today)
    records = [Record(id, path, sound) for id, path, tree in trees if (sound := _sound(path, tree, problems, known))]
    return build_book(
        records,
        read_vocabulary(),
        as_of=as_of,
        today=today,
        problems=tuple(problems),
        read=read,
        sets_altered=frozenset(altered),
        corrections=corrections,
        cited=all_cited((record.path, record.tree) for record in records),
        built=known.built,
    )


def with_beside(book: Book, contents: Mapping[str, bytes], beside: Beside, known: Known) -> Book:
    """The book with what lies beside its records."""
    return replace(
        book,
        entered=beside.entered(contents, known.tree) if beside.entered and has_own_history(book.ledger.tree) else None,
        attached=beside.attached([one.file for one in book.cited]) if beside.attached else None,
    )


def _tree(path: str, content: bytes, problems: list[Problem], known: Known) -> dict[str, Any] | None:
    found = known.trees.get((path, content))
    if found is None:
        try:
            found = read_tree(content)
        except Refusal as refusal:
            found = refusal
        known.trees[path, content] = found
    if isinstance(found, Refusal):
        problems.append(_refused(path, found))
        return None
    return found


def _closed_on(trees: list[tuple[str, str, dict[str, Any]]]) -> date | None:
    """The day the ledger rests on, where its own record says one."""
    return next((fields.day(tree, "closed_on").exact for _, _, tree in trees if tree.get("kind") == "ledger"), None)


def _corrected(
    trees: list[tuple[str, str, dict[str, Any]]], as_of: date
) -> tuple[list[tuple[str, str, dict[str, Any]]], tuple[Correction, ...]]:
    """The trees with corrections in effect; a correction whose own form is at fault has none."""
    found = [one for one in trees if one[1].startswith("corrections/") and not judge(one[2], one[1])]
    if not found:
        return trees, ()
    named = {tree.get("record") for _, _, tree in found}
    corrected, told = correct({id: tree for id, _, tree in trees if id in named}, found, as_of)
    kept = [one for one in trees if one[0] not in named or one[0] in corrected]
    return [(id, path, corrected.get(id, tree)) for id, path, tree in kept], told


def _sound(path: str, tree: dict[str, Any], problems: list[Problem], known: Known) -> dict[str, Any] | None:
    """A tree without what could not be used; its problems are added to the list."""
    if id(tree) not in known.sound:  # the tree is kept beside its answer, so that no other takes its id
        found = judge(tree, path)
        sound = sound_part(tree, found) if found else tree
        known.sound[id(tree)] = tree, sound, [_said(path, problem) for problem in found]
    _, sound, told = known.sound[id(tree)]
    problems += told
    return sound


def _said(path: str, found: FormProblem) -> Problem:
    place = Place(path, found.pointer)
    return Problem(found.check, place, found.message, found.next, left_out=found.left_out)


def _refused(path: str, refusal: Refusal, *, read: bool = False) -> Problem:
    check = "misplaced-file" if refusal.kind in MISPLACED else "unreadable-record"
    left_out = None if read else ""
    return Problem(
        check, Place(path), refusal.reason, refusal.hint, refusal.line, refusal.column, refusal.kind, left_out
    )


def located(findings: Iterable[Finding], contents: dict[str, bytes]) -> Iterator[Finding]:
    """Findings with their line and column, looked up in what was read."""
    known: dict[str, dict[str, tuple[int, int]]] = {}
    for finding in findings:
        path = finding.place.path
        if finding.line or path not in contents:
            yield finding if finding.line else finding.at(1, 1)
            continue
        if path not in known:
            known[path] = _places(contents[path])
        yield finding.at(*_nearest(known[path], finding.place.pointer))


def _places(content: bytes) -> dict[str, tuple[int, int]]:
    try:
        return read_places(content)
    except Refusal:
        return {}


def _nearest(places: dict[str, tuple[int, int]], pointer: str) -> tuple[int, int]:
    """The place of a pointer, or of what holds it where the pointer names something absent."""
    while pointer and pointer not in places:
        pointer = pointer.rpartition("/")[0]
    return places.get(pointer, (1, 1))


def count(book: Book, findings: Iterable[Finding], within: int) -> dict[str, int]:
    """The counts of a run; `checked` is how many judgements were made."""
    by_verdict = Counter(finding.verdict for finding in findings)
    judged = by_verdict[Verdict.OUTSIDE] + by_verdict[Verdict.UNDECIDED] + by_verdict[Verdict.SUSPECT] + within
    return {
        "read": book.read,
        "checked": judged,
        "within": within,
        "outside": by_verdict[Verdict.OUTSIDE],
        "suspect": by_verdict[Verdict.SUSPECT],
        "undecided": by_verdict[Verdict.UNDECIDED],
        "not_assessed": by_verdict[Verdict.NOT_ASSESSED],
        "unreadable": by_verdict[Verdict.UNREADABLE],
    }


@contextmanager
def _collector_at_rest() -> Iterator[None]:
    """Nothing read here is garbage until the run ends; looking for it costs a tenth of the time."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()
