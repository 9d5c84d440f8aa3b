"""Quantities worked out: by hand, through intervals, with what is lacking named."""

from fractions import Fraction
from typing import Any

import pytest

from axlebook.limits import Span
from axlebook.quantities import Quantity, parse_measure
from axlebook.records.condition import Lack, Stale
from axlebook.records.derived import find_values

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

INCH = Fraction("0.0254")
PAIR, LEFT = "e-1 driver-1", "e-1 driver-1 left"
BASE: Trees = engine(line("driver-1", "d-1"), line("driver-2", "d-2")) | driver("d-1") | driver("d-2")
for _axle in ("1", "2"):
    for _side in ("left", "right"):
        BASE |= tire(f"t-{_axle}-{_side}")
        BASE |= tire_work("found", "2020-01-02", f"t-{_axle}-{_side}", f"d-{_axle}-{_side}")


def inches(text: str) -> Fraction | None:
    if text == "open":
        return None
    measure = parse_measure(text)
    assert isinstance(measure, Quantity)
    return measure.exact / INCH


def found(trees: Trees, quantity: str, at: str = PAIR) -> list[Span] | str:
    """The spans worked out, in inches; or what is lacking."""
    book = book_of(BASE | trees)
    values = find_values(book, stand_at(book, at), quantity)
    if isinstance(values, Lack):
        return values.what
    assert not isinstance(values, Stale)
    bounds = [(value.span.low, value.span.high) for value in values]
    return [Span(*(None if bound is None else bound / INCH for bound in pair)) for pair in bounds]


def exactly(*texts: str) -> list[Span]:
    return [Span(inches(text), inches(text)) for text in texts]


def back(*values: str, **more: str) -> Trees:
    return reading("back_to_back", "driver-1", *values, **more)


def flanges(left: str, right: str, **more: str) -> list[Trees]:
    return [
        reading("flange_thickness", f"driver-1 {side}", text, **more)
        for side, text in (("left", left), ("right", right))
    ]


# -- journals --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("read", "low", "high"),
    [("8 in", "1/2 in", "1/2 in"), ("under 8 in", "1/2 in", "open"), ("8 to 8 1/4 in", "1/4 in", "1/2 in")],
)
def test_journal_wear_is_the_original_less_the_reading(read: str, low: str, high: str) -> None:
    trees = driver("d-1", original_journal_diameter="8 1/2 in")
    trees |= inspection("2025-01-10", reading("journal_diameter", "driver-1 left", read))
    assert found(trees, "journal_wear", LEFT) == [Span(inches(low), inches(high))]


def test_journal_wear_without_the_original_lacks_it_and_without_a_reading_says_nothing() -> None:
    trees = inspection("2025-01-10", reading("journal_diameter", "driver-1 left", "8 in"))
    assert found(trees, "journal_wear", LEFT) == "the original journal diameter"
    assert found({}, "journal_wear", LEFT) == []


# -- gauge -----------------------------------------------------------------------------------------------------------


def test_the_track_gauge_less_back_to_back_is_worked_out_for_each_position() -> None:
    assert found(inspection("2025-01-10", back("53 in", "53 1/4 in")), "track_gauge_less_back_to_back") == exactly(
        "3 1/2 in", "3 1/4 in"
    )


def test_the_variation_is_the_largest_less_the_smallest_in_one_hold() -> None:
    one = back("53.250 in", "53.252 in", "53.249 in", hold="under the engine")
    other = back("53.300 in", "53.301 in", hold="on blocks")
    assert found(inspection("2025-01-10", one, other), "back_to_back_variation") == exactly("0.003 in", "0.001 in")


def test_readings_of_different_holds_are_never_one_variation() -> None:
    trees = inspection("2025-01-10", back("53.250 in", hold="under the engine"), back("53.300 in", hold="on blocks"))
    assert "second place round the axle" in str(found(trees, "back_to_back_variation"))


@pytest.mark.parametrize(
    ("values", "low", "high"),
    [(("53 in", "over 53 1/4 in"), "1/4 in", "open"), (("53 to 53 1/8 in", "53 1/4 in"), "1/8 in", "1/4 in")],
)
def test_a_variation_of_intervals_is_at_least_what_is_certain(values: tuple[str, ...], low: str, high: str) -> None:
    assert found(inspection("2025-01-10", back(*values)), "back_to_back_variation") == [Span(inches(low), inches(high))]


