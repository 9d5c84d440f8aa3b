"""Whether one bound is looser than another, and whether one limit holds wherever another does."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import islice, product

from axlebook.limits import Bound, FacetTest, Limit, Table

LEAST = ("under", "at_most")  # out when too small: looser is a smaller figure
MOST = 10_000  # of two tables, more sizes than any has: no table makes the comparison endless


def looser(own: Bound, published: Bound, law: Limit) -> bool:
    """Whether a value can be out by the published bound and not by the own one."""
    if (own.word in LEAST) != (published.word in LEAST) or own.value is None:
        return False
    figures = [published.value] if published.value is not None else _figures(law)
    if not figures:
        return False
    if own.word in LEAST:
        least = min(figures)  # of a table only what every row of it asks for is compared
        return own.value < least or (own.value == least and (own.word, published.word) == ("under", "at_most"))
    most = max(figures)
    return own.value > most or (own.value == most and (own.word, published.word) == ("over", "at_least"))


def _figures(law: Limit) -> list[Fraction]:
    return [row[-1] for row in law.table.rows if row[-1] is not None] if law.table else []


def looser_table(own: Limit, bound: Bound, law: Limit, published: Bound) -> tuple[str, str] | None:
    """Where a table of one's own is looser: its figure and the published one; by the same facts row by row.

    Where the two go by other facts, its loosest figure is held against what every row of the published one asks.
    """
    if bound.value is not None or own.table is None or (bound.word in LEAST) != (published.word in LEAST):
        return None
    if published.value is None and law.table is not None and law.table.facets == own.table.facets:
        pairs = [(own.table.look_up(sizes), law.table.look_up(sizes)) for sizes in _sizes(own.table, law.table)]
    else:
        told = published.text if published.value is not None else law.table.texts[0] if law.table else ""
        theirs = [published.value] if published.value is not None else _figures(law)
        least = min if published.word in LEAST else max
        figures = zip(own.table.rows, own.table.texts, strict=True)
        mines = [(row[-1], text) for row, text in figures if row[-1] is not None]
        pairs = [(mine, (least(theirs), told)) for mine in mines] if theirs else []
    for mine, other in pairs:
        if mine and other and looser(bound._replace(value=mine[0]), published._replace(value=other[0]), law):
            return mine[1], other[1]
    return None


def _sizes(one: Table, other: Table) -> Iterator[tuple[Fraction, ...]]:
    """Every combination of the sizes at which one of two tables goes over to another row, and of more than all."""
    columns = []
    for column in range(len(one.facets)):
        known = sorted({end for row in (*one.rows, *other.rows) if (end := row[column]) is not None})
        columns.append([*known, known[-1] + 1] if known else [Fraction(0)])
    return islice(product(*columns), MOST)


def covers(published: Iterable[FacetTest], own: Iterable[FacetTest]) -> bool:
    """Whether the published limit holds wherever the own one does."""
    asked: dict[str, list[FacetTest]] = {}
    for test in own:
        asked.setdefault(test.facet, []).append(test)
    return all(any(_narrower(mine, test) for mine in asked.get(test.facet, ())) for test in published)


def _narrower(own: FacetTest, published: FacetTest) -> bool:
    if own.words or published.words:
        return bool(own.words) and set(own.words) <= set(published.words)
    return all(any(_implies(mine, bound) for mine in own.bounds) for bound in published.bounds)


def _implies(own: Bound, published: Bound) -> bool:
    if own.value is None or published.value is None or (own.word in LEAST) != (published.word in LEAST):
        return False
    if own.value == published.value:
        return own.word == published.word or own.word in ("under", "over")
    return own.value < published.value if own.word in LEAST else own.value > published.value
