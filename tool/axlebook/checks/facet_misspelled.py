"""A fact that limits ask for is told in a word that is none of theirs, and near to one; or asked for in none it has.

What is judged: every word under `facets` of the ledger, an engine, one of its places (`facets_at`) and a wheelset,
against the words that the limits on file ask that fact for. A limit for `swing` is not for `swinging`, and so refuses
the truck as it does one that is rigid; where another limit judges the same reading, nothing else tells of it.

And every word by which an entry of a limit set asks for a fact that can be but a few things: a limit for `drivers` is
for none, as is one that asks a diameter without its unit.

What to do: write the word as the limit does. If another thing is meant, choose a word that is not so near. In a limit
set, write one of the words that the finding names.

Source: the limits on file, and the vocabulary.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from axlebook.findings import Finding, Place, Severity, Verdict
from axlebook.quantities import NotAMeasure, parse_measure
from axlebook.records import fields
from axlebook.records.book import Book

from ._asked_facets import Never, asked_for_nothing
from ._records import nearest

ID = "facet-misspelled"
ANYWHERE = frozenset({"yes", "no", "unknown"})


def check(book: Book) -> Iterator[Finding]:
    """Tell every word of a facet that is most likely meant for another."""
    asked: dict[str, set[str]] = defaultdict(set)
    for test in (t for s in book.limit_sets.values() for limit in s.limits for t in limit.applies_to):
        asked[test.facet].update(test.words)
    told: dict[str, set[str]] = defaultdict(set)
    for who, at, facets in _told(book):
        for name, word in facets.items():
            told[name].add(str(word))
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
    for never in asked_for_nothing(book, told):
        yield _asked(never)


def _asked(never: Never) -> Finding:
    words, asked = ", ".join(never.known), never.asked
    near = nearest(asked, set(never.known))
    step = f"Write `{near}` if that is meant." if near else f"Write one of {words}."
    return Finding(
        ID, Verdict.SUSPECT, Severity.DATA, never.entry, never.at,
        f"{never.entry} asks for {never.word.title} `{asked}`, which "
        f"{f'is none of {words}' if never.known else 'has no unit'}: no part answers to that.",
        source="the vocabulary of the ledger", next=step if never.known else "Write the unit after it.",
        where=f"{never.word.name} {asked}",
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
