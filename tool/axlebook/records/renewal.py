"""Which tires of a driving wheel base were turned or renewed last, with no service day since."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from .book import Book
from .engine import Engine
from .session import Session


class FittedTire(NamedTuple):
    """A tire on a side of a driver."""

    wheelset: str
    side: str
    tire: str


class Renewal(NamedTuple):
    """The tires of the drivers: all that are fitted, those cut or renewed and not run since, and those not told."""

    fitted: list[FittedTire]
    fresh: list[FittedTire]
    unsure: list[FittedTire]


def _last_cut(book: Book, tire: FittedTire) -> Session | None:
    """The last turning of a tire, or of its wheelset, or its application where it was never turned since."""
    done = [s for s in book.work_on.get(tire.tire, ()) if s.kind in ("turning", "tire-applied") and s.day.first]
    on = [spell.start for center, spell in book.standing.centers_of.get(tire.tire, ()) if spell.until is None]
    done += [
        s
        for s in book.work_on.get(tire.wheelset, ())
        if s.kind == "turning" and s.day.first and all(start is None or start <= s.day.first for start in on)
    ]
    return max(done, key=lambda s: s.day.first or date.min, default=None)


def fresh_tires(book: Book, engine: Engine) -> Renewal:
    """The tires of the drivers, by whether they ran since they were cut or renewed; worked out once an engine."""
    known: dict[str, Renewal] = book.__dict__.setdefault("_renewals", {})
    if engine.id not in known:
        known[engine.id] = _renewal(book, engine)
    return known[engine.id]


def _renewal(book: Book, engine: Engine) -> Renewal:
    found = Renewal([], [], [])
    for line in book.standing.standing_lines(engine, book.as_of):
        wheelset = book.wheelsets.get(line.wheelset)
        if wheelset is None or not wheelset.driver:
            continue
        for side in wheelset.ends:
            tire = book.standing.tire_on(book.standing.center_on(wheelset.id, side, book.as_of), book.as_of)
            if tire:
                _sort_in(book, engine, FittedTire(wheelset.id, side, tire), found)
    return found


def _sort_in(book: Book, engine: Engine, tire: FittedTire, found: Renewal) -> None:
    found.fitted.append(tire)
    cut = _last_cut(book, tire)
    if cut is None or cut.day.first is None:
        return
    days = book.service_calendar(engine.id).count(cut.day.first, book.as_of)
    if days.most == 0:
        found.fresh.append(tire)
    elif days.least == 0:
        found.unsure.append(tire)


def set_case(book: Book, engine: Engine) -> str | None:
    """What was turned or renewed and has not run since: `all`, `single pair`, `single tire`, `several`, `none`.

    None where the service records do not tell whether it ran.
    """
    fitted, fresh, unsure = fresh_tires(book, engine)
    if unsure:
        return None
    if not fresh:
        return "none"
    if len(fresh) == len(fitted):
        return "all"
    if len(fresh) == 1:
        return "single tire"
    return "single pair" if len(fresh) == 2 and len({tire.wheelset for tire in fresh}) == 1 else "several"
