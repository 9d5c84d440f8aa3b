"""What stands where, by the day: dated lines, ends that are turned, tires found, put on and taken off."""

from datetime import date

import pytest

from axlebook.records.book import Book, Thing

from .books import book_of, driver, engine, inspection, line, reading, stand_at, tire, tire_work, truck


def day(text: str) -> date:
    return date.fromisoformat(text)


TWO_PLACES = (
    engine(
        line("tender-1", "tw-1", "2020-01-01", until="2022-06-30", a_end="left"),
        line("tender-1", "tw-2", "2022-07-01", a_end="left"),
        line("tender-2", "tw-1", "2023-01-01", a_end="right"),
    )
    | truck("tw-1")
    | truck("tw-2")
)


@pytest.mark.parametrize(
    ("on", "place", "wheelset"),
    [
        ("2019-12-31", "tender-1", None), ("2020-01-01", "tender-1", "tw-1"), ("2022-06-30", "tender-1", "tw-1"),
        ("2022-07-01", "tender-1", "tw-2"), ("2022-12-31", "tender-2", None), ("2023-01-01", "tender-2", "tw-1"),
    ],
)  # fmt: skip
def test_a_wheelset_stands_at_a_place_from_its_first_day_to_its_last(on: str, place: str, wheelset: str | None) -> None:
    found = book_of(TWO_PLACES).standing.line_at("e-1", place, day(on))
    assert (found.wheelset if found else None) == wheelset


@pytest.mark.parametrize(
    ("on", "place"), [("2021-01-01", "tender-1"), ("2022-10-01", None), ("2024-01-01", "tender-2")]
)
def test_a_wheelset_out_of_the_engine_stands_nowhere(on: str, place: str | None) -> None:
    found = book_of(TWO_PLACES).standing.line_of("tw-1", day(on))
    assert (found.at if found else None) == place


def test_a_wheelset_turned_end_for_end_takes_its_readings_along() -> None:
    book = book_of(TWO_PLACES | inspection("2021-05-01", reading("flange_height", "tender-1 left", "1 1/8 in")))
    thing = Thing("end", "tw-1", "A")
    assert (thing, "flange_height") in book.series
    assert stand_at(book, "e-1 tender-2 right").thing("wheel") == thing


def test_a_wheel_whose_end_is_not_told_keeps_its_readings_by_end_only() -> None:
    book = book_of(
        engine(line("tender-1", "tw-1"))
        | truck("tw-1")
        | inspection("2021-05-01", reading("flange_height", "tender-1 left", "1 1/8 in"))
        | inspection("2021-06-01", reading("flange_height", "tw-1 A", "1 1/8 in"))
    )
    assert [thing.name for thing, _ in book.series] == ["tw-1 A"]


FITTED = engine(line("driver-1", "d-1")) | driver("d-1") | tire("t-1") | tire("t-2")
CHANGED = (
    FITTED
    | tire_work("found", "2020-03-01", "t-1", "d-1-left", since="unknown")
    | tire_work("removed", "2024-05-10", "t-1", "d-1-left")
    | tire_work("applied", "2024-05-12", "t-2", "d-1-left")
)


@pytest.mark.parametrize(
    ("on", "fitted"),
    [
        ("2015-01-01", "t-1"), ("2020-03-01", "t-1"), ("2024-05-09", "t-1"), ("2024-05-10", ""), ("2024-05-11", ""),
        ("2024-05-12", "t-2"), ("2026-01-01", "t-2"),
    ],
)  # fmt: skip
def test_a_tire_found_was_on_before_and_a_new_one_is_on_from_its_day(on: str, fitted: str) -> None:
    assert book_of(CHANGED).standing.tire_on("d-1-left", day(on)) == fitted


def test_a_tire_put_on_the_day_another_came_off_is_the_one_fitted() -> None:
    book = book_of(
        FITTED
        | tire_work("found", "2020-03-01", "t-1", "d-1-left")
        | tire_work("applied", "2024-05-10", "t-2", "d-1-left")
        | tire_work("removed", "2024-05-10", "t-1", "d-1-left")
    )
    assert book.standing.tire_on("d-1-left", day("2024-05-10")) == "t-2"


def test_a_tire_only_known_from_coming_off_was_on_before() -> None:
    book = book_of(FITTED | tire_work("removed", "2024-05-10", "t-1", "d-1-left"))
    assert [book.standing.tire_on("d-1-left", day(on)) for on in ("2020-01-01", "2024-05-10")] == ["t-1", ""]


def test_a_tire_leads_back_to_its_wheel() -> None:
    assert book_of(CHANGED).standing.wheel_of_tire("t-2", day("2025-01-01")) == ("d-1-left", "d-1", "left")


def test_a_draft_is_no_work_done() -> None:
    draft = {"kind": "turning", "turned_on": "2025-01-01", "engine": "e-1", "tires": ["t-2"], "draft": "yes"}
    book = book_of(CHANGED | {"turnings/2025/2025-01-01-x.yaml": draft})
    assert [session.kind for session in book.work_on["t-2"]] == ["tire-applied"]


def test_work_after_the_day_the_book_is_read_at_has_not_happened() -> None:
    book = book_of(CHANGED, "2024-05-01")
    assert book.standing.tire_on("d-1-left", book.as_of) == "t-1"


PRESSED = (
    engine(line("driver-1", "d-1"), line("driver-2", "d-2"))
    | driver("d-1")
    | driver("d-2")
    | {
        f"mountings/2023/2023-0{month}-01-{name}.yaml": {
            "kind": "mounting", "mounted_on": f"2023-0{month}-01", "work": work, "center": "d-1-left",
            "wheelset": wheelset, "side": "left",
        }
        for month, name, work, wheelset in ((3, "off", "pressed off", "d-1"), (4, "on", "pressed on", "d-2"))
    }
)  # fmt: skip


@pytest.mark.parametrize(
    ("on", "first", "second"),
    [
        ("2023-02-28", "d-1-left", "d-2-left"), ("2023-03-01", "", "d-2-left"), ("2023-04-01", "", "d-1-left"),
    ],
)  # fmt: skip
def test_a_center_pressed_off_one_axle_and_on_another_goes_along(on: str, first: str, second: str) -> None:
    standing = book_of(PRESSED).standing
    assert [standing.center_on(wheelset, "left", day(on)) for wheelset in ("d-1", "d-2")] == [first, second]


def thing(book: Book, quantity: str) -> list[str]:
    return [f"{thing.kind} {thing.name}" for thing, name in book.series if name == quantity]


def test_a_reading_by_wheelset_and_side_belongs_to_the_tire_that_was_on_it() -> None:
    book = book_of(CHANGED | inspection("2021-05-01", reading("tire_thickness", "d-1 left", "2 in"), name="d-1"))
    assert thing(book, "tire_thickness") == ["tire t-1"]


def test_a_reading_on_a_wheel_whose_tire_no_record_names_is_kept_for_the_wheel() -> None:
    book = book_of(FITTED | inspection("2021-05-01", reading("tire_thickness", "driver-1 left", "2 in")))
    assert thing(book, "tire_thickness") == ["end d-1 left"]
    assert stand_at(book, "e-1 driver-1 left").thing("wheel") == Thing("end", "d-1", "left")
