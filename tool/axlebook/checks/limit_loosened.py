"""A limit of the railway's own is looser than the published one it claims to tighten.

What is judged: every limit of a set that `tightens` another, against the limits of that one for the same quantity and
plane wherever the published one holds too: against its condemning limits, and those of the same stage. An own limit
that asks nothing of the track gauge holds at the gauges of the railway. A table is compared row by row where the
published one goes by the same facts, else by its loosest figure. Also whether the published set is in force
together with its own: alone, the own set would take the place of law. A limit with a docket and an expiry is an
authority's waiver, and is not loosened silently.

What to do: put the figure right. What an authority has allowed is a limit with `docket` and `expires_on`.

Source: the published set that the finding names.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Figure, Finding, Place, Severity, Verdict
from axlebook.limits import Adoption, Bound, FacetTest, Limit, LimitSet
from axlebook.records.book import Book
from axlebook.records.looser import covers, looser, looser_table

from ._records import title
from ._words import out_words

ID = "limit-loosened"
GAUGE = "track_gauge"


def check(book: Book) -> Iterator[Finding]:
    """Tell every limit that is looser than the published one, and own sets that stand alone."""
    for own in book.limit_sets.values():
        for id in own.tightens:
            published = book.limit_sets.get(id)
            if published is not None:
                yield from _compared(book, own, published)
                yield from _alone(book, own, published)


def _compared(book: Book, own: LimitSet, published: LimitSet) -> Iterator[Finding]:
    for limit in own.limits:
        if limit.docket and limit.expires_on:
            continue
        for other in published.limits:
            same = other.quantities == limit.quantities and other.where in ("", limit.where)
            staged = other.stage in ("condemning", limit.stage)
            if same and staged and any(covers(other.applies_to, here) for here in _where_it_holds(book, limit)):
                pairs = zip(limit.conditions, other.conditions, strict=True)
                bounds = [(a, b) for mine, law in pairs for a in mine.bounds for b in law.bounds]
                found = [(*pair, texts) for pair in bounds if (texts := _looser_by(limit, other, *pair))]
                if found and len(limit.conditions) == 1:
                    yield _finding(book, limit, other, *found[0])


def _looser_by(own: Limit, law: Limit, mine: Bound, published: Bound) -> tuple[str, str] | None:
    """The two figures where the own one is looser: its own, or one of its table's."""
    if looser(mine, published, law):
        return mine.text, law.table.texts[0] if law.table and published.value is None else published.text
    return looser_table(own, mine, law, published)


def _where_it_holds(book: Book, limit: Limit) -> Iterator[tuple[FacetTest, ...]]:
    """What a limit of the railway's own asks, with each track gauge the railway has where it asks none."""
    if any(test.facet == GAUGE for test in limit.applies_to):
        yield limit.applies_to
        return
    told = (book.ledger.track_gauge, *(engine.track_gauge for engine in book.engines.values()))
    for gauge in {gauge: None for gauge in told if gauge is not None}:
        just = tuple(Bound(word, gauge, "") for word in ("at_least", "at_most"))
        yield (*limit.applies_to, FacetTest(GAUGE, bounds=just))
    yield limit.applies_to


def _finding(book: Book, own: Limit, law: Limit, mine: Bound, published: Bound, texts: tuple[str, str]) -> Finding:
    return Finding(
        ID,
        Verdict.SUSPECT,
        Severity.DATA,
        own.id,
        own.place.below("out_when", mine.word),
        f"{own.id}, {title(book, own.quantities[0])}: out {out_words(mine, texts[0])}. {law.cited} says out "
        f"{out_words(published, texts[1])}: the railway's own limit is looser.",
        (
            Figure(f"own {mine.word}", texts[0], "", own.id),
            Figure(f"published {published.word}", texts[1], "", law.id),
        ),
        law.cited,
        "Put the figure right; what an authority has allowed needs its docket and its expiry.",
        quantity=own.quantities[0],
        where=law.id,
    )


def _alone(book: Book, own: LimitSet, published: LimitSet) -> Iterator[Finding]:
    adopting = [("the ledger", Place(book.ledger.path, "/defaults/limit_sets"), book.ledger.adoptions)]
    adopting += [(e.id, Place(e.path, "/overrides/limit_sets"), e.adoptions) for e in book.engines.values()]
    for who, place, adoptions in adopting:
        if _in_force(book, own, adoptions) and not _in_force(book, published, adoptions):
            yield Finding(
                ID,
                Verdict.SUSPECT,
                Severity.DATA,
                f"{who} {own.id}",
                place,
                f"{who} has adopted {own.id}, which tightens {published.id}, and that is not in force with it.",
                source=f"{published.title}, {published.edition}".rstrip(", "),
                next=f"Adopt {published.id} beside {own.id}: the tightest of the two is shown.",
                where=published.id,
            )


def _in_force(book: Book, limit_set: LimitSet, adoptions: tuple[Adoption, ...]) -> bool:
    return any(a.set_id == limit_set.id and a.in_force(book.as_of) for a in adoptions)
