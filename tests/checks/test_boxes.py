"""The boxes of a sheet: their order, what stands beside them, and what is said of the last reading."""

from datetime import date
from types import SimpleNamespace
from typing import Any

import pytest

from axlebook.checks import _boxes, _slips, back_to_back_not_as_predicted
from axlebook.checks._asked import Asking
from axlebook.records.book import Thing

DAY = date(2026, 1, 10)


def boxes(what: str, at: str, side: str, *, read: bool = True) -> list[Any]:
    return [SimpleNamespace(what=what, at=at, side=side, question=SimpleNamespace(is_read=read))]


def test_a_page_has_one_wheel_the_other_both_and_then_what_is_looked_for() -> None:
    asked = [
        boxes("height", "", ""),
        boxes("crack", "driver-1", "left", read=False),
        boxes("back_to_back", "driver-1", ""),
        boxes("width", "driver-1", "right"),
        boxes("width", "driver-1", "left"),
        boxes("bruise", "driver-1", "left", read=False),
        boxes("width", "driver-2", "left"),
    ]
    walked = [(many[0].what, many[0].at, many[0].side) for many in _boxes._in_order_of_pages(asked)]
    assert walked == [
        ("width", "driver-1", "left"),
        ("width", "driver-1", "right"),
        ("back_to_back", "driver-1", ""),
        ("crack", "driver-1", "left"),
        ("bruise", "driver-1", "left"),
        ("width", "driver-2", "left"),
        ("height", "", ""),
    ]


@pytest.mark.parametrize(
    ("read_on", "asked_on", "told"),
    [
        ("2026-01-11", DAY, True),
        ("2026-01-10", DAY, False),
        (None, DAY, False),
        ("2026-01-11", date(2026, 2, 1), False),  # the day the book is read at: nothing can have come since
    ],
)
def test_what_was_read_after_the_day_of_a_card_is_known(
    monkeypatch: pytest.MonkeyPatch, read_on: str | None, asked_on: date, told: bool
) -> None:
    thing = Thing("tire", "t-1")
    monkeypatch.setattr(_boxes, "_thing", lambda book, question, site: thing)
    first = None if read_on is None else date.fromisoformat(read_on)
    series = {(thing, "width"): [SimpleNamespace(day=SimpleNamespace(first=first))]}
    book: Any = SimpleNamespace(series=series, as_of=date(2026, 2, 1))
    ask: Any = SimpleNamespace(question=None, site=None, what="width")
    assert _boxes._read_since(book, ask, asked_on) is told
    monkeypatch.setattr(_boxes, "_thing", lambda book, question, site: None)
    assert not _boxes._read_since(book, ask, asked_on)


def line(wheelset: str, start: str, until: str | None = None) -> Any:
    def day(text: str) -> Any:
        return SimpleNamespace(first=date.fromisoformat(text), last=date.fromisoformat(text))

    return SimpleNamespace(wheelset=wheelset, start=day(start), until=day(until) if until else None)


def test_what_stands_on_an_engine_changes_with_a_line_the_day_after_one_and_a_work_on_what_stands() -> None:
    wheelset = SimpleNamespace(centers=[SimpleNamespace(id="c-1")])
    work = SimpleNamespace(day=SimpleNamespace(first=date(2021, 3, 3)))
    unknown = SimpleNamespace(day=SimpleNamespace(first=None))
    asking = Asking.__new__(Asking)
    book: Any = SimpleNamespace(wheelsets={"d-1": wheelset}, work_on={"c-1": [work, unknown], "d-1": [work]})
    asking.book, asking._changes = book, {}
    engine: Any = SimpleNamespace(id="e-1", lines=[line("d-1", "2020-01-01", "2021-12-31"), line("lost", "2022-02-02")])
    assert asking._changes_of(engine) == [date(2020, 1, 1), date(2021, 3, 3), date(2022, 1, 1), date(2022, 2, 2)]


def test_one_doubted_figure_is_said_in_both_units_and_several_as_they_were_written() -> None:
    def doubt(*texts: str) -> Any:
        return SimpleNamespace(offs=[SimpleNamespace(point=SimpleNamespace(text=text)) for text in texts])

    assert _slips._values(doubt("1 in")) == "1 in (25.4 mm)"
    assert _slips._values(doubt("1 in", "2 in")) == "1 in, 2 in"


def test_what_cooling_can_have_drawn_off_is_that_of_both_tires_as_far_as_it_can_be_worked_out(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    check = back_to_back_not_as_predicted

    class Fit:
        """Stands for a fit that was worked out."""

    class Squeeze:
        """Stands for what a fit presses with."""

    drawn = iter([0.25, None, 0.5])
    monkeypatch.setattr(check, "Fit", Fit)
    monkeypatch.setattr(check, "Squeeze", Squeeze)
    monkeypatch.setattr(check, "find_squeeze", lambda book, fit: Squeeze())
    monkeypatch.setattr(check, "pull_off", lambda book, fit, squeeze: next(drawn))
    apps: Any = [SimpleNamespace(fit=fit) for fit in (Fit(), Fit(), None, Fit())]
    assert check._pull(apps, apps) == 0.75
    monkeypatch.setattr(check, "find_squeeze", lambda book, fit: None)
    assert check._pull(apps, apps) == 0.0
