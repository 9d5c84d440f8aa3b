"""The limits that will judge a reading yet to be taken: each figure with its clause, and that there is none, said."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from axlebook.limits import Condition, FacetReader, Limit, judge, point
from axlebook.limits.citation import source_and_clause
from axlebook.records.book import Book
from axlebook.records.condition import Site, Stand

from ._judging import reader, sort_limits
from ._not_known import not_on_record, without_figure
from ._words import OUT_WORDS

BELOW = ("under", "at_most")
CONDEMNING = "condemning"
NO_LIMIT = "no limit on file"


class Governing(NamedTuple):
    """One figure a reading will be held against."""

    words: str  # out at or under 15/16 in
    value: Fraction | None
    word: str
    stage: str
    source: str
    clause: str
    id: str
    of: str = ""  # title of what is worked out from the reading, where it is that which is judged

    @property
    def cited(self) -> str:
        """Source and clause for a reader."""
        return source_and_clause(self.source, self.clause)


class Governed(NamedTuple):
    """All figures that matter for one quantity on one thing; `gap` says what is not known where that is so."""

    limits: tuple[Governing, ...]
    gap: str = ""


def governed(book: Book, site: Site, what: str) -> Governed:
    """The tightest limit each way, and the tightest condemning one; else those on what is worked out from it."""
    facets = reader(book, site)
    found = sort_limits([x for x in book.limits_on(site.engine, what) if len(x.conditions) == 1], facets)
    own = _tightest([one for limit in found.sure for one in _figures(book, site, limit)])
    worked_out = _worked_out(book, site, what)
    if own or worked_out:
        return Governed((*own, *worked_out))
    unasked = found.perhaps or _perhaps_worked_out(book, site, what, facets)
    if unasked:
        return Governed((), f"not known which limit is for it; {not_on_record(book, unasked, facets)[0]}")
    for limit in found.sure:
        if lacking := without_figure(book, limit, facets):
            return Governed((), f"figure of {limit.clause} not known; {lacking[0]}")
    return Governed((), NO_LIMIT)


def _perhaps_worked_out(book: Book, site: Site, what: str, facets: FacetReader) -> list[Limit]:
    """Limits on what is worked out from it and judged for it, of which it is not known whether they are for it."""
    derived = [name for name, word in book.vocabulary.derived.items() if what in word.speaks_for]
    return [limit for name in derived for limit in sort_limits(book.limits_on(site.engine, name), facets).perhaps]


def _figures(book: Book, site: Site, limit: Limit, of: str = "") -> list[Governing]:
    """Each bound of a limit with its figure, from the table where it stands there."""
    condition = limit.conditions[0]
    if condition.seen:
        return [_of(limit, "seen", None, "seen", of)]
    found = []
    for bound in condition.bounds:
        alone = limit._replace(conditions=(Condition(condition.quantity, (bound,)),))
        judged = judge(alone, {condition.quantity: point(Fraction(0))}, reader(book, site))
        if judged.value is not None:
            where = f", {limit.where}" if limit.where else ""
            words = f"{OUT_WORDS[bound.word]} {judged.text}{where}"
            found.append(_of(limit, words, judged.value, bound.word, of))
    return found


def _of(limit: Limit, words: str, value: Fraction | None, word: str, of: str) -> Governing:
    return Governing(words, value, word, limit.stage, limit.source, limit.clause, limit.id, of)


def _tightest(found: list[Governing]) -> list[Governing]:
    kept: list[Governing] = []
    for below in (True, False):
        figures = [one for one in found if one.value is not None and (one.word in BELOW) is below]
        ranked = sorted(figures, key=lambda one: (one.value or Fraction(0)) * (-1 if below else 1))
        kept += ranked[:1]
        kept += [one for one in ranked if one.stage == CONDEMNING and one not in kept][:1]
    seen = [one for one in found if one.value is None]
    return kept + seen[:1]


def _worked_out(book: Book, site: Site, what: str) -> list[Governing]:
    """What is worked out from this alone, such as the difference of two wheels, and judged beside or for it."""
    found: list[Governing] = []
    for name, word in book.vocabulary.derived.items():
        if word.comes_from == (what,) or what in word.speaks_for:
            here = _whole(site) if word.of in ("wheelset", "engine") else site
            alone = [x for x in book.limits_on(site.engine, name) if len(x.conditions) == 1]
            sure = sort_limits(alone, reader(book, here)).sure
            figures = [one for limit in sure for one in _figures(book, here, limit, word.title)]
            found += _tightest(figures)
    return found


def _whole(site: Site) -> Site:
    return site._replace(side="", end="", center=None, tire=None) if isinstance(site, Stand) else site


def sizes_governed(book: Book, site: Site, what: str) -> tuple[Governing, ...]:
    """The limits on something to look for: that it is seen, and its sizes."""
    facets, word = reader(book, site), book.vocabulary.observations.get(what)
    found: list[Governing] = []
    for name in (what, *(word.sizes if word else ())):
        sure = sort_limits([x for x in book.limits_on(site.engine, name) if len(x.conditions) == 1], facets).sure
        size = book.vocabulary.sizes.get(name)
        found += _tightest([one for limit in sure for one in _figures(book, site, limit, size.title if size else "")])
    return tuple(found)


__all__ = ["NO_LIMIT", "Governed", "Governing", "governed", "sizes_governed"]
