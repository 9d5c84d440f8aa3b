"""Counting service days: runs of days, borders of months, lines that overlap, totals without their days."""

from datetime import date, timedelta
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlebook.records.counters import Count, ServiceCalendar
from axlebook.records.service import Service, build_service


def month(name: str, *days: dict[str, str]) -> Service:
    return build_service(f"e-1-{name}", "service/x.yaml", {"engine": "e-1", "month": name, "days": list(days)})


def year(name: str, days: str, **more: str) -> Service:
    return build_service(
        f"e-1-{name}", "service/x.yaml", {"engine": "e-1", "year": name, "total": {"service_days": days, **more}}
    )


MAY = month("2025-05", {"day": "2025-05-30", "until": "2025-06-02"}, {"day": "2025-05-03"})
JUNE = month("2025-06", {"day": "2025-06-02"}, {"day": "2025-06-07"})


def counted(after: str, until: str, *services: Service) -> Count:
    return ServiceCalendar(services).on_file(date.fromisoformat(after), date.fromisoformat(until))


@pytest.mark.parametrize(
    ("after", "until", "days"),
    [
        ("2025-04-30", "2025-06-30", 6),  # 3 May, 30, 31 May, 1, 2, 7 June: the 2nd is told twice
        ("2025-05-03", "2025-06-30", 5),  # the day itself is left out
        ("2025-05-02", "2025-05-03", 1),  # the last day is in
        ("2025-05-30", "2025-06-01", 2),  # in the middle of a run, over the end of the month
        ("2025-05-31", "2025-05-31", 0),
        ("2025-06-07", "2025-12-31", 0),
    ],
)
def test_days_are_counted_once_over_the_borders_of_months(after: str, until: str, days: int) -> None:
    assert counted(after, until, MAY, JUNE) == Count(days, days)


def test_which_day_was_the_so_many_th() -> None:
    calendar = ServiceCalendar([MAY, JUNE])
    start = date(2025, 5, 3)
    assert [calendar.day_of(n, start) for n in range(6)] == [
        None, date(2025, 5, 30), date(2025, 5, 31), date(2025, 6, 1), date(2025, 6, 2), date(2025, 6, 7),
    ]  # fmt: skip
    assert calendar.day_of(6, start) is None
    assert calendar.day_of(1, date(2025, 5, 31)) == date(2025, 6, 1)


@pytest.mark.parametrize(
    ("after", "until", "words"),
    [
        ("2013-12-31", "2014-12-31", "40"),  # all of the year
        ("2014-06-30", "2014-12-31", "0 to 40"),  # half of it
        ("2014-01-20", "2014-12-31", "20 to 40"),  # 20 days lay before, so 20 at least came after
        ("2014-12-21", "2014-12-31", "0 to 10"),  # ten days cannot hold more
        ("2014-12-31", "2015-12-31", "0"),
    ],
)
def test_a_yearly_total_is_a_range_where_the_border_lies_in_it(after: str, until: str, words: str) -> None:
    assert counted(after, until, year("2014", "40")).words == words


def test_dated_days_of_a_year_are_part_of_its_total() -> None:
    dated = month("2014-07", {"day": "2014-07-01", "until": "2014-07-10"})
    assert counted("2013-12-31", "2014-12-31", year("2014", "40"), dated) == Count(40, 40)
    assert counted("2014-06-30", "2014-12-31", year("2014", "40"), dated) == Count(10, 40)
    assert counted("2014-06-30", "2014-12-31", year("2014", "8"), dated) == Count(10, 10)


def test_two_totals_of_one_year_are_one() -> None:
    assert counted("2013-12-31", "2014-12-31", year("2014", "40"), year("2014", "38")) == Count(40, 40)


def test_a_time_before_the_first_record_is_at_least() -> None:
    calendar = ServiceCalendar([MAY])
    assert calendar.count(date(2024, 1, 1), date(2025, 6, 30)).words == "at least 5"
    assert calendar.count(date(2025, 4, 30), date(2025, 6, 30)).words == "5"


def test_an_engine_whose_first_day_of_service_is_on_file_ran_no_day_before() -> None:
    calendar = ServiceCalendar([MAY], placed=date(2025, 5, 3))
    assert calendar.count(date(2020, 1, 1), date(2025, 6, 30)) == Count(5, 5)


