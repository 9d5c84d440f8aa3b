"""A record still says what its template said.

What is judged: every record. Where something must be told, a template has `...` in its place, which states nothing. A
template of an instrument or a person has `unknown` for what it is or does: where nothing else was written either,
nobody filled it in. Who honestly does not know it writes one thing more, a note.

What to do: write what is asked for there, or take the record away.

Source: the templates that `axlebook new` writes.
"""

from __future__ import annotations

import marshal
from collections.abc import Iterator, Mapping

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.fields import Tree
from axlebook.records.to_write import BLANK

from ._references import all_trees

ID = "left-as-template"
ITS_BYTES = BLANK.encode()  # as they stand in a record, whatever it is written in
TOGETHER = 100  # records that are asked at once
UNTOLD = ({"kind": "instrument", "type": "unknown"}, {"kind": "person", "role": "unknown"})


def check(book: Book) -> Iterator[Finding]:
    """Tell every record that was not filled in."""
    sets = ((one.id, one.place.path, one.tree) for one in book.limit_sets.values())
    records = [*all_trees(book), *sets]
    for first in range(0, len(records), TOGETHER):
        yield from _told(records[first : first + TOGETHER])


def _told(records: list[tuple[str, str, Tree]]) -> Iterator[Finding]:
    # few have such dots; to go through each takes seven times as long
    some_have = ITS_BYTES in marshal.dumps([dict(tree) for _, _, tree in records])
    for record, path, tree in records:
        if some_have:
            for pointer in _asking(tree, ""):
                yield _finding(record, Place(path, pointer), f"`{pointer[1:].replace('/', ': ')}` was not filled in")
        if tree in UNTOLD:
            yield _finding(record, Place(path), "nothing of it was filled in")


def _asking(value: object, pointer: str) -> Iterator[str]:
    """Where a template's dots are left."""
    if value == BLANK:
        yield pointer
    elif isinstance(value, Mapping):
        for key, inside in value.items():
            yield from _asking(inside, f"{pointer}/{str(key).replace('~', '~0').replace('/', '~1')}")
    elif isinstance(value, list):
        for index, inside in enumerate(value):
            yield from _asking(inside, f"{pointer}/{index}")


def _finding(record: str, place: Place, words: str) -> Finding:
    return Finding(
        ID, Verdict.SUSPECT, Severity.DATA, record, place, f"{record}: {words}; it stands as the template left it.",
        source="the template of its kind", next="Write what is asked for there, or take the record away.",
        where=place.pointer,
    )  # fmt: skip
