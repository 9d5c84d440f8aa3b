"""When what wears reaches the limits in force: each limit named, the soonest position first, and when to order by.

Limits are those that judge the reading today, sorted by the same facets and looked up in the same tables.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from functools import cached_property
from typing import NamedTuple

from axlebook.findings import SEVERITY_ORDER
from axlebook.limits import Bound, FacetReader, Limit, judge, point
from axlebook.records import fields
from axlebook.records.book import Book
from axlebook.records.condition import Site, Stand
from axlebook.records.vocabulary import Word
from axlebook.records.wear import HORIZON, Position, positions, wearing_words
from axlebook.trends.forecast import Line, Meeting, meet
from axlebook.trends.rate import by_day

from ._judging import reader, sites, sort_limits
from ._not_known import not_on_record, without_figure

STAGES = ("condemning", "shop")  # what a part wears down to; `new` is asked of fresh work only
TOWARDS = {True: ("under", "at_most"), False: ("over", "at_least")}
WORN_FROM_ORIGINAL = {"journal_diameter": "journal_wear"}
TURNING_MENDS = frozenset({"flange_height", "flange_thickness", "flange_gradient", "tread_hollow"})
NEW_TIRE_MENDS = frozenset({"tire_thickness", "thickness_throat_to_counterbore", "thickness_from_ring"})
DAY = 86400  # seconds
WRITE_WHERE = "Write where it was read, or with which gauge, in the record."


class Target(NamedTuple):
    """A figure that a limit says out at, in the direction of wear."""

    limit: Limit
    bound: Bound
    value: Fraction
    text: str  # as written


class Kept(NamedTuple):
    """A limit in force that a reading is not held against, and what keeps it from being."""

    limit: Limit
    lacks: str  # plane, facet
    words: str
    write: str  # what to do about it


class Reach(NamedTuple):
    """When one position reaches one limit; dates, None for never, date.max for beyond 50 years."""

    target: Target
    meeting: Meeting  # by calendar days
    early: date | None
    middle: date | None
    late: date | None
    out: bool  # the last reading says so already

    @property
    def figure(self) -> float:
        """The limit's figure, SI."""
        return float(self.target.value)

    @property
    def soonest(self) -> date | None:
        """The day to reckon with: the early end of the interval, or the middle where there is none."""
        return self.early if self.meeting.has_interval else self.middle


class Order(NamedTuple):
    """What has to be ordered, and by which day so that it is there at the early end."""

    what: str  # lathe, tires
    by: date
    lead: int  # days
    reach: Reach


@dataclass(frozen=True)
class Forecast:
    """One quantity of one thing: all positions, the one that governs, and when it reaches the limits."""

    site: Site
    word: Word
    position: Position  # the one that governs
    others: tuple[Position, ...]
    reaches: tuple[Reach, ...]  # the soonest first
    no_limit: bool  # neither one that was applied nor one that something keeps from being applied
    kept: tuple[Kept, ...]
    order: Order | None

    @property
    def line(self) -> Line | None:
        """The line by calendar days."""
        return self.position.by_days

    @property
    def readings(self) -> int:
        """How many readings the position has."""
        return len(self.position.series.points)

    @cached_property
    def state(self) -> str:
        """In one phrase what can be said of the wear."""
        if self.line is None:
            return "too few readings"
        return "wears" if self.line.wears else "no wear seen"


def forecasts(book: Book, words: Iterable[Word] = (), chosen: Iterable[Site] | None = None) -> list[Forecast]:
    """Every forecast of the book, the soonest to a limit first."""
    wanted = None if chosen is None else set(map(id, chosen))
    found = [
        made
        for word in words or wearing_words(book)
        for site in sites(book, word.name)
        if wanted is None or id(site) in wanted
        if (made := forecast(book, site, word)) is not None
    ]
    return sorted(found, key=_order_key)


def forecast(book: Book, site: Site, word: Word) -> Forecast | None:
    """The forecast of one quantity of a thing; None where it was never read there."""
    found = positions(book, site, word)
    if not found:
        return None
    named = [(one, _targets(book, one)) for one in found]
    reached = [(one, known, _reaches(one, known)) for one, known in named]
    governing, known, reaches = min(reached, key=lambda of: (_soonest(of[2]), _state_rank(of[0])))
    others = tuple(one for one in found if one is not governing)
    kept = tuple(_kept(book, governing, known))
    return Forecast(site, word, governing, others, reaches, not known and not kept, kept,
                    _order(book, site, word, reaches))  # fmt: skip


def _state_rank(position: Position) -> float:
    """Where no limit decides, the position that lost most."""
    line = position.by_days
    return math.inf if line is None else (1 if position.falling else -1) * line.at(by_day(position.as_of))


def _soonest(reaches: tuple[Reach, ...]) -> date:
    days = [reach.soonest for reach in reaches if reach.soonest is not None]
    return min(days, default=date.max)


def _order_key(made: Forecast) -> tuple[date, str, str, str]:
    at = made.site.line.at if isinstance(made.site, Stand) else ""
    return _soonest(made.reaches), made.site.engine.id, at, f"{made.site.name} {made.word.name}"


def _targets(book: Book, position: Position) -> list[Target]:
    return targets(book, position.site, position.word.name, falling=position.falling, where=position.where)