def test_more_than_a_year_without_a_record_is_not_a_year_without_service() -> None:
    calendar = ServiceCalendar([MAY])  # its month ends with the 31st
    assert calendar.count(date(2025, 4, 30), date(2026, 6, 1)).most == 5
    assert calendar.count(date(2025, 4, 30), date(2026, 6, 2)).most is None


@pytest.mark.parametrize(("later", "known"), [("2026-06", True), ("2026-07", False)])
def test_more_than_a_year_between_two_records_is_no_year_without_service_either(later: str, known: bool) -> None:
    # from 31 May 2025, the last day told, to the first of the next record: 366 days, and 396
    calendar = ServiceCalendar([month("2025-05", {"day": "2025-05-03"}), month(later), month("2027-01")])
    assert (calendar.count(date(2025, 4, 30), date(2027, 1, 31)).most == 1) is known
    assert (calendar.count(date(2025, 8, 1), date(2025, 9, 1)).most == 0) is known
    silent = None if known else (date(2025, 6, 1), date(2026, 6, 30))
    assert calendar.gap(date(2025, 4, 30), date(2027, 1, 31)) == silent
    assert calendar.count(date(2025, 4, 30), date(2025, 5, 31)).most == 1
    assert calendar.count(date(2026, 7, 1), date(2027, 1, 31)).most == 0


def test_a_year_told_to_have_none_is_no_silence() -> None:
    calendar = ServiceCalendar([MAY, year("2025", "5"), year("2026", "0"), month("2027-01")])
    assert calendar.count(date(2025, 4, 30), date(2027, 1, 31)).most == 5


def test_no_record_at_all_tells_nothing() -> None:
    calendar = ServiceCalendar([])
    assert calendar.count(None, date(2026, 1, 1)).words == "at least 0"
    assert calendar.day_of(1, None) is None


def test_miles_are_whole_only_where_each_line_tells_them() -> None:
    told = month("2025-07", {"day": "2025-07-05", "miles": "10 mile"}, {"day": "2025-07-06", "miles": "5 mile"})
    mile = Fraction("1609.344")
    assert ServiceCalendar([told]).miles(date(2025, 6, 30), date(2025, 7, 31)) == (15 * mile, True)
    assert ServiceCalendar([told]).miles(date(2025, 7, 5), date(2025, 7, 31)) == (5 * mile, True)
    assert ServiceCalendar([told, JUNE]).miles(date(2025, 5, 31), date(2025, 7, 31)) == (15 * mile, False)


RUNS = st.lists(st.tuples(st.integers(0, 400), st.integers(0, 40)), max_size=12)


@given(RUNS, st.integers(-5, 450), st.integers(-5, 450))
def test_a_count_is_that_of_the_set_of_days(runs: list[tuple[int, int]], after: int, until: int) -> None:
    zero = date(2023, 12, 1)

    def on(number: int) -> date:
        return zero + timedelta(number)

    lines: list[dict[str, Any]] = [{"day": on(a).isoformat(), "until": on(a + n).isoformat()} for a, n in runs]
    calendar = ServiceCalendar([month("2024-01", *lines)])
    days = sorted({day for a, n in runs for day in range(a, a + n + 1) if day > after})
    inside = [day for day in days if day <= until]
    assert calendar.on_file(on(after), on(until)) == Count(len(inside), len(inside))
    for number, day in enumerate(days[:20], start=1):
        assert calendar.day_of(number, on(after)) == on(day)


@given(st.integers(0, 365), st.integers(0, 364), RUNS)
def test_the_range_of_a_total_holds_every_way_its_days_can_lie(
    total: int, border: int, runs: list[tuple[int, int]]
) -> None:
    """Two halves of a year: what one has at most, the other has at least, and together they are the total."""
    new_year = date(2025, 1, 1)
    lines = [
        {"day": (new_year + timedelta(a)).isoformat(), "until": (new_year + timedelta(min(a + n, 364))).isoformat()}
        for a, n in runs
        if a <= 364
    ]
    calendar = ServiceCalendar([year("2025", str(total)), month("2025-01", *lines)])
    middle, end = new_year + timedelta(border), date(2025, 12, 31)
    whole = calendar.on_file(date(2024, 12, 31), end)
    first, second = calendar.on_file(date(2024, 12, 31), middle), calendar.on_file(middle, end)
    assert whole.exact is not None
    assert first.most is not None
    assert second.most is not None
    assert first.least + second.most == whole.exact == first.most + second.least
