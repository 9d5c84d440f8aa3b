"""Whether one bound is looser than another, and whether one limit holds wherever another does."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from axlebook.limits import Bound, FacetTest, Limit

LEAST = ("under", "at_most")  # out when too small: looser is a smaller figure


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
