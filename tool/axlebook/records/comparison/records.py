"""Records that were deleted, altered, renamed, signed or only written otherwise between two states of the book."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.corrections import steps

from .differences import Difference, differences
from .sides import Side, title_of

MASTER = frozenset({"ledger", "engine", "driver", "wheelset", "tire", "instrument", "person", "plan", "limit-set"})
ENTRIES = ("readings", "observations", "examinations", "not_measured")


class Fate(StrEnum):
    """What became of a record."""

    DELETED = "deleted"
    ALTERED = "altered"
    RENAMED = "renamed"
    ADDED_TO = "added to"
    SIGNED = "signed"
    REWORDED = "written otherwise"  # comments, order, line ends: the record says the same
    ADDED = "added"


@dataclass(frozen=True)
class Detail:
    """One difference in shop words."""

    pointer: str
    about: str  # "e-12 driver-2 right, flange thickness, worst"
    was: str | None
    now: str | None


@dataclass(frozen=True)
class RecordChange:
    """What became of one record."""

    path: str
    kind: str
    fate: Fate
    signed: bool  # it was signed before
    details: tuple[Detail, ...] = ()  # of a correction that came or went: what it changes in another record
    path_before: str = ""  # of a renamed one

    @property
    def breaks_a_signature(self) -> bool:
        """Whether a signed record is no longer what was signed."""
        return self.signed and self.fate in (Fate.DELETED, Fate.ALTERED, Fate.ADDED_TO, Fate.SIGNED)

    @property
    def is_loud(self) -> bool:
        """Whether evidence was changed: what stands in dated records is corrected by a correction, never edited."""
        return self.fate in (Fate.DELETED, Fate.ALTERED) and (self.fate is Fate.DELETED or self.kind not in MASTER)

    @property
    def rank(self) -> tuple[bool, bool, str]:
        """Sort key, the loudest first."""
        return not self.breaks_a_signature, not self.is_loud, self.path


def record_changes(before: Side, after: Side) -> list[RecordChange]:
    """Return what became of every record that is not the same on both sides, the loudest first."""
    gone = {path: before.texts[path] for path in before.texts if path not in after.texts}
    come = {path: after.texts[path] for path in after.texts if path not in before.texts}
    renamed = _renamed(gone, come)
    found = [_renaming(before, old, new) for new, old in renamed.items()]
    found += [_change(before, path, Fate.DELETED) for path in gone if path not in renamed.values()]
    found += [_change(after, path, Fate.ADDED) for path in come if path not in renamed]
    for path, text in after.texts.items():
        if path in before.texts and before.texts[path] != text:
            found.append(_altered(before, after, path))
    return sorted(found, key=lambda change: change.rank)


def _renamed(gone: Mapping[str, bytes], come: Mapping[str, bytes]) -> dict[str, str]:
    """New path -> old path of records that only got another name."""
    by_text: dict[bytes, list[str]] = {}
    for path, text in gone.items():
        by_text.setdefault(text, []).append(path)
    return {path: by_text[text].pop() for path, text in come.items() if by_text.get(text)}


def _renaming(before: Side, old: str, new: str) -> RecordChange:
    change = _change(before, old, Fate.RENAMED)
    return RecordChange(new, change.kind, Fate.RENAMED, change.signed, (), old)


def _change(side: Side, path: str, fate: Fate) -> RecordChange:
    tree = side.trees.get(path)
    told = tuple(_effect(side, path, taken_back=fate is Fate.DELETED)) if fate is not Fate.RENAMED else ()
    return RecordChange(path, _kind(tree), fate, fate is not Fate.ADDED and _signed(tree), told)


def _effect(side: Side, path: str, *, taken_back: bool) -> Iterator[Detail]:
    """What a correction that came or went changes in the record it names."""
    for one in (correction for correction in side.book.corrections if correction.path == path):
        if one.failed:
            yield Detail("", f"{'it had' if taken_back else 'it has'} no effect: {one.failed}", None, None)
        elif one.withdraws:
            yield Detail("", f"{one.record} counts {'again' if taken_back else 'no longer'}", None, None)
        else:
            tree = side.trees.get(side.book.paths.get(one.record, "")) or fields.EMPTY
            about = ", ".join(filter(None, (one.record, *_words(side.book, tree, steps(one.pointer)))))
            was, now = (one.now, one.was) if taken_back else (one.was, one.now)
            yield Detail(one.pointer, about, was or None, now or None)


def _altered(before: Side, after: Side, path: str) -> RecordChange:
    was, now = before.trees.get(path), after.trees.get(path)
    kind, signed = _kind(now) or _kind(was), _signed(was)
    if was is None or now is None:
        text = "can be read now" if was is None and now is not None else "cannot be read"
        return RecordChange(path, kind, Fate.ALTERED, signed, (Detail("", f"the record {text}", None, None),))
    found = list(differences(was, now))
    details = tuple(Detail(one.pointer, _about(after.book, was, now, one), one.was, one.now) for one in found)
    return RecordChange(path, kind, _fate(found, signed=signed), signed, details)


def _fate(found: list[Difference], *, signed: bool) -> Fate:
    if not found:
        return Fate.REWORDED
    rest = [one for one in found if signed or not one.pointer.startswith("/signed")]
    if not rest:
        return Fate.SIGNED
    return Fate.ADDED_TO if all(one.only_added for one in rest) else Fate.ALTERED


def _kind(tree: fields.Tree | None) -> str:
    return fields.text(tree or fields.EMPTY, "kind")


def _signed(tree: fields.Tree | None) -> bool:
    return "signed" in (tree or fields.EMPTY)


def _about(book: Book, was: fields.Tree, now: fields.Tree, one: Difference) -> str:
    """Where a difference stands, in shop words."""
    tree = was if one.now is None else now
    return ", ".join(filter(None, _words(book, tree, steps(one.pointer))))


def _words(book: Book, tree: fields.Tree, path: list[str]) -> Iterator[str]:
    if len(path) < 2 or path[0] not in ENTRIES:
        yield " ".join(step.replace("_", " ") for step in path)
        return
    entry = _item(tree.get(path[0]), path[1])
    named = f"{fields.text(tree, 'engine')} {fields.text(entry, 'place')}".strip()
    yield fields.text(entry, "part") or named
    about = fields.text(entry, "quantity") or fields.text(entry, "looked_for")
    yield title_of(book, about) if about else path[0].replace("_", " ")
    rest = path[2:]
    yield " ".join(step.replace("_", " ") for step in (rest[1:] if rest[:1] == ["values"] else rest))


def _item(found: Any, index: str) -> fields.Tree:
    entry = fields.entry(found, index)
    return entry if isinstance(entry, dict) else fields.EMPTY