def test_over_flanges_is_the_smallest_and_the_largest_sum() -> None:
    read = inspection("2025-01-10", back("1357 mm", "1358 mm"), *flanges("30 mm", "31 mm"))
    assert found(read, "over_flanges") == exactly("1418 mm", "1419 mm")


def test_over_flanges_never_adds_flanges_of_two_planes() -> None:
    left = reading("flange_thickness", "driver-1 left", "30 mm", where="10 mm outside measuring circle")
    right = reading("flange_thickness", "driver-1 right", "31 mm", where="3/8 in above tread")
    assert "in one plane" in str(found(inspection("2025-01-10", back("1357 mm"), left, right), "over_flanges"))


def test_over_flanges_measured_whole_needs_no_sum_and_gives_the_play() -> None:
    read = inspection("2025-01-10", back("1357 mm"), reading("over_flanges_measured", "driver-1", "1415.1 mm"))
    assert found(read, "over_flanges") == []
    assert found(read, "track_gauge_less_over_flanges") == exactly("20 mm")


def test_the_wheel_check_is_back_to_back_and_one_flange_at_their_largest() -> None:
    read = inspection("2025-01-10", back("53 in", "53 1/8 in"), *flanges("1 in", "1 1/4 in"))
    assert found(read, "wheel_check") == exactly("54 1/8 in", "54 3/8 in")


def test_centrality_is_half_the_difference_of_both_sides() -> None:
    sides = [
        reading("flange_back_to_shoulder", f"driver-1 {side}", text)
        for side, text in (("left", "4 in"), ("right", "4 1/8 in"))
    ]
    assert found(inspection("2025-01-10", *sides), "centrality") == exactly("1/16 in")
    assert "on the right side" in str(found(inspection("2025-01-10", sides[0]), "centrality"))


# -- diameters -------------------------------------------------------------------------------------------------------


def taped(*sizes: str, day: str = "2025-01-10") -> Trees:
    places = [f"driver-{axle} {side}" for axle in (1, 2) for side in ("left", "right")]
    return inspection(day, *(reading("tread_diameter", at, size) for at, size in zip(places, sizes, strict=False)))


def test_the_difference_on_an_axle_is_of_the_means_of_both_wheels() -> None:
    left = reading("tread_diameter", "driver-1 left", "50 in", "50 1/8 in")
    right = reading("tread_diameter", "driver-1 right", "50 in")
    assert found(inspection("2025-01-10", left, right), "diameter_difference_on_axle") == exactly("1/16 in")


def test_one_wheel_taped_lacks_the_other() -> None:
    assert found(taped("50 in"), "diameter_difference_on_axle") == "the tread diameter of the opposite wheel"


def test_the_difference_in_the_set_is_at_least_what_was_taped() -> None:
    assert found(taped("50 in", "50 in", "50 1/8 in", "50 in"), "diameter_difference_in_set") == exactly("1/8 in")
    assert found(taped("50 in", "50 1/16 in", "50 in"), "diameter_difference_in_set") == [Span(inches("1/16 in"), None)]


def test_the_set_is_spoken_for_by_its_first_driver_alone() -> None:
    assert found(taped("50 in", "50 in", "50 in", "50 in"), "diameter_difference_in_set", "e-1 driver-2") == []


SERVICE = {
    "service/e-1-2025-01.yaml": {
        "kind": "service",
        "engine": "e-1",
        "month": "2025-01",
        "days": [{"day": "2025-01-04"}],
    }
}


def test_a_single_fresh_tire_is_counted_from_the_wheel_opposite_with_its_sign() -> None:
    trees = (
        SERVICE | turning("2025-02-01", "t-1-right") | taped("50 in", "49 7/8 in", "50 in", "50 in", day="2025-02-02")
    )
    assert found(trees, "diameter_less_opposite") == exactly("-1/8 in")
    assert found(trees, "diameter_less_opposite", "e-1 driver-2") == []


def test_a_single_fresh_pair_is_counted_from_the_average_of_the_base() -> None:
    trees = SERVICE | turning("2025-02-01", "t-1-left", "t-1-right")
    trees |= taped("49 in", "49 in", "50 in", "50 in", day="2025-02-02")
    assert found(trees, "diameter_less_base_average") == exactly("-1/2 in", "-1/2 in")


