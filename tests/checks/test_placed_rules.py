"""Where and when: what stands at a place on a day, which dates contradict each other, what a due day says."""

from datetime import date
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from axlebook.checks import _date_order, _due, _governing, _history, _places
from axlebook.checks._places import Trouble
from axlebook.findings import Place, Severity, Verdict
from axlebook.limits import Bound, Condition, Limit
from axlebook.records.reading import Reading


def day(first: str | None, last: str | None = None) -> Any:
    """From one day to another as far as is known."""
    ends = [None if text is None else date.fromisoformat(text) for text in (first, last or first)]
    return SimpleNamespace(first=ends[0], last=ends[1], text=first or "unknown")


def line(start: str | None, until: str | None = None, last: str | None = None) -> Any:
    return SimpleNamespace(start=day(start), until=day(until, last) if until else None)


def looked(place: str, on: Any, *lines: Any, engine: str = "e-1", unread: bool = False) -> Trouble:
    standing = SimpleNamespace(lines={("e-1", "driver-1"): list(lines)})
    book: Any = SimpleNamespace(engines={"e-1": None}, standing=standing)
    return _places._on(_places._look(book, {"e-1"} if unread else set(), engine, place), on)


MAY = line("2020-05-01", "2020-05-31")


@pytest.mark.parametrize(
    ("on", "trouble"),
    [
        (day("2020-05-01"), Trouble.NONE),
        (day("2020-05-31"), Trouble.NONE),
        (day("2020-04-30"), Trouble.BEFORE),
        (day("2020-06-01"), Trouble.EMPTY),
        (day("2020-04-01", "2020-05-01"), Trouble.NONE),
        (day("2020-05-31", "2020-06-30"), Trouble.NONE),
        (day("2020-04-01", "2020-04-30"), Trouble.BEFORE),
        (day(None), Trouble.NONE),
    ],
)
def test_a_wheelset_stands_at_its_place_from_its_first_day_to_its_last(on: Any, trouble: Trouble) -> None:
    assert looked("driver-1 left", on, MAY) is trouble


def test_between_two_lines_nobody_stands_and_a_line_without_a_first_day_reaches_back() -> None:
    july = line("2020-07-01")
    assert looked("driver-1", day("2020-06-15"), MAY, july) is Trouble.EMPTY
    assert looked("driver-1", day("2020-04-15"), july, MAY) is Trouble.BEFORE
    assert looked("driver-1", day("2030-01-01"), MAY, july) is Trouble.NONE
    assert looked("driver-1", day("1990-01-01"), line(None, "2020-05-31")) is Trouble.NONE
    assert looked("driver-1", day("2020-06-01"), line(None, "2020-05-31")) is Trouble.EMPTY


def test_a_place_that_is_none_of_a_wheelset_is_no_trouble_unless_no_engine_is_named() -> None:
    on = day("2020-05-01")
    assert looked("crosshead left", on) is Trouble.NONE
    assert looked("crosshead left", on, engine="") is Trouble.NO_ENGINE
    assert looked("Not A Place!", on, engine="") is Trouble.NONE
    assert looked("driver-1", on, MAY, engine="") is Trouble.NO_ENGINE
    assert looked("driver-2", on, MAY) is Trouble.NO_LINE
    assert looked("driver-2", on, MAY, unread=True) is Trouble.NONE
    assert looked("driver-2", on, MAY, engine="e-9") is Trouble.NONE


def service(*runs: tuple[str, int, str]) -> Any:
    """The service of May 2020, by its lines: first day, how many, and where it stands."""
    found = []
    for first, days, where in runs:
        start = date.fromisoformat(first)
        last = date.fromordinal(start.toordinal() + days - 1)
        found.append(SimpleNamespace(first=start, last=last, days=days, place=Place("s.yaml", where)))
    period = SimpleNamespace(first=date(2020, 5, 1), last=date(2020, 5, 31), text="2020-05")
    return SimpleNamespace(id="s", period=period, lines=found)


def told(*runs: tuple[str, int, str]) -> list[str]:
    book: Any = SimpleNamespace(service_of={"e-1": [service(*runs)]})
    return [one.words for one in _date_order._service(book)]


def test_service_days_stand_in_their_month_from_its_first_to_its_last() -> None:
    assert told(("2020-05-01", 1, "/0"), ("2020-05-30", 2, "/1")) == []
    assert told(("2020-04-30", 2, "/0")) == ["2020-04-30 to 2020-05-01 stands in the record of 2020-05."]
    assert told(("2020-05-31", 2, "/0")) == ["2020-05-31 to 2020-06-01 stands in the record of 2020-05."]
    assert told(("2020-06-01", 1, "/0")) == ["2020-06-01 stands in the record of 2020-05."]


def test_a_service_day_told_twice_is_told_by_its_first_day() -> None:
    assert told(("2020-05-01", 3, "/0"), ("2020-05-03", 2, "/1")) == [
        "2020-05-03 is told twice as a service day of e-1."
    ]
    assert told(("2020-05-01", 3, "/0"), ("2020-05-04", 2, "/1")) == []


def test_of_a_run_that_is_absurdly_long_only_the_first_year_is_looked_at() -> None:
    absurd: Any = SimpleNamespace(first=date(2020, 1, 1), days=10**9)
    days = list(_date_order._days(absurd))
    assert (len(days), days[0], days[-1]) == (366, date(2020, 1, 1), date(2020, 12, 31))


