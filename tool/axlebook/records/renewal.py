"""Which tires of a driving wheel base were turned or renewed last, with no service day since."""

from __future__ import annotations

from datetime import date

from .book import Book
from .engine import Engine
from .session import Session


def _last_cut(book: Book, tire: str) -> Session | None:
    """The last turning of a tire, or its application where it was never turned since."""
    done = [s for s in book.work_on.get(tire, ()) if s.kind in ("turning", "tire-applied") and s.day.first]
    return max(done, key=lambda s: s.day.first or date.min, default=None)


def fresh_tires(book: Book, engine: Engine) -> tuple[list[tuple[str, str]], list[tuple[str, str]]]:
    """(wheelset, tire) of the drivers: all that are fitted, and those cut or renewed with no service day since."""
    fitted, fresh = [], []
    for line in book.standing.standing_lines(engine, book.as_of):
        wheelset = book.wheelsets.get(line.wheelset)
        if wheelset is None or not wheelset.driver:
            continue
        for side in wheelset.ends:
            tire = book.standing.tire_on(book.standing.center_on(wheelset.id, side, book.as_of), book.as_of)
            if not tire:
                continue
            fitted.append((wheelset.id, tire))
            cut = _last_cut(book, tire)
            if cut and cut.day.first and book.service_days(engine.id, cut.day.first, book.as_of) == 0:
                fresh.append((wheelset.id, tire))
    return fitted, fresh


def set_case(book: Book, engine: Engine) -> str | None:
    """What was turned or renewed and has not run since: `all`, `single pair`, `single tire`, `several`, or None."""
    fitted, fresh = fresh_tires(book, engine)
    if not fresh:
        return None
    if len(fresh) == len(fitted):
        return "all"
    axles = {wheelset for wheelset, _ in fresh}
    if len(fresh) == 1:
        return "single tire"
    return "single pair" if len(fresh) == 2 and len(axles) == 1 else "several"
