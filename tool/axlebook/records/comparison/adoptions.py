"""Limit sets that are adopted otherwise than before, by the ledger or by one engine."""

from __future__ import annotations

from dataclasses import dataclass

from axlebook.records import fields
from axlebook.records.book import Book

from .sides import Side

NOT = ("", False, "")


@dataclass(frozen=True)
class AdoptionChange:
    """A limit set that is adopted otherwise than before."""

    who: str  # the ledger, or an engine
    set_id: str
    path: str
    was: str  # "adopted 2014-01-05 by board minute 2014-1"; '' not adopted
    now: str
    in_force_before: bool
    in_force_now: bool

    @property
    def ends(self) -> bool:
        """Whether a set that judged does so no more."""
        return self.in_force_before and not self.in_force_now


def adoption_changes(before: Side, after: Side) -> list[AdoptionChange]:
    """Return every limit set that is adopted otherwise, what ends first."""
    old, new = _adopted(before.book), _adopted(after.book)
    found = []
    for key in dict.fromkeys([*old, *new]):
        who, set_id = key
        (was, before_force, before_path), (now, now_force, now_path) = old.get(key, NOT), new.get(key, NOT)
        if (was, before_force) != (now, now_force):
            found.append(AdoptionChange(who, set_id, now_path or before_path, was, now, before_force, now_force))
    return sorted(found, key=lambda change: (not change.ends, change.who, change.set_id))


def _adopted(book: Book) -> dict[tuple[str, str], tuple[str, bool, str]]:
    """(who, set) -> words, whether in force, path."""
    found = {}
    shelves = [("the ledger", book.ledger.path, book.ledger.tree, "defaults", book.ledger.adoptions)]
    shelves += [(e.id, e.path, e.tree, "overrides", e.adoptions) for e in book.engines.values()]
    for who, path, tree, key, adoptions in shelves:
        entries = [entry for entry in fields.items(fields.inner(tree, key), "limit_sets") if entry]
        for entry in entries:
            id = fields.text(entry, "set")
            words = "; ".join(
                ", ".join(f"{k.replace('_', ' ')} {v}" for k, v in e.items() if k != "set" and isinstance(v, str))
                for e in entries
                if e.get("set") == id
            )
            force = any(a.set_id == id and a.in_force(book.as_of) for a in adoptions)
            found[who, id] = words or "adopted", force, path
    return found
