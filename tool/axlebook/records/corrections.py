"""Corrections: what a signed record had wrong, put right without touching the record.

A correction names a record, a JSON Pointer into it, what stands there (`was`, which must match) and what is right
(`is`); or it withdraws the whole record. The file stays as it was signed; the book is built from the corrected tree.
A correction of a signed record takes effect only when somebody approved it. It is for what was measured, seen or done:
limits, plans, waivers and the ledger's own record are what that is judged by, and are changed where all can see it.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any, NamedTuple

from . import fields

Tree = dict[str, Any]
NO_RECORD = "there is no record {}"
NOT_APPROVED = "{} is signed, and nobody approved the correction"
OF_ANOTHER_KIND = "it is of the kind {}, and a correction is for what was measured, seen or done"
CORRECTABLE = frozenset({
    "inspection", "tire-found", "tire-applied", "tire-removed", "turning", "mounting", "service", "defect",
})  # fmt: skip


class Correction(NamedTuple):
    """One correction and what became of it: '' where it took effect, else why it did not."""

    id: str
    path: str
    record: str
    pointer: str
    was: str
    now: str
    withdraws: bool
    failed: str
    day: str = ""  # on which it was made, as written
    kind: str = ""  # of the record it names


def correct(
    trees: dict[str, Tree], corrections: Iterable[tuple[str, str, Tree]], until: date | None
) -> tuple[dict[str, Tree], tuple[Correction, ...]]:
    """Corrected copies of the trees that corrections name, in order of their date, and what became of each.

    `trees` is by record id and is not changed; a withdrawn record is missing from the answer's trees. `until`: only
    corrections made by that day count, so that an earlier state of the book reads as it did.
    """
    found: dict[str, Tree] = dict(trees)
    told = []
    dated = sorted(corrections, key=lambda one: (fields.day(one[2], "corrected_on").first or date.min, one[0]))
    for id, path, tree in dated:
        day = fields.day(tree, "corrected_on").first
        if until is not None and day is not None and day > until:
            continue
        told.append(_apply(found, id, path, tree))
    return found, tuple(told)


def _apply(trees: dict[str, Tree], id: str, path: str, tree: Tree) -> Correction:
    record, pointer = fields.text(tree, "record"), fields.text(tree, "at")
    was, now = fields.text(tree, "was"), fields.text(tree, "is")
    withdraws = fields.yes(tree, "withdraws") is True
    failed, kind = "", fields.text(trees.get(record, {}), "kind")
    if record not in trees:
        failed = NO_RECORD.format(record)
    elif kind not in CORRECTABLE:
        failed = OF_ANOTHER_KIND.format(kind or "not told")
    elif pointer == "/kind":
        failed = "of what kind a record is cannot be corrected"
    elif "signed" in trees[record] and not fields.text(tree, "approved_by"):
        failed = NOT_APPROVED.format(record)
    elif withdraws:
        del trees[record]
    elif not pointer or "is" not in tree:
        failed = "it names no place, or nothing that is right there"
    else:
        corrected = replaced(trees[record], steps(pointer), was, now)
        failed = corrected if isinstance(corrected, str) else ""
        if not isinstance(corrected, str):
            trees[record] = corrected
    return Correction(id, path, record, pointer, was, now, withdraws, failed, fields.text(tree, "corrected_on"), kind)


def steps(pointer: str) -> list[str]:
    """The steps of a JSON Pointer (RFC 6901)."""
    return [step.replace("~1", "/").replace("~0", "~") for step in pointer.split("/")[1:]]


def replaced(tree: Tree, path: list[str], was: str, now: str) -> Tree | str:
    """A copy of a tree with one text replaced; or why it cannot be. An absent key may be added where `was` is ''."""
    if not path:
        return "it names the record itself, not a place in it"
    copied: Any = dict(tree)
    here: Any = copied
    for step in path[:-1]:
        below = _below(here, step)
        if not isinstance(below, dict | list):
            return f"nothing stands at {step}"
        below = dict(below) if isinstance(below, dict) else list(below)
        here[_key(here, step)] = below
        here = below
    last = path[-1]
    stands = _below(here, last)
    if stands is None and was == "" and isinstance(here, dict):
        here[last] = now
    elif not isinstance(stands, str):
        return "no single value stands there"
    elif stands != was:
        return f"`{stands}` stands there, not `{was}`"
    else:
        here[_key(here, last)] = now
    return copied  # type: ignore[no-any-return]


def _key(here: Any, step: str) -> Any:
    return int(step) if isinstance(here, list) else step


def _below(here: Any, step: str) -> Any:
    if isinstance(here, dict):
        return here.get(step)
    return fields.entry(here, step)