def test_an_average_needs_every_wheel() -> None:
    trees = (
        SERVICE | turning("2025-02-01", "t-1-left", "t-1-right") | taped("49 in", "49 in", "50 in", day="2025-02-02")
    )
    assert found(trees, "diameter_less_base_average") == "the tread diameter of every driving wheel"


# -- rings, spokes, spots, shims -------------------------------------------------------------------------------------


def test_the_extension_between_the_rings_is_added_to_the_reading() -> None:
    read = reading("thickness_from_ring", "driver-1 left", "1 1/4 in")
    assert "between the retaining rings" in str(
        found(inspection("2025-01-10", read), "thickness_from_ring_with_extension", LEFT)
    )
    both = inspection("2025-01-10", read, reading("ring_extension", "t-1-left", "3/8 in"))
    assert found(both, "thickness_from_ring_with_extension", LEFT) == exactly("1 5/8 in")


def spokes(**told: Any) -> Trees:
    return inspection("2025-01-10", seen=(looked("broken_spoke", "driver-1 left", **told),))


def counted(trees: Trees, quantity: str) -> Any:
    values = found(trees, quantity, LEFT)
    if isinstance(values, str):
        return values
    return tuple(None if bound is None else bound * INCH for bound in (values[0].low, values[0].high))


@pytest.mark.parametrize(
    ("numbers", "run"),
    [(["3"], 1), (["3", "4"], 2), (["14", "1", "2"], 3), (["1", "3", "5"], 1), (["1", "2", "7", "8", "9"], 3)],
)
def test_broken_spokes_are_counted_side_by_side_round_the_center(numbers: list[str], run: int) -> None:
    assert counted(spokes(spokes=numbers), "adjacent_broken_spokes") == (run, run)
    assert counted(spokes(spokes=numbers), "broken_spoke_share") == (
        Fraction(len(numbers), 14),
        Fraction(len(numbers), 14),
    )


def test_spokes_only_counted_may_all_stand_side_by_side() -> None:
    assert counted(spokes(count="3"), "adjacent_broken_spokes") == (1, 3)
    assert counted(spokes(count="3"), "broken_spoke_share") == (Fraction(3, 14), Fraction(3, 14))


def test_a_broken_spoke_without_number_or_count_lacks_it() -> None:
    assert "which spokes are broken" in str(counted(spokes(), "adjacent_broken_spokes"))


def test_spokes_looked_for_and_not_seen_are_none_broken() -> None:
    trees = inspection("2025-01-10", seen=(looked("broken_spoke", "driver-1 left", "not seen"),))
    assert counted(trees, "adjacent_broken_spokes") == (0, 0)


def flats(*lengths: str, **more: str) -> Trees:
    return inspection("2025-01-10", seen=tuple(looked("flat", "driver-1 left", length=x, **more) for x in lengths))


def test_of_several_flats_the_second_longest_is_the_shorter_of_two_adjoining() -> None:
    assert found(flats("1 in", "2 1/4 in", "2 in"), "shorter_of_adjoining_flats", LEFT) == exactly("2 in")
    assert found(flats("2 1/4 in"), "shorter_of_adjoining_flats", LEFT) == []


def test_a_flat_that_does_not_adjoin_another_is_judged_alone() -> None:
    assert found(flats("2 in", "2 in", adjoining="no"), "shorter_of_adjoining_flats", LEFT) == []


def test_a_flat_turned_away_is_no_flat_now() -> None:
    assert found(flats("2 in", "2 in") | turning("2025-02-01", "t-1-left"), "shorter_of_adjoining_flats", LEFT) == []


@pytest.mark.parametrize(
    ("shims", "told"),
    [
        ("none", (0, 0)), ("unknown", "which shims lie under the tire"),
        ([{"thickness": "0.010 in"}, {"thickness": "0.010 in"}], (2, 2)),
    ],
)  # fmt: skip
def test_shims_are_those_that_the_fitting_of_the_tire_tells(shims: object, told: object) -> None:
    trees = tire_work("found", "2020-01-02", "t-1-left", "d-1-left", shims=shims)
    assert counted(trees, "shim_thicknesses") == told
