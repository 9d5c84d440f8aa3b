"""Periods of the calendar: worked out by hand over leap years, and held to the calendar's own arithmetic."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlebook.records.periods import before, last_within, shifted, words

DAYS = st.dates(date(1900, 1, 1), date(2200, 12, 31))


@pytest.mark.parametrize(
    ("start", "period", "last"),
    [
        (date(2025, 3, 1), (368, "day"), date(2026, 3, 4)),  # the printed case
        (date(2024, 2, 28), (368, "day"), date(2025, 3, 2)),  # 2024 has 366 days: 366 bring 2025-02-28
        (date(2024, 2, 29), (368, "day"), date(2025, 3, 3)),
        (date(2024, 3, 1), (368, "day"), date(2025, 3, 4)),
        (date(2023, 2, 28), (368, "day"), date(2024, 3, 2)),  # 365 bring 2024-02-28; 29th, 1st, 2nd
        (date(1900, 2, 28), (368, "day"), date(1901, 3, 3)),  # 1900 was no leap year
        (date(2000, 2, 28), (368, "day"), date(2001, 3, 2)),  # 2000 was one
        (date(2014, 5, 3), (15, "year"), date(2029, 5, 2)),
        (date(2012, 2, 29), (15, "year"), date(2027, 2, 28)),  # there is no 2027-02-29
        (date(2012, 2, 29), (16, "year"), date(2028, 2, 28)),  # there is a 2028-02-29, and it is the day after
        (date(2013, 3, 1), (15, "year"), date(2028, 2, 29)),  # the day before 2028-03-01
        (date(2013, 2, 28), (15, "year"), date(2028, 2, 27)),
        (date(2018, 12, 15), (5, "year"), date(2023, 12, 14)),
        (date(2025, 1, 31), (1, "month"), date(2025, 2, 28)),
        (date(2024, 1, 31), (1, "month"), date(2024, 2, 29)),
        (date(2025, 12, 1), (1, "month"), date(2025, 12, 31)),
    ],
)
def test_the_last_day_within_a_period(start: date, period: tuple[int, str], last: date) -> None:
    assert last_within(start, period) == last


@pytest.mark.parametrize(
    ("day", "first"),
    [
        (date(2027, 2, 17), date(2027, 1, 17)),
        (date(2026, 3, 31), date(2026, 2, 28)),
        (date(2024, 3, 31), date(2024, 2, 29)),
        (date(2026, 1, 15), date(2025, 12, 15)),
    ],
)
def test_a_month_before_a_day(day: date, first: date) -> None:
    assert before(day, (1, "month")) == first


@given(DAYS, st.integers(0, 5000))
def test_days_are_elapsed_days(start: date, number: int) -> None:
    assert last_within(start, (number, "day")) - start == timedelta(number)


@given(DAYS, st.integers(1, 60))
def test_years_follow_on_one_another_without_a_gap_but_for_a_leap_day(start: date, number: int) -> None:
    after = last_within(start, (number, "year")) + timedelta(1)
    assert after.year == start.year + number
    same = (after.month, after.day) == (start.month, start.day)
    assert same or ((start.month, start.day) == (2, 29) and (after.month, after.day) == (3, 1))


@given(DAYS, st.integers(1, 600))
def test_months_are_never_shorter_than_28_days_each(start: date, number: int) -> None:
    assert (shifted(start, (number, "month")) - start).days >= 28 * number


@given(DAYS, st.integers(1, 30))
def test_a_longer_period_never_ends_earlier(start: date, number: int) -> None:
    for unit in ("day", "month", "year"):
        assert last_within(start, (number, unit)) < last_within(start, (number + 1, unit))


def test_a_period_beyond_the_calendar_ends_with_it() -> None:
    assert last_within(date(2026, 1, 1), (9000, "year")) == date.max
    assert last_within(date(2026, 1, 1), (9_000_000, "day")) == date.max
    assert before(date(2026, 1, 1), (9000, "year")) == date.min
    assert before(date(2026, 1, 1), (9_000_000, "day")) == date.min


def test_a_period_in_words() -> None:
    assert [words(p) for p in ((1, "year"), (15, "year"), (31, "service day"))] == [
        "1 year",
        "15 years",
        "31 service days",
    ]
