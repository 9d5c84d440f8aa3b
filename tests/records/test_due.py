"""What falls due by the shipped limit set, over an engine's years; expected days worked out by hand."""

from __future__ import annotations

import json
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checks.cases import TOP
from tests.records.books import Trees, book_of

from axlebook.findings import Verdict
from axlebook.records.counters import Count, ServiceCalendar
from axlebook.records.due import Due, Kind, done_late, falls_due
from axlebook.records.due.reckon import by_service, estimated, reckoned
from axlebook.records.service import Service, build_service
from axlebook.run import read_book
from axlebook.sources.folder import read_folder
from axlebook.sources.yaml_text import read_tree

LAW = "limits/us-49-cfr-230.yaml"


def under_the_law(as_of: str, *inspections: Trees, service: Trees | None = None, **engine: Any) -> list[Due]:
    """What falls due for an engine that is kept by the shipped set."""
    trees: Trees = {
        "ledger.yaml": {
            "kind": "ledger",
            "railway": "Test railway (invented)",
            "defaults": {
                "track_gauge": "4 ft 8 1/2 in",
                "limit_sets": [{"set": "us-49-cfr-230", "adopted_on": "2000-01-01", "adopted_by": "lead"}],
            },
        },
        LAW: read_tree((TOP / "ledger" / LAW).read_bytes()),
        "engines/e-1.yaml": {"kind": "engine", "wheelsets": [], **engine},
        "people/lead.yaml": {"kind": "person", "role": "mechanical lead"},
        **(service or {}),
    }
    for one in inspections:
        trees |= one
    return list(falls_due(book_of(trees, as_of)))


def held(day: str, purpose: str, *also: str, reported: str = "") -> Trees:
    tree: Trees = {"kind": "inspection", "measured_on": day, "engine": "e-1", "purpose": purpose, "by": ["lead"]}
    tree |= {"also_satisfies": list(also)} if also else {}
    tree |= {"reported_on": reported} if reported else {}
    return {f"inspections/{day[:4]}/{day}-e-1-{purpose}.yaml": tree}


def ran(month: str, *days: tuple[str, str]) -> Trees:
    lines = [{"day": f"{month}-{first}", "until": f"{month}-{last}"} for first, last in days]
    return {f"service/e-1-{month}.yaml": {"kind": "service", "engine": "e-1", "month": month, "days": lines}}


def one(found: list[Due], key: str, kind: Kind = Kind.INSPECTION) -> Due:
    [due] = [due for due in found if due.key == f"us-49-cfr-230/{key}" and due.kind is kind]
    return due


@pytest.mark.parametrize(
    ("as_of", "verdict"),
    [("2026-03-04", Verdict.WITHIN), ("2026-03-05", Verdict.OUTSIDE), ("2026-02-28", Verdict.WITHIN)],
)
def test_an_annual_of_2025_03_01_is_overdue_from_2026_03_05(as_of: str, verdict: Verdict) -> None:
    due = one(under_the_law(as_of, held("2025-03-01", "annual")), "annual")
    assert (due.verdict, due.due_on) == (verdict, date(2026, 3, 4))
    assert due.since == (date(2026, 3, 5) if verdict is Verdict.OUTSIDE else None)


def test_an_annual_takes_in_the_31_and_the_92_and_no_more() -> None:
    found = under_the_law("2025-06-30", held("2025-03-01", "annual"), service=ran("2025-06", ("01", "30")),
                          placed_in_service="2025-06-01")  # fmt: skip
    left = {key: one(found, key).left for key in ("service-days-31", "service-days-92")}
    assert {key: count.exact for key, count in left.items() if count} == {"service-days-31": 1, "service-days-92": 62}
    assert one(found, "drawbar").cause == "never done on record"
    assert one(found, "tender-tank").left == Count(62, 62)  # a new engine: from the day it was placed in service


def test_a_92_starts_the_31_anew_and_not_the_annual() -> None:
    found = under_the_law("2025-07-10", held("2024-08-01", "annual"), held("2025-07-01", "service-days-92"),
                          service=ran("2024-08", ("02", "03")) | ran("2025-07", ("02", "10")))  # fmt: skip
    assert one(found, "service-days-31").left.exact == 31 - 9  # type: ignore[union-attr]
    assert one(found, "annual").due_on == date(2025, 8, 4)  # 365 days bring 2025-08-01


