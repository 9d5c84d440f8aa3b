"""Of the annual summary: how fast it wears, with its plots, and what that will cost in which year."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from datetime import date

from axlebook.checks._forecast import Reach, forecasts
from axlebook.checks._judging import every_place, every_stand
from axlebook.findings import Verdict
from axlebook.records.book import Book
from axlebook.records.condition import Site
from axlebook.records.engine import Engine

from .annual_parts import Cells, Listed, Part, Plot
from .item import Item
from .wear_plot import drawing, wear_svg
from .wear_view import NEAR, WearRow, wear_rows

FAR = 20  # years ahead that are told in the table
PLOTS = 6  # of what reaches a limit first
METHOD = (
    "Past wear carried on, with the range that holds it 19 times in 20 where five or more readings give one. No line "
    "is drawn across a turning, a new tire or another gauge. It is a forecast for planning, no permission to run "
    "until a day."
)
HEAD = ("Where", "What", "Now", "Wears", "Reaches", "To order", "From")


@dataclass(frozen=True)
class Wear:
    """What the wear forecasts give to the summary."""

    costs: list[Item]
    part: Part


def wear_of(book: Book, engine: Engine) -> Wear:
    """The costs to come and the part with tables and plots, of what wears on an engine."""
    sites: list[Site] = [*every_stand(book), *every_place(book)]
    own = [site for site in sites if site.engine.id == engine.id]
    rows = wear_rows(book, forecasts(book, chosen=own))
    told = [row for row in rows if row.level is not None and row.made.reaches]
    near = [row for row in told if _near(row, book.as_of)]
    table = Listed(f"What wears, and may reach a limit by {book.as_of.year + FAR}; the soonest first", HEAD,
                   tuple((_cells(row), None) for row in near))  # fmt: skip
    plots = tuple(_plot(row) for row in told[:PLOTS] if _soonest(row) is not None)
    said = (*_method(told, near, book.as_of), *_untold(rows))
    part = Part("wear", "Wear and forecasts", said, (table,) if near else (), plots,
                nothing="Nothing that wears was read often enough.", own_page=bool(plots))  # fmt: skip
    return Wear(_costs(told, book.as_of), part)


def _near(row: WearRow, as_of: date) -> bool:
    """Whether it may reach a limit within the years that are told one by one, or has reached it."""
    days = [reach.soonest for reach in row.made.reaches if reach.soonest is not None]
    return bool(days) and min(days) != date.max and min(days).year <= as_of.year + FAR


def _method(told: list[WearRow], near: list[WearRow], as_of: date) -> list[Item]:
    """How a forecast is made, and how many tell of nothing to come."""
    if not told:
        return []
    later = len(told) - len(near)
    rest = f" By {as_of.year + FAR} no limit is reached by {later} other lines that were drawn." if later else ""
    return [Item(f"{METHOD}{rest}")]


def _untold(rows: list[WearRow]) -> list[Item]:
    """What no forecast can be made of, by the reason."""
    found: dict[str, list[str]] = defaultdict(list)
    for row in rows:
        if row.level is None or not row.made.reaches:
            found[row.state or "no limit on file"].append(f"{row.place} {row.made.word.title}")
    return [
        Item(f"No forecast for {len(names)}, {why}: {'; '.join(names[:6])}{' and more' if len(names) > 6 else ''}.",
             Verdict.NOT_ASSESSED)
        for why, names in found.items()
    ]  # fmt: skip


def _cells(row: WearRow) -> Cells:
    part = f" ({row.part})" if row.part else ""
    reaches = "; ".join(f"{row.limit(reach)}: {row.when(reach)}" for reach in row.made.reaches)
    return f"{row.place}{part}", row.title, row.now, row.rate, reaches, row.order, row.readings


def _plot(row: WearRow) -> Plot:
    one = drawing(row)
    return Plot(wear_svg([one]), one.words)


def _soonest(row: WearRow) -> Reach | None:
    """The first limit that is still ahead, or reached by part of the range only."""
    ahead = [reach for reach in row.made.reaches if not (reach.late is not None and reach.late <= row.as_of)]
    return next((reach for reach in ahead if reach.soonest not in (None, date.max)), None)


# -- what it will cost, and when -------------------------------------------------------------------------------------


def _costs(rows: list[WearRow], as_of: date) -> list[Item]:
    """A line a year, limit and mend: what reaches it from that year on, and what to order by when."""
    found: dict[tuple[int, str, str], list[tuple[WearRow, Reach]]] = defaultdict(list)
    for row in rows:
        reach = _soonest(row)
        if reach is not None and reach.soonest is not None and reach.soonest.year <= as_of.year + NEAR:
            found[reach.soonest.year, row.made.word.title, reach.target.limit.stage].append((row, reach))
    return [_cost(year, title, stage, many) for (year, title, stage), many in sorted(found.items())]


def _cost(year: int, title: str, stage: str, many: list[tuple[WearRow, Reach]]) -> Item:
    """One line: what, where, to which limit, when, and what has to be ordered first."""
    places = ", ".join(row.place for row, _ in many)
    when = f" ({many[0][0].when(many[0][1])})" if len(many) == 1 else ""
    orders = [row.made.order.by for row, _ in many if row.made.order is not None]
    first = min(many, key=lambda pair: pair[0].made.order.by if pair[0].made.order else date.max)[0]
    order = first.order.partition(" (")[0]
    step = f" {order[:1].upper()}{order[1:]}." if orders else ""
    return Item(f"From {year}: {title} of {places} to the {stage} limit{when}.{step}")