def own_date(when: str, on: str, signed: str = "") -> list[str]:
    """What is said of a reading with its own day; the work was on 2020-05-10, the book closed at the year's end."""
    source: Any = SimpleNamespace(path="r.yaml", engine="e-1")
    reading = Reading(source, "", "q", "", "x", "", "", (), day(on), "", "", "", "", when, "yes", (), {})
    tree = {"signed": {"signed_on": signed}} if signed else {}
    session: Any = SimpleNamespace(tree=tree, day=day("2020-05-10"))
    limit = day("2020-12-31")
    return [one.words for one in _date_order._own_date(session, reading, limit, "the book was closed before")]


@pytest.mark.parametrize(
    ("when", "on", "wrong"),
    [
        ("cold before", "2020-05-10", False), ("cold before", "2020-05-09", False), ("cold before", "2020-05-11", True),
        ("before", "2020-05-11", True), ("cold after", "2020-05-10", False), ("cold after", "2020-05-11", False),
        ("cold after", "2020-05-09", True), ("warm after", "2020-05-09", True), ("", "2020-05-09", False),
        ("", "2020-05-11", False),
    ],
)  # fmt: skip
def test_what_was_read_before_a_work_is_not_dated_after_it_nor_the_other_way(when: str, on: str, wrong: bool) -> None:
    assert bool(own_date(when, on)) is wrong


def test_a_reading_is_not_dated_after_its_signature_nor_after_the_book() -> None:
    assert own_date("", "2020-06-01", signed="2020-06-01") == []
    assert own_date("", "2020-06-02", signed="2020-06-01") == [
        "x was read on 2020-06-02, after the record was signed on 2020-06-01."
    ]
    assert own_date("", "2020-12-31") == []
    assert own_date("", "2021-01-01") == ["x was read on 2021-01-01, and the book was closed before."]


@pytest.mark.parametrize(
    ("pointer", "was", "now", "words"),
    [
        ("/readings/0/values", "1 in", "2 in", "readings 0 values: was 1 in, now 2 in"),
        ("/a~1b/c~0d", "", "2 in", "a/b c~d: 2 in was added"),
        ("/note", "x", "", "note: x was taken away"),
        ("", "x", "y", "it can no longer be read"),
    ],
)
def test_a_change_is_said_by_what_was_and_what_is(pointer: str, was: str, now: str, words: str) -> None:
    change: Any = SimpleNamespace(pointer=pointer, was=was, now=now)
    assert _history._change(change) == words


def due(verdict: str, since: str | None = None, **more: Any) -> Any:
    known: dict[str, Any] = {
        "verdict": Verdict(verdict), "severity": Severity.SHOP, "subject": "e-1", "title": "axle", "told": "",
        "since": date.fromisoformat(since) if since else None, "kind": "axle", "cause": "no day", "place": Place("p"),
        "source": "plan", "next": "Do it.", "key": "axle", "where": "", "done_on": "", "record": "", "due_on": None,
        "left": None, "estimate": None,
    }  # fmt: skip
    return SimpleNamespace(**{**known, **more})


def test_what_falls_due_is_said_by_its_verdict() -> None:
    as_of = date(2020, 5, 10)
    head = "e-1, axle"
    assert _due.said(due("outside", "2020-05-10"), as_of).startswith(f"{head}: overdue since 2020-05-10, 1 day now.")
    assert _due.said(due("outside", "2020-05-09"), as_of).startswith(f"{head}: overdue since 2020-05-09, 2 days now.")
    assert "since which day the records do not tell" in _due.said(due("outside"), as_of)
    assert _due.said(due("undecided"), as_of).startswith(f"{head}: it may be overdue")
    assert _due.said(due("not assessed"), as_of) == f"{head}: it has NOT been judged: no day."
    assert _due.said(due("within"), as_of) == f"{head}."
    assert _due.said(due("within", told="last done in May"), as_of) == f"{head}. Last done in May."


def test_a_day_that_is_the_calendar_s_last_is_borne() -> None:
    assert _due.said(due("outside", "2020-05-10"), date.max) == "e-1, axle: overdue since 2020-05-10,  now."


def test_what_falls_due_gives_the_figures_that_are_known() -> None:
    as_of = date(2020, 5, 10)
    assert list(_due._figures(due("within"), as_of)) == []
    known = due(
        "outside", "2020-05-10", done_on="2019-05-09", record="r-1", due_on=date(2020, 5, 9),
        left=SimpleNamespace(words="3"), estimate=date(2020, 6, 1),
    )  # fmt: skip
    assert {figure.name: (figure.value, figure.origin) for figure in _due._figures(known, as_of)} == {
        "last done": ("2019-05-09", "r-1"),
        "last day within": ("2020-05-09", "computed"),
        "overdue since": ("2020-05-10", "computed"),
        "service days left": ("3", "computed"),
        "estimated": ("2020-06-01", "computed"),
    }


def test_each_bound_of_a_limit_is_a_figure_with_its_words_and_its_plane(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(_governing, "reader", lambda book, site: {}.get)
    bounds = (Bound("under", Fraction(1), "1 mm"), Bound("over", Fraction(3), "3 mm"), Bound("over", None, "table"))
    limit = Limit(
        "own/x", "own", (Condition("it", bounds),), "shop", "page 1", "", "Book", Place("l"), where="tape line"
    )
    site: Any = None
    found = _governing._figures(site, site, limit, "title")
    assert [(one.words, one.value, one.word, one.of) for one in found] == [
        ("under 1 mm, tape line", 1, "under", "title"),
        ("over 3 mm, tape line", 3, "over", "title"),
    ]
    seen = Limit("own/x", "own", (Condition("crack", seen="crack"),), "shop", "page 1", "", "Book", Place("l"))
    assert [(one.words, one.value) for one in _governing._figures(site, site, seen)] == [("seen", None)]
