"""Limits that were loosened, tightened, added, taken away or otherwise changed.

Which of two figures is looser is decided by the code that judges a railway's own limits against published ones.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import SEVERITY_ORDER, Place
from axlebook.limits import Bound, Limit, LimitSet
from axlebook.records.book import Book
from axlebook.records.looser import LEAST, covers, looser

from .limit_change import LimitChange, Way
from .limit_entries import interval_changes, other_changes
from .sides import Side, title_of

WORDS = {"under": "under", "at_most": "at or under", "over": "over", "at_least": "at or over"}


def limit_changes(before: Side, after: Side) -> list[LimitChange]:
    """Return every changed entry of every limit set, what was loosened first."""
    old, new = before.book.limit_sets, after.book.limit_sets
    found: list[LimitChange] = []
    for id in dict.fromkeys([*old, *new]):
        if old.get(id) is not new.get(id):
            found += _of_set(after.book, old.get(id), new.get(id))
    order = list(Way)
    return sorted(found, key=lambda change: (order.index(change.way), change.id))


def _of_set(book: Book, old: LimitSet | None, new: LimitSet | None) -> Iterator[LimitChange]:
    shelf = new or old
    assert shelf is not None
    was = {limit.id: limit for limit in old.limits} if old else {}
    now = {limit.id: limit for limit in new.limits} if new else {}
    for id in dict.fromkeys([*was, *now]):
        change = _limit(book, shelf, was.get(id), now.get(id))
        if change is not None:
            yield change
    yield from interval_changes(shelf, old, new)
    yield from other_changes(shelf, old, new)


def _limit(book: Book, shelf: LimitSet, was: Limit | None, now: Limit | None) -> LimitChange | None:
    one = now or was
    assert one is not None
    way = Way.TAKEN_AWAY if now is None else Way.ADDED if was is None else way_of(was, now)
    if way is None:
        return None
    title = one.title or ", ".join(title_of(book, name) for name in one.quantities)
    words = _rows_that_differ(was, now) or (_words(was), _words(now))
    return LimitChange(one.id, shelf.title, one.place.path, way, title, *words, one.clause, one.docket)


def _rows_that_differ(was: Limit | None, now: Limit | None) -> tuple[str, str] | None:
    """What differs, where that is only some figures of a long table."""
    if was is None or now is None or was.table is None or now.table is None or was.table == now.table:
        return None
    keys = [row[:-1] for row in was.table.rows]
    if keys != [row[:-1] for row in now.table.rows] or _judging(was._replace(table=now.table)) != _judging(now):
        return None
    pairs = enumerate(zip(was.table.texts, now.table.texts, strict=True), 1)
    told = [(f"{old} in row {row}", f"{new} in row {row}") for row, (old, new) in pairs if old != new]
    return "; ".join(old for old, _ in told), "; ".join(new for _, new in told)


def way_of(was: Limit, now: Limit) -> Way | None:
    """Which way a limit went; None where it judges as before."""
    if _judging(was) == _judging(now):
        return None
    ways = set(_bound_ways(was, now)) | set(_facet_ways(was, now)) | set(_stage_ways(was, now))
    return ways.pop() if len(ways) == 1 else Way.LOOSENED if Way.LOOSENED in ways else Way.CHANGED


def _judging(limit: Limit) -> Limit:
    """A limit without what does not judge: where it stands, its words, how its figures are written."""
    conditions = tuple(
        one._replace(bounds=tuple(bound._replace(text="") for bound in one.bounds)) for one in limit.conditions
    )
    table = limit.table and limit.table._replace(texts=())
    blank = limit._replace(place=Place(""), title="", note="", source="", clause="")
    return blank._replace(conditions=conditions, table=table)


def _bound_ways(was: Limit, now: Limit) -> Iterator[Way]:
    if was.quantities != now.quantities:
        yield Way.CHANGED
        return
    for old, new in zip(was.conditions, now.conditions, strict=True):
        for low in (True, False):
            yield from _pair(_side(old.bounds, low=low), _side(new.bounds, low=low), was, now)


def _side(bounds: tuple[Bound, ...], *, low: bool) -> Bound | None:
    return next((bound for bound in bounds if (bound.word in LEAST) is low), None)


def _pair(old: Bound | None, new: Bound | None, was: Limit, now: Limit) -> Iterator[Way]:
    if old is None or new is None:
        if old is not new:
            yield Way.TIGHTENED if old is None else Way.LOOSENED
        return
    if was.table is not None and now.table is not None and old.value is None and new.value is None:
        yield from _table_ways(was, now, least=new.word in LEAST)
        return
    if looser(new, old, was):
        yield Way.LOOSENED
    elif looser(old, new, now):
        yield Way.TIGHTENED
    elif (old.word, old.value) != (new.word, new.value):
        yield Way.CHANGED


def _table_ways(was: Limit, now: Limit, *, least: bool) -> Iterator[Way]:
    assert was.table is not None
    assert now.table is not None
    if was.table == now.table:
        return
    old, new = ({row[:-1]: row[-1] for row in table.rows} for table in (was.table, now.table))
    if old.keys() != new.keys() or was.table.columns != now.table.columns:
        yield Way.CHANGED
        return
    for key, figure in new.items():
        other = old[key]
        if figure is None or other is None:
            if figure is not other:
                yield Way.CHANGED
        elif figure != other:
            yield Way.LOOSENED if (figure < other) is least else Way.TIGHTENED


def _facet_ways(was: Limit, now: Limit) -> Iterator[Way]:
    if was.applies_to != now.applies_to:
        wider, narrower = covers(now.applies_to, was.applies_to), covers(was.applies_to, now.applies_to)
        yield Way.CHANGED if wider is narrower else Way.TIGHTENED if wider else Way.LOOSENED
    if (was.where, was.decision, was.replaces) != (now.where, now.decision, now.replaces):
        yield Way.CHANGED


def _stage_ways(was: Limit, now: Limit) -> Iterator[Way]:
    old, new = SEVERITY_ORDER[was.severity], SEVERITY_ORDER[now.severity]
    if old != new:
        yield Way.LOOSENED if new > old else Way.TIGHTENED
    elif was.stage != now.stage:
        yield Way.CHANGED
    if was.expires_on != now.expires_on:
        later = now.expires_on is None or (was.expires_on is not None and now.expires_on > was.expires_on)
        waiver = bool(now.docket or was.docket)
        yield Way.LOOSENED if later is waiver else Way.TIGHTENED
    if was.docket != now.docket:
        yield Way.CHANGED


def _words(limit: Limit | None) -> str:
    """A limit as a person reads it: `out under 1 1/2 in, condemning`."""
    if limit is None:
        return ""
    parts = []
    for condition in limit.conditions:
        name = f"{condition.quantity} " if len(limit.conditions) > 1 else ""
        told = [f"{WORDS[bound.word]} {_figure(limit, bound)}" for bound in condition.bounds]
        parts.append(f"{name}{' or '.join(told) or 'when seen'}")
    for_what = [f"{test.facet} {_asked(test.words, test.bounds)}" for test in limit.applies_to]
    more = [limit.where, limit.stage, *for_what, f"until {limit.expires_on}" if limit.expires_on else ""]
    return ", ".join(["out " + " and ".join(parts), *filter(None, more)])


def _figure(limit: Limit, bound: Bound) -> str:
    return " / ".join(limit.table.texts) if bound.value is None and limit.table else bound.text


def _asked(words: tuple[str, ...], bounds: tuple[Bound, ...]) -> str:
    return " or ".join([*words, *(f"{WORDS[bound.word]} {bound.text}" for bound in bounds)])
