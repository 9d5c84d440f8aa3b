"""The condition now: the latest readings on the part now fitted, and what work since then made of them."""

from fractions import Fraction

import pytest

from axlebook.limits import Span
from axlebook.records.condition import Stale, current, engine_places, latest, values_of

from .books import (
    Trees,
    book_of,
    driver,
    engine,
    inspection,
    line,
    looked,
    reading,
    stand_at,
    tire,
    tire_work,
    turning,
)

BASE = (
    engine(line("driver-1", "d-1"))
    | driver("d-1")
    | tire("t-1")
    | tire("t-2")
    | tire("t-9")
    | tire_work("found", "2020-01-02", "t-1", "d-1-left")
    | tire_work("found", "2020-01-02", "t-2", "d-1-right")
)
LEFT = "e-1 driver-1 left"


def read(trees: Trees, quantity: str = "tire_thickness", at: str = LEFT, as_of: str = "2026-02-28") -> list[str]:
    book = book_of(BASE | trees, as_of)
    return [value.text for value in current(book, stand_at(book, at), quantity)]


def thick(day: str, *values: str, **more: str) -> Trees:
    return inspection(day, reading("tire_thickness", "driver-1 left", *values, **more))


def test_the_latest_day_counts_and_all_its_positions() -> None:
    assert read(thick("2024-01-10", "2 in", "1 15/16 in") | thick("2025-01-10", "1 7/8 in", "1 13/16 in")) == [
        "1 7/8 in", "1 13/16 in",
    ]  # fmt: skip


def test_at_an_older_day_the_reading_of_then_counts() -> None:
    trees = thick("2024-01-10", "2 in") | thick("2025-01-10", "1 7/8 in")
    assert read(trees, as_of="2024-12-31") == ["2 in"]


def test_each_plane_keeps_its_own_latest_reading() -> None:
    trees = thick("2024-01-10", "2 in", where="in measuring circle plane") | thick("2025-01-10", "1 7/8 in")
    assert sorted(read(trees)) == ["1 7/8 in", "2 in"]


def at(day: str, quantity: str = "tire_thickness", sure: str = "", **values: str) -> Trees:
    """A reading at named positions: `a0` is 0 deg, `worst` and `all_round` are themselves."""
    spots = {(f"{k[1:]} deg" if k[0] == "a" and k[1:].isdigit() else k.replace("_", " ")): v for k, v in values.items()}
    tree = {"quantity": quantity, "place": "driver-1 left", "values": spots} | ({"sure": sure} if sure else {})
    return inspection(day, tree)


PLAN = {"plans/p.yaml": {"kind": "plan", "title": "p", "purposes": ["annual"], "minimum_positions": "3", "asks": [
    {"quantity": "tire_thickness", "positions": ["0 deg", "90 deg", "180 deg", "270 deg"]}]}}  # fmt: skip


def test_a_reading_at_one_position_does_not_take_the_place_of_what_was_read_at_another() -> None:
    first, later = at("2024-01-10", a0="1 in", a180="3 in"), at("2024-01-20", a180="2 31/32 in")
    assert read(first | later) == ["1 in", "2 31/32 in"]


def test_the_worst_stands_for_every_position_read_before() -> None:
    first = at("2024-01-10", a0="1 in", a180="3 in")
    assert read(first | at("2024-01-20", worst="15/16 in")) == ["15/16 in"]
    assert read(first | at("2024-01-20", all_round="15/16 in")) == ["15/16 in"]


def test_a_single_angle_does_not_take_the_place_of_the_worst() -> None:
    assert read(at("2024-01-10", worst="1 in") | at("2024-01-20", a0="3 in")) == ["1 in", "3 in"]


def test_a_full_reading_as_a_plan_has_it_takes_the_place_of_the_worst() -> None:
    worst, many = at("2024-01-10", worst="1 in"), at("2024-01-20", a0="3 in", a90="3 in", a180="3 in")
    assert read(worst | many) == ["1 in", "3 in", "3 in", "3 in"]  # by no plan is that a full one
    assert read(worst | many | PLAN) == ["3 in", "3 in", "3 in"]
    assert read(worst | at("2024-01-20", a0="3 in", a90="3 in") | PLAN) == ["1 in", "3 in", "3 in"]


def test_what_is_not_sure_does_not_take_the_place_of_what_is() -> None:
    sure, doubted = at("2024-01-10", a0="1 in"), at("2024-01-20", sure="uncertain", a0="3 in")
    assert read(sure | doubted) == ["1 in", "3 in"]
    assert read(sure | doubted | at("2024-01-30", a0="2 in")) == ["2 in"]
    assert read(doubted | at("2024-01-30", sure="uncertain", a0="2 in")) == ["2 in"]


def test_a_flange_is_as_high_by_either_gauge_where_no_limit_names_a_plane() -> None:
    gauges: Trees = {
        f"instruments/g-{n}.yaml": {"kind": "instrument", "type": "wheel gauge", "where": where, "no_certificate": "x"}
        for n, where in ((1, "3/8 in above tread"), (2, "10 mm outside measuring circle"))
    }
    one, other = (
        inspection(f"{year}-01-10", reading("flange_height", "driver-1 left", text, **{"with": gauge}))
        for year, text, gauge in (("2024", "28 mm", "g-2"), ("2025", "1 1/4 in", "g-1"))
    )
    assert read(one | other | gauges, "flange_height") == ["1 1/4 in"]


