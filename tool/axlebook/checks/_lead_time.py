"""What will be worn to a limit before the lathe, or new tires, can be had; looked for cheaply in a large book."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from fractions import Fraction
from itertools import groupby

from axlebook.records.book import Book
from axlebook.records.condition import Stale, Stand, values_now
from axlebook.records.vocabulary import Word
from axlebook.records.wear import FALLS, series_by_thing, wearing_words
from axlebook.trends.series import Series

from ._forecast import NEW_TIRE_MENDS, STAGES, TOWARDS, TURNING_MENDS, Forecast, Order, lead_days, mended_by

FASTER = 3  # times the fastest wear between two works that a forecast is let through with


def ordered_too_late(made: Forecast) -> Order | None:
    """What cannot be there any more when a limit is reached at the middle rate, wear being certain; None where it can.

    A limit that the last reading is out by already is told by the check of that limit.
    """
    line, what = made.line, mended_by(made.site, made.word.name)
    order = made.order
    if order is None or line is None or not line.certain or any(reach.out for reach in made.reaches):
        return None
    due = [r for r in made.reaches if r.middle is not None and r.middle < date.max]
    if not due:
        return None
    first = min(due, key=lambda reach: reach.middle or date.max)
    assert first.middle is not None
    if (first.middle - made.position.as_of).days > order.lead:
        return None
    return Order(what, order.by, order.lead, first)


def overtaken_by_lead(book: Book, stands: Iterable[Stand]) -> Iterator[tuple[Word, Stand]]:
    """What could reach a limit within its lead time at all: a few of many, found without a rate.

    The fastest wear between any two works, several times over, is held against what is left; the forecast decides.
    """
    leads = {what: lead for what in ("lathe", "tires") if (lead := lead_days(book, what)) is not None}
    words = [word for word in wearing_words(book) if mended(word.name) in leads]
    if not words:
        return
    for stand in stands:
        if not stand.side:
            continue
        for word in words:
            what = mended_by(stand, word.name)
            if what in leads and _could(book, stand, word, leads[what]):
                yield word, stand


def mended(quantity: str) -> str:
    """What mends a worn quantity of a tire."""
    return "lathe" if quantity in TURNING_MENDS else "tires" if quantity in NEW_TIRE_MENDS else ""


def _could(book: Book, stand: Stand, word: Word, lead: int) -> bool:
    found = values_now(book, stand, word.name)
    if isinstance(found, Stale) or not found:
        return False
    falling = word.wear == FALLS
    limits = [x for x in book.limits_on(stand.engine, word.name) if x.stage in STAGES and len(x.conditions) == 1]
    bounds = [b for x in limits for b in x.conditions[0].bounds if b.word in TOWARDS[falling]]
    figures = [b.value for b in bounds if b.value is not None]
    figures += [row[-1] for x in limits if x.table for row in x.table.rows if row[-1] is not None]
    if not figures:
        return False
    limit = max(figures) if falling else min(figures)
    thing = stand.thing(word.of)
    if thing is None:
        return False
    return any(_near(one, limit, book.as_of, lead, falling=falling) for one in series_by_thing(book)[thing, word.name])


def _near(series: Series, limit: Fraction, as_of: date, lead: int, *, falling: bool) -> bool:
    last = series.points[-1]
    left = last.value - limit if falling else limit - last.value
    fastest = Fraction(0)
    for _, run in groupby(series.points, key=lambda point: point.epoch):
        points = list(run)
        values = [point.value for point in points]
        span = max((points[-1].day - points[0].day).days, 1)
        fastest = max(fastest, (max(values) - min(values)) / span)
    return left <= FASTER * fastest * ((as_of - last.day).days + lead)
