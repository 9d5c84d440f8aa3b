"""What will be worn to a limit before the lathe, or new tires, can be had; looked for cheaply in a large book."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from axlebook.limits import point
from axlebook.records.book import Book
from axlebook.records.condition import Stand
from axlebook.records.vocabulary import Word
from axlebook.records.wear import FALLS, series_by_thing, wearing_words
from axlebook.trends.series import Dated, Series

from ._forecast import NEW_TIRE_MENDS, STAGES, TOWARDS, TURNING_MENDS, Forecast, Order, lead_days, mended_by, targets

FASTER = 2  # times the fastest mean wear between two works that a forecast is let through with


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

    The fastest mean wear between two works, twice over, is held against what is left; the forecast decides.
    """
    leads = {what: lead for what in ("lathe", "tires") if (lead := lead_days(book, what)) is not None}
    words = [word for word in wearing_words(book) if mended(word.name) in leads]
    series = series_by_thing(book) if words else {}
    edges: dict[tuple[str, str], float | None] = {}
    for stand in stands:
        for word in words if stand.side else ():
            thing = stand.thing(word.of)
            found = series.get((thing, word.name)) if thing else None
            if not found:
                continue
            key = (stand.engine.id, word.name)
            if key not in edges:
                edges[key] = _outermost(book, stand, word)
            edge, lead = edges[key], leads[mended(word.name)]
            near = [one for one in found if edge is not None and _near(one, edge, book.as_of, lead, word.wear == FALLS)]
            if any(_near_its_own(book, stand, word, one, lead) for one in near):
                yield word, stand


def mended(quantity: str) -> str:
    """What mends a worn quantity of a tire."""
    return "lathe" if quantity in TURNING_MENDS else "tires" if quantity in NEW_TIRE_MENDS else ""


def _outermost(book: Book, stand: Stand, word: Word) -> float | None:
    """The figure that wear meets first of all limits on an engine, whatever they apply to; None where there is none."""
    falling = word.wear == FALLS
    limits = [x for x in book.limits_on(stand.engine, word.name) if x.stage in STAGES and len(x.conditions) == 1]
    bounds = [b for x in limits for b in x.conditions[0].bounds if b.word in TOWARDS[falling]]
    figures = [float(b.value) for b in bounds if b.value is not None]
    figures += [float(row[-1]) for x in limits if x.table for row in x.table.rows if row[-1] is not None]
    return (max if falling else min)(figures, default=None)


def _near_its_own(book: Book, stand: Stand, word: Word, series: Series, lead: int) -> bool:
    """The same by the limits that are for this thing; what is out by one is told by the check of that limit."""
    falling, newest = word.wear == FALLS, series.points[-1].epoch
    last = {one.way[1]: one for one in series.points if one.epoch == newest}  # by plane
    for where, one in last.items():
        own = targets(book, stand, word.name, falling=falling, where=where)
        if not own or any(target.bound.holds(point(one.value), target.value) for target in own):
            continue
        edge = (max if falling else min)(float(target.value) for target in own)
        if _near(series, edge, book.as_of, lead, falling):
            return True
    return False


def _near(series: Series, edge: float, as_of: date, lead: int, falling: bool) -> bool:
    points = series.points
    last, first = points[-1], points[0]
    fastest, before = 0.0, first
    for one in points:
        if one.epoch != first.epoch:
            fastest = max(fastest, _speed(first, before))
            first = one
        before = one
    fastest = max(fastest, _speed(first, last))
    left = float(last.value) - edge if falling else edge - float(last.value)
    return left <= FASTER * fastest * ((as_of - last.day).days + lead)


def _speed(first: Dated, last: Dated) -> float:
    return abs(float(last.value) - float(first.value)) / max((last.day - first.day).days, 1)