@pytest.mark.parametrize(
    ("done", "placed", "tube", "last"),
    [
        # placed in service before 365 days after the first flue tube
        ("2012-01-10", "2012-02-29", "2011-09-01", "2027-02-28"),  # begins on a 29 February
        # 365 days after the first flue tube of 2011-03-01 are 2012-02-29, before it is placed in service
        ("2012-01-10", "2012-06-01", "2011-03-01", "2027-02-28"),
        # the same a year later, without a leap day between: 2013-03-01
        ("2012-05-10", "2013-06-01", "2012-03-01", "2028-02-29"),
        # inspected again since: from that inspection
        ("2020-02-29", "2012-06-01", "2011-03-01", "2035-02-28"),
    ],
)
def test_fifteen_years_begin_with_service_or_a_year_after_the_first_flue_tube(
    done: str, placed: str, tube: str, last: str
) -> None:
    found = under_the_law("2021-01-01", held(done, "service-days-1472"), placed_in_service=placed, first_flue_tube=tube)
    assert one(found, "service-days-1472").due_on == date.fromisoformat(last)


def test_where_the_first_flue_tube_is_not_told_the_years_run_from_the_inspection() -> None:
    found = under_the_law("2015-01-01", held("2012-01-10", "service-days-1472"), placed_in_service="2014-06-01")
    assert one(found, "service-days-1472").due_on == date(2027, 1, 9)


def service(month: str, first: date | None = None, last: date | None = None) -> Service:
    days = [{"day": first.isoformat(), "until": last.isoformat()}] if first and last else []
    return build_service(f"e-1-{month}", "service/x.yaml", {"engine": "e-1", "month": month, "days": days})


@given(st.integers(1450, 1500), st.dates(date(1895, 1, 1), date(2105, 12, 31)))
def test_of_days_steamed_one_after_another_the_1473rd_is_overdue(days: int, start: date) -> None:
    first, last = start + timedelta(1), start + timedelta(days)
    calendar = ServiceCalendar([service(first.isoformat()[:7], first, last), service(last.isoformat()[:7])], first)
    term = by_service(calendar, start, 1472, last)
    if days > 1472:
        assert (term.verdict, term.since) == (Verdict.OUTSIDE, start + timedelta(1473))
    else:
        assert (term.verdict, term.left) == (Verdict.WITHIN, Count(1472 - days, 1472 - days))


@pytest.mark.parametrize(("days", "verdict"), [(1472, Verdict.WITHIN), (1473, Verdict.OUTSIDE)])
def test_1472_service_days_over_leap_years(days: int, verdict: Verdict) -> None:
    """Every day steamed from 2019-01-01: day 1472 is 2023-01-11 (365 + 366 + 365 + 365 = 1461, and 11)."""
    months = {}
    last = date.fromordinal(date(2018, 12, 31).toordinal() + days)
    assert date.fromordinal(date(2018, 12, 31).toordinal() + 1472) == date(2023, 1, 11)
    months["service/e-1-2019-01.yaml"] = {
        "kind": "service", "engine": "e-1", "month": "2019-01",
        "days": [{"day": "2019-01-01", "until": last.isoformat()}],
    }  # fmt: skip
    months |= ran("2022-12", ("31", "31"))
    found = under_the_law(last.isoformat(), held("2018-12-31", "service-days-1472", "frame"), service=months,
                          placed_in_service="2019-01-01", first_flue_tube="2018-12-01")  # fmt: skip
    due = one(found, "service-days-1472")
    assert due.verdict is verdict is one(found, "frame").verdict
    assert due.since == (date(2023, 1, 12) if days == 1473 else None)


def test_the_days_left_are_laid_over_the_season_of_last_year() -> None:
    many = [service(f"2025-{m:02}", date(2025, m, 5), date(2025, m, 6)) for m in (6, 7, 8)]
    calendar = ServiceCalendar(many)
    as_of = date(2026, 1, 1)
    assert estimated(calendar, 1, as_of) == date(2026, 6, 5)
    assert estimated(calendar, 3, as_of) == date(2026, 7, 5)
    assert estimated(calendar, 6, as_of) == date(2026, 8, 6)
    assert estimated(calendar, 7, as_of) == date(2027, 6, 5)
    assert estimated(ServiceCalendar([]), 7, as_of) is None


