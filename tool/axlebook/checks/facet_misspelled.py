"""A fact that limits ask for is told in a word that is none of theirs, and near to one.

What is judged: every word under `facets` of the ledger, an engine, one of its places (`facets_at`) and a wheelset,
against the words that the limits on file ask that fact for. A limit for `swing` is not for `swinging`, and so refuses
the truck as it does one that is rigid; where another limit judges the same reading, nothing else tells of it.

What to do: write the word as the limit does. If another thing is meant, choose a word that is not so near.

Source: the limits on file.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.quantities import NotAMeasure, parse_measure
from axlebook.records import fields
from axlebook.records.book import Book

from ._records import nearest

ID = "facet-misspelled"
ANYWHERE = frozenset({"yes", "no", "unknown"})


def check(book: Book) -> Iterator[Finding]:
    """Tell every word of a facet that is most likely meant for another."""
    asked: dict[str, set[str]] = defaultdict(set)
    for test in (t for s in book.limit_sets.values() for limit in s.limits for t in limit.applies_to):
        asked[test.facet].update(test.words)
    for who, at, facets in _told(book):
        for name, word in facets.items():
            known = asked.get(name, set())
            if not isinstance(word, str) or not known or word in known | ANYWHERE or _is_measure(word):
                continue
            if near := nearest(word, known):
                title = book.vocabulary.facets[name].title
                yield Finding(
                    ID, Verdict.SUSPECT, Severity.DATA, who, at.below(name),
                    f"{who}: {title} is told as `{word}`, and no limit on file knows that word. Those that ask for it "
                    f"know {', '.join(sorted(known))}: none of them judges there.",
                    source="the limits on file", next=f"Write `{near}` if that is meant.", where=name,
                )  # fmt: skip


def _told(book: Book) -> Iterator[tuple[str, Place, fields.Tree]]:
    """Who tells facets, where that stands, and what is told."""
    yield "the ledger", Place(book.ledger.path, "/facets"), book.ledger.facets
    for engine in book.engines.values():
        yield engine.id, Place(engine.path, "/facets"), engine.facets
        for at, told in fields.inner(engine.tree, "facets_at").items():
            if isinstance(told, dict):
                yield f"{engine.id} {at}", Place(engine.path, "/facets_at").below(at), told
    for wheelset in book.wheelsets.values():
        yield wheelset.id, Place(wheelset.path, "/facets"), fields.inner(wheelset.tree, "facets")


def _is_measure(word: str) -> bool:
    try:
        parse_measure(word)
    except NotAMeasure:
        return False
    return True
