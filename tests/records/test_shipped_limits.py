"""The shipped limit sets against the published figures: each row is judged at its figure and just to either side."""

import pytest
from tests.records.published_rows import (
    SETS,
    TABLES,
    Row,
    answering,
    facts_of,
    holds,
    judged_by,
    rows_of,
    shipped,
)

from axlebook.findings import Verdict
from axlebook.limits import Practice
from axlebook.quantities import parse_quantity

CASES = [
    (name, unit, index, row)
    for name, unit in TABLES.items()
    for index, row in enumerate(rows_of(name), start=2)
]


@pytest.mark.parametrize(
    ("name", "unit", "row"),
    [(name, unit, row) for name, unit, _, row in CASES],
    ids=[f"{name}:{index}" for name, _, index, _ in CASES],
)
def test_every_published_row_turns_over_exactly_at_its_figure(name: str, unit: str, row: Row) -> None:
    assert list(answering(name, row, unit))


@pytest.mark.parametrize("name", TABLES)
def test_no_limit_is_shipped_that_no_published_row_asks_for(name: str) -> None:
    asked = {
        limit.id
        for set_name, unit, _, row in CASES
        if set_name == name
        for limit in answering(name, row, unit)
    }
    asked |= {f"{found}-as-measured" for found in asked if "/over-flanges-" in found}
    if name == "us-49-cfr-230":
        asked |= {f"{name}/{id}" for id in ("tire-thin", "tire-thin-with-rings")}
    if name in ("de-ebo-anlage-6", "at-eisbbbv-anlage-2"):
        asked.add(
            f"{name}/tire-thin-coach-inland"
        )  # the other half of `except coaches in cross-border traffic`
    assert {limit.id for limit in shipped(name).limits} == asked


@pytest.mark.parametrize("id", ["tire-thin", "tire-thin-with-rings"])
def test_every_row_of_the_tire_thickness_table_holds_at_both_its_corners(id: str) -> None:
    limit = next(found for found in shipped("us-49-cfr-230").limits if found.id == f"us-49-cfr-230/{id}")
    table = limit.table
    assert table is not None
    rows = rows_of("us-49-cfr-230-112-d")
    assert len(rows) == len(table.rows) == 49
    for row in rows:
        load = row["axle_load_up_to_lb"], row["axle_load_over_lb"]
        diameter = row["center_diameter_up_to_in"], row["center_diameter_over_in"]
        heaviest, largest = load[0] or "90000", diameter[0] or "80"
        lightest = str(int(load[1] or 9999) + 1)
        smallest = f"{diameter[1] or 20}.001"
        least = parse_quantity(f"{row['minimum_thickness_in']} in").exact
        for pounds, inches in ((heaviest, largest), (lightest, smallest)):
            keys = parse_quantity(f"{pounds} lb").exact, parse_quantity(f"{inches} in").exact
            found = table.look_up(keys)
            assert found is not None
            assert found[0] == least, row


@pytest.mark.parametrize(
    "row", rows_of("us-check-cases"), ids=lambda row: f"{row['quantity']} {row['value']}"
)
def test_the_check_cases_of_part_230_come_out_as_worked_by_hand(row: Row) -> None:
    facts = facts_of(row["facts"])
    value = parse_quantity(row["value"]).exact
    asked = [limit for limit in shipped("us-49-cfr-230").limits if row["quantity"] in (*limit.quantities,)]
    covering = [limit for limit in asked if holds(limit, facts)]
    assert asked
    verdicts = {judged_by(limit, [value], facts) for limit in covering}
    if row["verdict"] == "no limit":
        assert not covering
    elif row["verdict"] == "outside":
        assert Verdict.OUTSIDE in verdicts
    else:
        assert verdicts == {Verdict(row["verdict"])}


