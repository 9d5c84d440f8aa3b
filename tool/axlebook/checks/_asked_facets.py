"""Words by which an entry of a limit set asks for a fact, and which that fact never is: no part answers to them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from axlebook.findings import Place
from axlebook.limits import FacetTest, LimitSet
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.limit_set import build_tests
from axlebook.records.vocabulary import Word

SECTIONS = ("limits", "practices", "intervals", "watch", "paperwork")
NOT_KNOWN = "unknown"


class Never(NamedTuple):
    """One word of an entry, what was asked, and what the fact can be."""

    entry: str
    at: Place
    word: Word
    asked: str
    known: tuple[str, ...]  # empty where it is a measure


def asked_for_nothing(book: Book, told: Mapping[str, set[str]]) -> Iterator[Never]:
    """Every word that no part can answer; one such keeps an entry from every wheel, without a word.

    What is `told` under `facets` in the book is an answer, whatever it is.
    """
    roles = (*book.vocabulary.roles, *(line.role for engine in book.engines.values() for line in engine.lines))
    for one in book.limit_sets.values():
        for entry, at, test in _tests(one):
            word = book.vocabulary.facets.get(test.facet)
            if word is None:
                continue
            known = tuple(dict.fromkeys(roles)) if word.name == "role" else word.words
            for asked in _never(test, word, (*known, *told.get(word.name, ())) if known else ()):
                yield Never(entry, at, word, asked, known)


def _tests(one: LimitSet) -> Iterator[tuple[str, Place, FacetTest]]:
    """What a set asks of all that is in it, and each entry for itself."""
    trees = [(one.id, "", one.tree)]
    trees += [
        (f"{one.id}/{fields.text(tree, 'id')}", f"/{section}/{number}", tree)
        for section in SECTIONS
        for number, tree in enumerate(fields.items(one.tree, section))
        if tree
    ]
    for entry, pointer, tree in trees:
        asked = fields.inner(tree, "applies_to")
        for test in build_tests(asked) if asked else ():
            yield entry, Place(one.place.path, f"{pointer}/applies_to").below(test.facet), test


def _never(test: FacetTest, word: Word, known: tuple[str, ...]) -> list[str]:
    if word.dimension:  # of figures without a unit none is a measure
        return list(test.words) if test.words and len(test.figures) < len(test.words) else []
    return [asked for asked in test.words if asked not in known and asked != NOT_KNOWN] if known else []
