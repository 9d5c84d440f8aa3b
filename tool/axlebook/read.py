"""From files to the book: every text read, judged by the schema of its kind and built, once."""

from __future__ import annotations

import marshal
import pickle
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Any, NamedTuple

from axlebook.findings import Place, Problem, id_of
from axlebook.records import fields
from axlebook.records.attached import all_cited
from axlebook.records.book import Book
from axlebook.records.build import Record, build_book, built
from axlebook.records.corrections import Correction, correct
from axlebook.records.dropped import dropped_of
from axlebook.sources.names import Entry
from axlebook.sources.refusals import Refusal
from axlebook.sources.schema_problems import Problem as FormProblem
from axlebook.sources.schemas import judge, sound_part
from axlebook.sources.shipped import content_hash, shipped_hash
from axlebook.sources.two_hands import in_turns
from axlebook.sources.vocabulary import read_vocabulary
from axlebook.sources.yaml_text import read_tree

MISPLACED = frozenset({"stray-file", "unknown-folder", "bad-name", "twin-name"})
SECOND_PAYS = 100  # texts; fewer are read before a second process has begun
LOTS = 64  # that the texts are read in: the process that is done first waits for a part of one

Tree = dict[str, Any]
Watch = Callable[[str, Collection[Any]], Iterable[Any]]  # passes on what is worked through, and looks on


@dataclass(frozen=True)
class Known:
    """What was read, judged and built already, by path and text: a second state of the book shares it."""

    trees: dict[tuple[str, bytes], Tree | Refusal] = field(default_factory=dict)
    sound: dict[int, tuple[Tree, Tree | None, list[Problem]]] = field(default_factory=dict)
    built: dict[int, tuple[Tree, Any]] = field(default_factory=dict)

    def tree(self, path: str, content: bytes) -> Tree | None:
        """A record's tree as it is written; None where it could not be read."""
        found = self.trees.get((path, content))
        return None if isinstance(found, Refusal) else found

    def read(self, texts: Iterable[tuple[str, bytes]], watch: Watch | None = None) -> None:
        """Read and judge texts that are not known yet; many of them in two processes, of which one is watched."""
        new = [text for text in texts if text not in self.trees]
        in_turns(
            _alike(new),
            _read_lot,
            pays=len(new) >= SECOND_PAYS,
            watch=(lambda lots: watch("Reading", lots)) if watch else iter,
            use=self._take,
            pack=_pack,
            unpack=_unpack,
        )

    def _take(self, texts: Sequence[tuple[str, bytes]], lot: Lot) -> None:
        """Keep what a lot holds, and build of it what can be built, while the other process reads on."""
        for number, (text, tree) in enumerate(zip(texts, lot.trees, strict=True)):
            self.trees[text] = tree
            if not isinstance(tree, Refusal):
                sound = self.note(text[0], tree, lot.faults.get(number, []))
                if sound:
                    built(Record(id_of(text[0]), text[0], sound), self.built)

    def note(self, path: str, tree: Tree, found: list[FormProblem]) -> Tree | None:
        """Keep what is wrong with a tree, beside the tree itself, so that no other takes its id; gives what is sound.
        """
        sound = sound_part(tree, found) if found else tree
        self.sound[id(tree)] = tree, sound, [_said(path, problem, tree) for problem in found]
        return sound


def _alike(texts: Sequence[tuple[str, bytes]]) -> list[Sequence[tuple[str, bytes]]]:
    """The texts in their order, cut into lots of about the same size."""
    share = sum(len(content) for _, content in texts) // LOTS + 1
    lots: list[Sequence[tuple[str, bytes]]] = []
    start = size = 0
    for number, (_, content) in enumerate(texts, 1):
        size += len(content)
        if size >= share or number == len(texts):
            lots.append(texts[start:number])
            start, size = number, 0
    return lots


class Lot(NamedTuple):
    """What some texts hold, in their order, and by number what is wrong with the form of those at fault."""

    trees: list[Tree | Refusal]
    faults: dict[int, list[FormProblem]]


def _read_lot(texts: Iterable[tuple[str, bytes]]) -> Lot:
    lot = Lot([], {})
    for path, content in texts:
        try:
            tree = read_tree(content)
        except Refusal as refusal:
            lot.trees.append(refusal)
            continue
        if found := judge(tree, path):
            lot.faults[len(lot.trees)] = found
        lot.trees.append(tree)
    return lot


