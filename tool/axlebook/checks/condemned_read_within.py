"""A reading was past a condemning limit, and a later one is within, though nothing tells what was done.

What is judged: everything measured that can be set, shimmed or renewed without a record of work on a wheel, and that
a condemning limit in force is for: lateral, crosshead, springs, an axle's gouge. Where a reading was outside that
limit, and what was read at the place later is within every limit, the record of some work on the part since has to
stand between the two, or a defect of it, open or closed. What only wear can change is asked about by what it gained
(metal-added and its like), a back-to-back by what it moved. A later reading kept with a reason (`reason_kept`), and
what the card is not sure of, is not asked about.

What to do: measure again at the very place. If it was put right, write a defect with its repair; if the first reading
was wrong, write a correction.

Source: the condemning limit named in the finding; that somebody has to tell is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from axlebook.findings import Finding, Severity, Verdict
from axlebook.limits import Bound, Judgement, Limit, judge
from axlebook.records.book import Book
from axlebook.records.condition import BEFORE_WORK, Site, Value, mean, values_of
from axlebook.records.reading import Reading
from axlebook.records.unsure import unsure_of

from ._defects import written_of
from ._judging import assess, reader, sites_told, sort_limits
from ._words import limit_figure, shown, value_figures
from .condemned_not_seen_again import worked_on

ID = "condemned-read-within"
ASKED_ELSEWHERE = frozenset({"back_to_back", "over_flanges_measured"})
NEXT = "Measure again at the very place. If it was put right, write a defect with its repair."


def check(book: Book) -> Iterator[Finding]:
    """Tell everything that was read past a condemning limit and is within without a word."""
    for quantity, word in book.vocabulary.quantities.items():
        if quantity in ASKED_ELSEWHERE or (word.wear != "none" and word.of in ("wheel", "tire", "end")):
            continue
        for site in sites_told(book, quantity):
            thing = site.thing(word.of)
            read = book.series.get((thing, quantity), []) if thing else []
            condemning = [x for x in _alone(book, site, quantity) if x.severity is Severity.CONDEMNING]
            bounds = [bound for limit in condemning for bound in limit.conditions[0].bounds]
            if bounds and any(_may_be_past(bounds, reading) for reading in read[:-1]):
                yield from _within_now(book, site, quantity, read)


def _alone(book: Book, site: Site, quantity: str) -> list[Limit]:
    """The limits that judge a quantity by itself."""
    return [limit for limit in book.limits_on(site.engine, quantity) if len(limit.conditions) == 1]


def _may_be_past(bounds: list[Bound], reading: Reading) -> bool:
    """Whether a reading may be past a bound, of whatever limit: of most readings none is, and nothing more is asked."""
    spans = [mean(measures) for _, measures in reading.values]
    return any(bound.value is None or bound.holds(span, bound.value) for bound in bounds for span in spans)


def _within_now(book: Book, site: Site, quantity: str, read: list[Reading]) -> Iterator[Finding]:
    """The last reading that was condemned, where all that is told now is within, and nothing tells why."""
    last = read[-1]
    if "reason_kept" in last.tree or any(one.verdict is not Verdict.WITHIN for one in assess(book, site, quantity)):
        return
    for reading in reversed(read[:-1]):
        found = None if reading.when in BEFORE_WORK else _condemned(book, site, reading)
        if found is not None and (reading.day.last or date.max) < (last.day.first or date.min):
            if not worked_on(book, site, reading.day) and not written_of(book, site, reading, last):
                yield _finding(book, site, *found, last)
            return


def _condemned(book: Book, site: Site, reading: Reading) -> tuple[Value, Judgement] | None:
    """A value of a reading that is outside a condemning limit, if there is one."""
    facets = reader(book, site)
    for limit in sort_limits(_alone(book, site, reading.quantity), facets).sure:
        for value in values_of(book, [reading]):
            if limit.severity is not Severity.CONDEMNING or (limit.where and limit.where != value.where):
                continue
            judged = judge(limit, {value.quantity: value.span}, facets)
            if judged.verdict is Verdict.OUTSIDE and not unsure_of(book, value):
                return value, judged
    return None


def _finding(book: Book, site: Site, was: Value, judged: Judgement, last: Reading) -> Finding:
    word = book.vocabulary.quantities[was.quantity]
    now = ", ".join(f"{value.position}: {shown(value.text)}" for value in values_of(book, [last])[:3])
    words = (
        f"{site.name}, {word.title}, {was.position}: {shown(was.text)} {was.day.text} "
        f"({was.readings[0].source.record}), past a condemning limit, and {now} {last.day.text} "
        f"({last.source.record}). No work and no defect on record tells what was done."
    )
    figures = (*value_figures(was, word.dimension, False), *limit_figure(judged))
    return Finding(
        ID, Verdict.SUSPECT, Severity.WATCH, site.name, last.at, words, figures, judged.limit.cited, NEXT,
        was.quantity, was.position,
    )  # fmt: skip
