"""What is looked up once a stretch of days is what is looked up for each day."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest

from axlebook.records.book import Book
from axlebook.records.placing import Asked, things_at
from axlebook.records.stretches import Stretches
from axlebook.run import run_folder

DEMO = Path(__file__).parents[2] / "demo-ledger"
KINDS = ("wheelset", "end", "center", "tire", "wheel")


@pytest.fixture(scope="module", name="book")
def _book() -> Book:
    return run_folder(DEMO, as_of=None, today=date(2026, 2, 28)).book


def _days(book: Book) -> list[date]:
    """Every day on which something was done or began to stand there, with those beside it."""
    dated = [session.day for session in book.sessions if session.kind != "inspection"]
    dated += [line.start for engine in book.engines.values() for line in engine.lines]
    known = {day for one in dated for day in (one.first, one.last) if day}
    return sorted({day + timedelta(days=by) for day in known for by in (-1, 0, 1)})


@pytest.mark.parametrize("when", ["", "before", "after"])
def test_every_place_of_the_demo_is_told_as_by_itself_on_each_day(book: Book, when: str) -> None:
    stretches = Stretches(book.standing, book.wheelsets)
    told = 0
    for engine in book.engines.values():
        for at in {line.at for line in engine.lines}:
            parts = frozenset({line.wheelset for line in engine.lines if line.at == at})
            for place in (at, f"{at} left", f"{at} B"):
                for day in _days(book):
                    for asked in (Asked(of, day, day, when, named) for of in KINDS for named in (frozenset(), parts)):
                        found = stretches.things_at(engine.id, place, asked)
                        assert found == things_at(book.standing, book.wheelsets, engine.id, place, asked)
                        told += len(found)
    assert told > 10_000


def test_what_may_be_of_several_stretches_is_looked_up_by_itself(book: Book) -> None:
    stretches = Stretches(book.standing, book.wheelsets)
    for engine in book.engines.values():
        for line in engine.lines:
            for year in range(2012, 2027):
                asked = Asked("wheel", date(year, 1, 1), date(year, 12, 31), "", frozenset())
                place = f"{line.at} right"
                assert stretches.things_at(engine.id, place, asked) == things_at(
                    book.standing, book.wheelsets, engine.id, place, asked
                )