def _pack(lot: Lot) -> bytes:
    """A lot as bytes: plain trees by the quickest way there is, the few others by the general one."""
    plain = [None if isinstance(tree, Refusal) else tree for tree in lot.trees]
    refused = {number: tree for number, tree in enumerate(lot.trees) if isinstance(tree, Refusal)}
    return pickle.dumps((marshal.dumps(plain), refused, lot.faults))


def _unpack(packed: bytes) -> Lot:
    plain, refused, faults = pickle.loads(packed)
    return Lot([refused.get(number, tree) for number, tree in enumerate(marshal.loads(plain))], faults)


def read_book(
    entries: Iterable[Entry],
    *,
    as_of: date | None,
    today: date,
    contents: dict[str, bytes] | None = None,
    known: Known | None = None,
    watch: Watch | None = None,
) -> Book:
    """Read entries into a book; `contents` is filled with what was read, so that places can be looked up."""
    known, entries = known or Known(), list(entries)
    texts = {entry.path: entry.content for entry in entries if entry.content is not None}
    if contents is not None:
        contents.update(texts)
    known.read(((entry.path, entry.content) for entry in entries if entry.content is not None), watch)
    problems: list[Problem] = []
    written = _trees(entries, problems, known)
    trees, corrections = _corrected(written, as_of or _closed_on(written) or today)
    records = [Record(id, path, sound) for id, path, tree in trees if (sound := _sound(path, tree, problems, known))]
    return build_book(
        records,
        read_vocabulary(),
        as_of=as_of,
        today=today,
        problems=tuple(problems),
        read=sum(entry.content is not None for entry in entries),
        sets_altered=_altered(written, texts),
        corrections=corrections,
        cited=all_cited((record.path, record.tree) for record in records),
        known=known.built,
    )


def _trees(entries: Iterable[Entry], problems: list[Problem], known: Known) -> list[tuple[str, str, Tree]]:
    """Id, path and tree of what could be read; what could not is added to the problems."""
    trees = []
    for path, content, problem in entries:
        if problem is not None:
            problems.append(_refused(path, problem, read=content is not None))
        if content is None:
            continue
        tree = known.trees[path, content]
        if isinstance(tree, Refusal):
            problems.append(_refused(path, tree))
        else:
            trees.append((id_of(path), path, tree))
    return trees


def _altered(trees: Iterable[tuple[str, str, Tree]], texts: Mapping[str, bytes]) -> frozenset[str]:
    """The shipped limit sets whose text here is another."""
    sets = ((id, path) for id, path, tree in trees if tree.get("kind") == "limit-set")
    return frozenset(id for id, path in sets if shipped_hash(id) not in (None, content_hash(texts[path])))


def _closed_on(trees: Iterable[tuple[str, str, Tree]]) -> date | None:
    """The day the ledger rests on, where its own record says one."""
    return next((fields.day(tree, "closed_on").exact for _, _, tree in trees if tree.get("kind") == "ledger"), None)


def _corrected(
    trees: list[tuple[str, str, Tree]], as_of: date
) -> tuple[list[tuple[str, str, Tree]], tuple[Correction, ...]]:
    """The trees with corrections in effect; a correction whose own form is at fault has none."""
    found = [one for one in trees if one[1].startswith("corrections/") and not judge(one[2], one[1])]
    if not found:
        return trees, ()
    named = {tree.get("record") for _, _, tree in found}
    first = {id: tree for id, _, tree in reversed(trees) if id in named}  # of two with one id the first is in the book
    corrected, told = correct(first, found, as_of)
    kept = [one for one in trees if first.get(one[0]) is not one[2] or one[0] in corrected]
    return [(id, path, corrected[id] if first.get(id) is tree else tree) for id, path, tree in kept], told


def _sound(path: str, tree: Tree, problems: list[Problem], known: Known) -> Tree | None:
    """A tree without what could not be used; its problems are added to the list."""
    if id(tree) not in known.sound:  # only a corrected one
        known.note(path, tree, judge(tree, path))
    _, sound, told = known.sound[id(tree)]
    problems += told
    return sound


def _said(path: str, found: FormProblem, tree: Tree) -> Problem:
    place, out = Place(path, found.pointer), found.left_out
    return Problem(found.check, place, found.message, found.next, left_out=out, dropped=dropped_of(tree, out))


def _refused(path: str, refusal: Refusal, *, read: bool = False) -> Problem:
    check = "misplaced-file" if refusal.kind in MISPLACED else "unreadable-record"
    left_out = None if read else ""
    return Problem(
        check, Place(path), refusal.reason, refusal.hint, refusal.line, refusal.column, refusal.kind, left_out
    )
