"""Ids, days, places, parts and positions: what is one, and what it means."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlebook.records import forms


@pytest.mark.parametrize("text", ["t-4471", "d-3-right", "e-12-2026-01", "2026-01-10-e-12-annual", "2014-02-card", "a"])
def test_an_id_starts_with_a_letter_or_a_date(text: str) -> None:
    assert forms.is_id(text)


@pytest.mark.parametrize(
    "text",
    ["", "T-4471", "t 4471", "t_4471", "4471", "-t", "2026-02-30-card", "2026-13-card", "con",
     "lpt1", "a" * 61, "tür", "a\n"],
)
def test_what_no_file_may_be_called_on_every_system_is_no_id(text: str) -> None:
    assert not forms.is_id(text)


def test_a_device_name_inside_a_longer_id_is_allowed() -> None:
    assert forms.is_id("con-rod-3")


@pytest.mark.parametrize(
    ("text", "day"),
    [("2024-02-29", date(2024, 2, 29)), ("1911-06-01", date(1911, 6, 1)), ("2025-02-29", None), ("2026-00-10", None),
     ("2026-04-31", None), ("2026-1-5", None), ("3/14/2025", None), ("2026-01", None), ("unknown", None), ("", None),
     ("٢٠٢٦-01-01", None)],
)  # fmt: skip
def test_a_day_is_one_of_the_calendar(text: str, day: date | None) -> None:
    assert forms.parse_day(text) == day


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [("2014-02-08", date(2014, 2, 8), date(2014, 2, 8)), ("2024-02", date(2024, 2, 1), date(2024, 2, 29)),
     ("1998", date(1998, 1, 1), date(1998, 12, 31))],
)  # fmt: skip
def test_a_date_known_in_part_spans_all_its_days(text: str, first: date, last: date) -> None:
    assert forms.span_of_days(text) == (first, last)


def test_unknown_is_a_date_that_spans_nothing() -> None:
    assert forms.is_day_or_less("unknown")
    assert forms.span_of_days("unknown") is None
    assert not forms.is_day_or_less("2014-13")


@pytest.mark.parametrize(("text", "holds"), [("10:48", True), ("00:00", True), ("23:59", True), ("24:00", False),
                                             ("9:05", False), ("10:60", False), ("605", False)])  # fmt: skip
def test_a_time_of_day_has_hours_and_minutes(text: str, holds: bool) -> None:
    assert forms.is_clock(text) is holds


@pytest.mark.parametrize(("text", "number"), [
    ("14", 14), ("0", 0), ("-1", None), ("1.0", None), ("", None), ("٣", None),
])  # fmt: skip
def test_a_whole_number_is_digits(text: str, number: int | None) -> None:
    assert forms.parse_whole_number(text) == number


@pytest.mark.parametrize(("text", "number"), [
    ("2", Fraction(2)), ("0.0005", Fraction(1, 2000)), ("90 percent", Fraction(9, 10)), ("0.075 %", Fraction(3, 4000)),
    ("two", None), ("2 in", None), ("1/2", None), ("1e-3", None), ("-2", None), ("", None), ("٣", None), (".5", None),
    ("under 5 percent", None), ("0", None), ("0.0 percent", None), ("9" * 40, None),
])  # fmt: skip
def test_a_number_is_plain_or_a_share(text: str, number: Fraction | None) -> None:
    assert forms.parse_number(text) == number


@pytest.mark.parametrize(
    ("text", "spot"),
    [("driver-2 right", ("driver", 2, "right")), ("engine-truck-1", ("engine-truck", 1, "")),
     ("tender-3 left", ("tender", 3, "left")), ("crosshead left", ("crosshead", None, "left")),
     ("engine", ("engine", None, "")), ("tender rear", ("tender", None, "rear"))],
)  # fmt: skip
def test_a_place_is_a_role_with_its_number_or_a_place_on_the_engine(
    text: str, spot: tuple[str, int | None, str]
) -> None:
    assert forms.parse_place(text) == spot


@pytest.mark.parametrize("text", ["", "Driver-2 right", "driver-2-right left side", "driver-0", "driver-02 left",
                                  "driver-2  right", "R2", "driver 2 right", "driver-2 rear",
                                  "driver-2 right "])  # fmt: skip
def test_what_could_be_read_two_ways_is_no_place(text: str) -> None:
    assert forms.parse_place(text) is None


def test_a_place_without_its_side_is_its_axle() -> None:
    spot = forms.parse_place("driver-2 right")
    assert spot is not None
    assert spot.axle == "driver-2"


@pytest.mark.parametrize(
    ("text", "part"),
    [("t-4471", ("t-4471", "")), ("d-3 left", ("d-3", "left")), ("et-1 A", ("et-1", "A")), ("et-1 a", None),
     ("d-3 rear", None), ("D-3 left", None), ("4471", None)],
)  # fmt: skip
def test_a_part_is_an_id_with_its_side_or_end(text: str, part: tuple[str, str] | None) -> None:
    assert forms.parse_part(text) == part


@pytest.mark.parametrize(
    ("text", "position"),
    [("0 deg", (Fraction(0), "")), ("120 deg inner", (Fraction(120), "inner")), ("22.5 deg", (Fraction(45, 2), "")),
     ("90°", (Fraction(90), "")), ("inner", (None, "inner")), ("all round", (None, "all round")),
     ("worst", (None, "worst")),
     ("360 deg", None), ("-90 deg", None), ("90", None), ("3 o'clock", None), ("worst inner", None)],
)  # fmt: skip
def test_a_position_is_an_angle_under_a_full_turn_a_plane_or_a_word(
    text: str, position: tuple[Fraction | None, str] | None
) -> None:
    assert forms.parse_position(text) == position


@given(st.text(max_size=80))
def test_no_text_breaks_a_form(text: str) -> None:
    for reads in (forms.is_id, forms.is_day_or_less, forms.is_clock, forms.parse_place, forms.parse_part,
                  forms.parse_position, forms.parse_whole_number, forms.parse_number, forms.is_month,
                  forms.is_year):  # fmt: skip
        reads(text)


@given(st.dates(min_value=date(1800, 1, 1), max_value=date(2999, 12, 31)))
def test_every_day_reads_back(day: date) -> None:
    assert forms.parse_day(day.isoformat()) == day
    assert forms.is_id(f"{day.isoformat()}-e-12")