def test_a_notice_is_due_a_month_before_the_last_day_of_the_annual() -> None:
    found = under_the_law("2025-06-01", held("2025-03-30", "annual"))
    assert one(found, "annual").due_on == date(2026, 4, 2)
    assert one(found, "annual", Kind.NOTICE).due_on == date(2026, 3, 2)


def test_each_annual_asks_for_the_drawbar() -> None:
    first, second = held("2024-03-01", "annual", "drawbar"), held("2025-03-01", "annual")
    due = one(under_the_law("2025-03-02", first, second), "drawbar")
    assert (due.verdict, due.since) == (Verdict.OUTSIDE, date(2025, 3, 2))
    late = held("2025-03-11", "shop", "drawbar")
    assert one(under_the_law("2025-03-20", first, second, late), "drawbar").verdict is Verdict.WITHIN
    early = held("2025-02-20", "shop", "drawbar")
    assert one(under_the_law("2025-03-20", first, second, early), "drawbar").verdict is Verdict.WITHIN


def test_what_was_never_done_is_not_known_and_says_what_to_do() -> None:
    due = one(under_the_law("2025-03-02"), "annual")
    assert (due.verdict, due.cause) == (Verdict.NOT_ASSESSED, "never done on record")
    assert "enter the record of the last time" in due.next


def test_a_gauge_that_the_set_does_not_cover_is_not_asked() -> None:
    assert under_the_law("2026-01-01", held("2020-03-01", "annual"), overrides={"track_gauge": "600 mm"}) == []
    assert one(under_the_law("2026-01-01", held("2020-03-01", "annual"), overrides={"track_gauge": "610 mm"}), "annual")


# -- the demo --------------------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def demo() -> Any:
    return read_book(read_folder(Path(TOP, "demo-ledger")), as_of=None, today=date(2026, 3, 1))


def test_the_demo_is_overdue_in_what_its_readme_says_and_in_nothing_else(demo: Any) -> None:
    overdue = {(due.subject, due.since, str(due.severity)) for due in falls_due(demo) if due.verdict is Verdict.OUTSIDE}
    assert overdue == {
        ("e-3", date(2026, 2, 24), "condemning"),
        ("e-12 d-4", date(2023, 12, 15), "shop"),
        ("pyrometer-1", date(2026, 2, 1), "shop"),  # ran out on 2026-01-31
    }


def test_the_last_annuals_of_the_demo_were_in_time(demo: Any) -> None:
    assert not [late for late in done_late(demo) if late.kind in (Kind.INSPECTION, Kind.REPORT, Kind.EXAMINATION)]


def test_a_book_gives_the_same_list_twice(demo: Any) -> None:
    again = read_book(read_folder(Path(TOP, "demo-ledger")), as_of=None, today=date(2027, 3, 1))
    assert json.dumps([str(due) for due in falls_due(again)]) == json.dumps([str(due) for due in falls_due(demo)])


@pytest.mark.parametrize(("of_two", "due_on"), [("first", date(2029, 12, 31)), ("last", date(2034, 12, 31))])
def test_of_two_periods_of_the_calendar_the_one_that_counts_is_told_however_they_are_written(
    of_two: str, due_on: date
) -> None:
    calendar = ServiceCalendar((), None)
    start = date(2025, 1, 1)
    for asked in (((10, "year"), (5, "year")), ((5, "year"), (10, "year"))):
        assert reckoned(start, start, asked, calendar, date(2026, 1, 1), of_two).due_on == due_on


def test_what_runs_by_service_days_is_not_assessed_over_a_lost_season() -> None:
    calendar = ServiceCalendar([service("2024-05", date(2024, 5, 1), date(2024, 5, 3)), service("2026-06")])
    term = by_service(calendar, date(2024, 4, 30), 31, date(2026, 6, 30))
    assert (term.verdict, term.told.split(" of ")[0]) == (Verdict.NOT_ASSESSED, "at least 3")
    assert term.cause == "no service record tells of 2024-06-01 to 2026-05-31, nor that there was none"
