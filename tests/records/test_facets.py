"""What a limit may ask of a thing, and what is not known."""

from fractions import Fraction

import pytest

from axlebook.records.condition import EnginePlace
from axlebook.records.facets import facet
from axlebook.records.renewal import set_case

from .books import Trees, book_of, driver, engine, inspection, line, reading, stand_at, tire, tire_work, truck, turning

INCH, POUND = Fraction("0.0254"), Fraction("0.45359237")
WEIGHT = {"weight_on_drivers": {"value": "76000 lb"}}
BASE: Trees = (
    engine(line("driver-1", "d-1"), line("driver-2", "d-2"), line("tender-1", "tw-1", a_end="left"))
    | driver("d-1", main="no", original_journal_diameter="8 1/2 in", journals="inside", bearings="plain")
    | driver("d-2", main="yes")
    | truck("tw-1", nominal_diameter="33 in", axle={"axle_load": "30000 lb"}, plate="straight")
)
for _axle in ("1", "2"):
    for _side in ("left", "right"):
        BASE |= tire(f"t-{_axle}-{_side}", flange="flanged", fastened_by="nothing", located_by="lip outside")
        BASE |= tire_work("found", "2020-01-02", f"t-{_axle}-{_side}", f"d-{_axle}-{_side}")


def asked(name: str, at: str, trees: Trees | None = None) -> object:
    book = book_of(BASE | (trees or {}))
    return facet(book, stand_at(book, at), name)


@pytest.mark.parametrize(
    ("name", "at", "answer"),
    [
        ("role", "e-1 driver-1 left", "driver"),
        ("role", "e-1 tender-1", "tender"),
        ("main", "e-1 driver-1", "no"),
        ("main", "e-1 driver-2 left", "yes"),
        ("main", "e-1 tender-1", "no"),
        ("track_gauge", "e-1 driver-1", Fraction("56.5") * INCH),
        ("wheel_diameter", "e-1 tender-1 left", 33 * INCH),
        ("wheel_diameter", "e-1 driver-1", None),
        ("center_diameter", "e-1 driver-1 left", 44 * INCH),
        ("center_diameter", "e-1 tender-1 left", None),
        ("axle_load", "e-1 tender-1", 30000 * POUND),
        ("axle_load", "e-1 driver-1", None),
        ("original_journal_diameter", "e-1 driver-1 left", Fraction("8.5") * INCH),
        ("journals", "e-1 driver-1", "inside"),
        ("bearings", "e-1 driver-1", "plain"),
        ("bearings", "e-1 driver-2", None),
        ("make", "e-1 tender-1", "one-piece"),
        ("make", "e-1 driver-1", "tired"),
        ("plate", "e-1 tender-1", "straight"),
        ("flange", "e-1 driver-1 left", "flanged"),
        ("flange", "e-1 tender-1 left", None),
        ("fastened_by", "e-1 driver-1 left", "nothing"),
        ("located_by", "e-1 driver-1 left", "lip outside"),
        ("traffic", "e-1 driver-1", None),
        ("set_case", "e-1 driver-1", "none"),
        ("turned_or_new", "e-1 driver-1", "no"),
        ("intermediate", "e-1 driver-1", None),
    ],
)
def test_a_facet_is_what_the_records_say_or_not_known(name: str, at: str, answer: object) -> None:
    assert asked(name, at) == answer


def test_the_axle_load_is_the_weight_on_drivers_shared_by_the_pairs() -> None:
    trees = engine(line("driver-1", "d-1"), line("driver-2", "d-2"), **WEIGHT)
    assert asked("axle_load", "e-1 driver-1 left", trees) == 38000 * POUND


def test_a_pair_in_the_shop_makes_the_others_no_heavier() -> None:
    trees = engine(line("driver-1", "d-1"), line("driver-2", "d-2", until="2025-01-01"), **WEIGHT)
    assert asked("axle_load", "e-1 driver-1 left", trees) == 38000 * POUND


def test_the_diameter_read_last_comes_before_the_nominal_and_a_pair_has_the_smaller() -> None:
    trees = inspection("2025-01-10", reading("tread_diameter", "tender-1 left", "32 in"),
                       reading("tread_diameter", "tender-1 right", "32 1/2 in"))  # fmt: skip
    assert asked("wheel_diameter", "e-1 tender-1 right", trees) == Fraction("32.5") * INCH
    assert asked("wheel_diameter", "e-1 tender-1", trees) == 32 * INCH


TOLD = engine(
    line("driver-1", "d-1"),
    line("tender-1", "tw-1", a_end="left"),
    facets={"traffic": "inland", "vehicle": "locomotive", "retarders": "unknown"},
    facets_at={"tender-1": {"vehicle": "tender"}, "side-rod left": {"pin": "main"}, "tender": {"brake_gear": "tender"}},
)


@pytest.mark.parametrize(
    ("name", "at", "answer"),
    [
        ("traffic", "e-1 driver-1", "inland"), ("vehicle", "e-1 driver-1", "locomotive"),
        ("vehicle", "e-1 tender-1 left", "tender"), ("retarders", "e-1 driver-1", None),
    ],
)  # fmt: skip
def test_the_engine_tells_what_no_record_derives_and_a_place_of_it_comes_first(
    name: str, at: str, answer: object
) -> None:
    assert asked(name, at, TOLD) == answer


@pytest.mark.parametrize(
    ("place", "name", "answer"),
    [
        ("tender rear", "position", "rear"), ("tender front", "position", "front"), ("tender", "position", None),
        ("side-rod left", "pin", "main"), ("side-rod right", "pin", None), ("tender rear", "brake_gear", "tender"),
        ("crosshead left", "track_gauge", Fraction("56.5") * INCH), ("driver-1 left", "role", "driver"),
        ("crosshead left", "role", None), ("crosshead left", "traffic", "inland"),
    ],
)  # fmt: skip
def test_a_place_of_the_engine_has_facets_too(place: str, name: str, answer: object) -> None:
    book = book_of(BASE | TOLD)
    assert facet(book, EnginePlace(book.engines["e-1"], place), name) == answer


def service(*days: str) -> Trees:
    lines = [{"day": day} for day in ("2025-01-04", *days)]
    return {"service/e-1-2025.yaml": {"kind": "service", "engine": "e-1", "year": "2025", "days": lines}}


LEFT, ALL = ("t-1-left",), ("t-1-left", "t-1-right", "t-2-left", "t-2-right")


@pytest.mark.parametrize(
    ("tires", "days", "case"),
    [
        (ALL, (), "all"), (LEFT, (), "single tire"), (ALL[:2], (), "single pair"), (ALL[1:3], (), "several"),
        (ALL, ("2025-03-01",), "none"), ((), (), "none"),
    ],
)  # fmt: skip
def test_what_was_turned_counts_until_the_engine_has_run(
    tires: tuple[str, ...], days: tuple[str, ...], case: str
) -> None:
    work = turning("2025-02-01", *tires) if tires else {}
    book = book_of(BASE | service(*days) | work)
    assert set_case(book, book.engines["e-1"]) == case


def test_without_service_records_it_is_not_known_whether_a_turned_tire_ran() -> None:
    book = book_of(BASE | turning("2025-02-01", *ALL))
    assert set_case(book, book.engines["e-1"]) is None
    assert facet(book, stand_at(book, "e-1 driver-1"), "turned_or_new") is None