@pytest.mark.parametrize("row", rows_of("us-49-cfr-213-track"), ids=lambda row: f"class {row['track_class']}")
def test_class_figures_of_frogs_are_notes_and_turn_over_at_their_figure(row: Row) -> None:
    facts = {"track_class": row["track_class"]}
    limits = [limit for limit in shipped("us-49-cfr-213-track").limits if holds(limit, facts)]
    found = {limit.quantities[0]: limit for limit in limits}
    assert len(limits) == 2
    assert {limit.stage for limit in limits} == {"note"}
    thou = parse_quantity("0.001 in").exact
    check = parse_quantity(row["guard_check_gage_at_least"]).exact
    face = parse_quantity(row["guard_face_gage_at_most"]).exact
    assert judged_by(found["wheel_check"], [check], facts) is Verdict.WITHIN
    assert judged_by(found["wheel_check"], [check + thou], facts) is Verdict.OUTSIDE
    assert judged_by(found["back_to_back"], [face], facts) is Verdict.WITHIN
    assert judged_by(found["back_to_back"], [face - thou], facts) is Verdict.OUTSIDE


def test_every_interval_of_part_230_is_as_published() -> None:
    def words(counted: tuple[int, str] | None) -> str:
        return f"{counted[0]} {counted[1]}" if counted else ""

    shipped_rows = [
        {
            "clause": interval.clause,
            "of": interval.of,
            "every": words(interval.every),
            "or": words(interval.alternative),
            "with_each": interval.with_each,
            "nth": str(interval.nth),
            "also_answers": " ".join(interval.satisfies),
            "report_within": words(interval.report_within),
            "notice": words(interval.notice),
            "each_year_by": interval.each_year_by,
        }
        for interval in shipped("us-49-cfr-230").intervals
    ]
    assert shipped_rows == rows_of("us-49-cfr-230-intervals")


def test_the_fifteen_years_start_at_service_or_a_year_after_the_first_flue_tube() -> None:
    interval = next(found for found in shipped("us-49-cfr-230").intervals if found.id == "service-days-1472")
    assert interval.starts == ("placed_in_service", "first_flue_tube_plus")
    assert interval.start_delay == (365, "day")


def practice_of(row: Row) -> Practice:
    return next(
        found for found in shipped(row["set"]).practices if found.id == f"{row['set']}/{row['practice']}"
    )


@pytest.mark.parametrize("row", rows_of("practices"), ids=lambda row: f"{row['set']} {row['size']}")
def test_practices_give_the_printed_figures_and_nothing_outside_them(row: Row) -> None:
    nominal = practice_of(row).nominal(parse_quantity(row["size"]).exact)
    wanted = None if row["figure"] == "nothing" else parse_quantity(row["figure"]).exact
    assert nominal == wanted


def test_pressing_force_spans_ten_to_twelve_tons_an_inch() -> None:
    practice = practice_of({"set": "ahrons-hub-fit", "practice": "pressing-force"})
    assert practice.value is not None
    assert practice.minus is not None
    assert practice.plus is not None
    assert practice.value - practice.minus == parse_quantity("10 long tonf").exact
    assert practice.value + practice.plus == parse_quantity("12 long tonf").exact


def test_only_the_set_of_1904_is_historic() -> None:
    assert [path.stem for path in SETS if shipped(path.stem).historic] == ["de-bo-1904-historic"]


def test_a_wheel_of_exactly_760_mm_is_small_in_germany_and_large_in_austria() -> None:
    facts = {"wheel_diameter": "760 mm"}
    value = [parse_quantity("30 mm").exact]
    german, austrian = (
        [
            found
            for found in shipped(name).limits
            if found.quantities == ("flange_height",) and holds(found, facts)
        ]
        for name in ("de-ebo-anlage-6", "at-eisbbbv-anlage-2")
    )
    assert Verdict.OUTSIDE in {judged_by(limit, value, facts) for limit in german}
    assert {judged_by(limit, value, facts) for limit in austrian} == {Verdict.WITHIN}