def _reaches(position: Position, known: list[Target]) -> tuple[Reach, ...]:
    """When a position reaches its limits."""
    line = position.by_days
    if line is None or position.stale is not None:
        return ()
    last = point(position.last_there.value)
    found = (
        _reach(line, target, position.as_of, out=target.bound.holds(last, target.value) is True) for target in known
    )
    return tuple(sorted(found, key=lambda r: (r.soonest or date.max, SEVERITY_ORDER[r.target.limit.severity])))


def _reach(line: Line, target: Target, as_of: date, *, out: bool) -> Reach:
    now = by_day(as_of)
    met = meet(line, float(target.value), now, now + HORIZON)
    early, middle, late = _date(met.early, down=True), _date(met.middle, down=True), _date(met.late, down=False)
    return Reach(target, met, early, middle, late, out)


def _date(time: float | None, *, down: bool) -> date | None:
    """A day by its number: rounded to the earlier day where that is the careful one."""
    if time is None:
        return None
    if time >= date.max.toordinal():
        return date.max
    return date.fromordinal(max(math.floor(time) if down else math.ceil(time), 1))


# -- limits ----------------------------------------------------------------------------------------------------------


def targets(book: Book, site: Site, quantity: str, *, falling: bool, where: str) -> list[Target]:
    """The limits in force that wear brings a quantity of a thing to, each with its figure."""
    facets = reader(book, site)
    found = list(_on(book, site, quantity, TOWARDS[falling], facets, where))
    worn = WORN_FROM_ORIGINAL.get(quantity)
    original = site.wheelset.original_journal_diameter if worn and isinstance(site, Stand) else None
    if worn and original is not None:
        for one in _on(book, site, worn, TOWARDS[False], facets, where):
            found.append(one._replace(value=original - one.value, text=f"{one.text} below the original"))
    return found


def _on(
    book: Book, site: Site, quantity: str, directions: tuple[str, ...], facets: FacetReader, where: str
) -> Iterator[Target]:
    limits = [limit for limit in book.limits_on(site.engine, quantity) if limit.stage in STAGES]
    for limit in sort_limits(limits, facets).sure:
        if len(limit.conditions) > 1 or (limit.where and limit.where != where):
            continue
        for bound in limit.conditions[0].bounds:
            if bound.word in directions and (figure := _figure(limit, bound, facets)):
                yield Target(limit, bound, *figure)


def _kept(book: Book, position: Position, known: list[Target]) -> Iterator[Kept]:
    """The limits that wear would bring a position to and that it is not held against, each with the reason.

    Where one limit was applied, only an untold plane is worth telling: another may stand nearer.
    """
    site, word, where = position.site, position.word, position.where
    facets = reader(book, site)
    limits = [x for x in book.limits_on(site.engine, word.name) if x.stage in STAGES and _wears_to(x, position)]
    found = sort_limits(limits, facets)
    for limit in found.sure:
        if limit.where and limit.where != where and not (known and where):
            told = "were not taken there" if where else "do not say where they were taken"
            yield Kept(limit, "plane", f"it judges {word.title} {limit.where}, and the readings {told}", WRITE_WHERE)
    for limit in found.sure if not known else ():
        if lacking := without_figure(book, limit, facets):
            yield Kept(limit, "facet", *lacking)
    for limit in found.perhaps if not known else ():
        yield Kept(limit, "facet", *not_on_record(book, [limit], facets))


def _wears_to(limit: Limit, position: Position) -> bool:
    bounds = limit.conditions[0].bounds if len(limit.conditions) == 1 else ()
    return any(bound.word in TOWARDS[position.falling] for bound in bounds)


def _figure(limit: Limit, bound: Bound, facets: FacetReader) -> tuple[Fraction, str] | None:
    """The figure of one bound, from the limit's table where it stands there; None where a facet or row is lacking."""
    if bound.value is not None:
        return bound.value, bound.text
    condition = limit.conditions[0]._replace(bounds=(bound,))
    found = judge(limit._replace(conditions=(condition,)), {condition.quantity: point(Fraction(0))}, facets)
    return None if found.value is None else (found.value, found.text)


# -- ordering --------------------------------------------------------------------------------------------------------


def lead_days(book: Book, what: str) -> int | None:
    """The railway's lead time, in whole days."""
    found = fields.exact(fields.inner(book.ledger.tree, "lead_times"), what)
    return None if found is None else math.ceil(found / DAY)


def mended_by(site: Site, quantity: str) -> str:
    """What mends a worn quantity: the lathe, new tires, or neither of them."""
    if quantity in TURNING_MENDS:
        return "lathe"
    return "tires" if quantity in NEW_TIRE_MENDS and isinstance(site, Stand) and site.tire else ""


def _order(book: Book, site: Site, word: Word, reaches: tuple[Reach, ...]) -> Order | None:
    what = mended_by(site, word.name)
    lead = lead_days(book, what) if what else None
    due = [reach for reach in reaches if reach.soonest not in (None, date.max)]
    if lead is None or not due:
        return None
    first = due[0]
    assert first.soonest is not None
    return Order(what, date.fromordinal(max(first.soonest.toordinal() - lead, 1)), lead, first)