def test_a_plane_said_by_the_gauge_and_one_said_by_the_reading_are_one_plane() -> None:
    gauge = {"kind": "instrument", "type": "wheel gauge", "where": "3/8 in above tread", "no_certificate": "a gauge"}
    one = inspection("2024-01-10", reading("flange_thickness", "driver-1 left", "1 1/4 in", where="3/8 in above tread"))
    other = inspection("2025-01-10", reading("flange_thickness", "driver-1 left", "1 3/16 in", **{"with": "gauge-1"}))
    assert read(one | other | {"instruments/gauge-1.yaml": gauge}, "flange_thickness") == ["1 3/16 in"]


def test_a_reading_on_the_tire_before_does_not_tell_of_the_tire_now() -> None:
    change = tire_work("removed", "2024-05-10", "t-1", "d-1-left") | tire_work(
        "applied", "2024-05-12", "t-9", "d-1-left"
    )
    assert read(thick("2024-01-10", "1 in") | change) == []
    assert read(thick("2024-01-10", "1 in") | thick("2024-06-01", "2 3/4 in") | change) == ["2 3/4 in"]


def test_a_reading_before_a_turning_is_stale_until_it_is_read_again() -> None:
    trees = BASE | thick("2024-01-10", "2 in") | turning("2024-03-01", "t-1")
    book = book_of(trees)
    found = latest(book, stand_at(book, LEFT), "tire_thickness", "wheel")
    assert isinstance(found, Stale)
    assert (found.since.id, found.last.day.text) == ("2024-03-01-e-1", "2024-01-10")
    assert read(thick("2024-01-10", "2 in") | turning("2024-03-01", "t-1") | thick("2024-03-01", "1 3/4 in")) == [
        "1 3/4 in"
    ]


def test_a_turning_of_another_tire_leaves_a_reading_alone() -> None:
    assert read(thick("2024-01-10", "2 in") | turning("2024-03-01", "t-2")) == ["2 in"]


def test_a_turning_does_not_change_what_it_does_not_touch() -> None:
    width = inspection("2024-01-10", reading("tire_width", "driver-1 left", "5 3/4 in"))
    assert read(width | turning("2024-03-01", "t-1"), "tire_width") == ["5 3/4 in"]


def test_back_to_back_is_stale_once_a_tire_of_the_pair_was_changed() -> None:
    gauge = inspection("2024-01-10", reading("back_to_back", "driver-1", "53 1/4 in"))
    change = tire_work("removed", "2024-05-10", "t-2", "d-1-right") | tire_work(
        "applied", "2024-05-12", "t-9", "d-1-right"
    )
    book = book_of(BASE | gauge | change)
    assert isinstance(latest(book, stand_at(book, "e-1 driver-1"), "back_to_back", "wheelset"), Stale)
    assert read(gauge | turning("2024-05-12", "t-1"), "back_to_back", "e-1 driver-1") == ["53 1/4 in"]


@pytest.mark.parametrize("day", ["2024", "2024-02", "unknown"])
def test_a_reading_that_may_be_from_before_the_work_does_not_tell_what_it_left(day: str) -> None:
    before = inspection("2024-01-10", reading("tire_thickness", "t-1", "2 in", measured_on=day))
    book = book_of(BASE | before | turning("2024-03-01", "t-1"))
    assert isinstance(latest(book, stand_at(book, LEFT), "tire_thickness", "wheel"), Stale)


def test_readings_taken_before_the_work_of_their_own_record_are_left_out() -> None:
    tree = turning("2024-03-01", "t-1")
    path = next(iter(tree))
    tree[path]["readings"] = [
        reading("tire_thickness", "t-1", "2 in", when="before"),
        reading("tire_thickness", "t-1", "1 3/4 in", when="after"),
    ]
    assert read(tree) == ["1 3/4 in"]


def test_repeats_become_their_mean_and_stand_as_written() -> None:
    many = {"quantity": "tire_thickness", "place": "driver-1 left", "values": {"0 deg": ["2 in", "2 1/16 in"]}}
    book = book_of(BASE | inspection("2024-01-10", many))
    value = current(book, stand_at(book, LEFT), "tire_thickness")[0]
    assert value.span == Span(Fraction("0.0254") * Fraction(65, 32), Fraction("0.0254") * Fraction(65, 32))
    assert value.text == "2 in and 2 1/16 in"
    assert value.at.pointer == "/readings/0/values/0 deg"


@pytest.mark.parametrize(
    ("text", "low", "high"), [("under 2 in", None, 2), ("over 2 in", 2, None), ("1 to 2 in", 1, 2), ("2 in", 2, 2)]
)
def test_an_interval_stays_one(text: str, low: int | None, high: int | None) -> None:
    book = book_of(BASE | thick("2024-01-10", text))
    inch = Fraction("0.0254")
    span = values_of(book, list(book.readings))[0].span
    left_out = low is None or high is None  # `under 2 in` is not 2 in
    assert span == Span(None if low is None else low * inch, None if high is None else high * inch, left_out)


def test_a_place_of_the_engine_that_is_no_wheelset_is_a_place_of_its_own() -> None:
    book = book_of(
        BASE | inspection("2024-01-10", reading("crosshead_vertical", "crosshead left", "1/8 in"),
                          seen=(looked("stuck_brake", "engine"),))
    )  # fmt: skip
    assert [place.name for place in engine_places(book)] == ["e-1 crosshead left", "e-1 engine"]


def test_an_engine_whose_wheelset_stands_elsewhere_now_is_not_judged_by_it() -> None:
    trees = engine(line("driver-1", "d-1", until="2025-12-31")) | thick("2025-01-10", "2 in")
    book = book_of(BASE | trees)
    assert current(book, stand_at(book_of(BASE), LEFT), "tire_width") == []
    with pytest.raises(StopIteration):
        stand_at(book, LEFT)
