"""Limits: each word at, inside and outside its figure; intervals; tables; facets; joint conditions; waivers."""

from datetime import date
from fractions import Fraction

import pytest

from axlebook.findings import Place, Severity, Verdict
from axlebook.limits import (
    NOT_SEEN,
    SEEN,
    Adoption,
    Between,
    Bound,
    Condition,
    FacetTest,
    FacetValue,
    Limit,
    LimitSet,
    Span,
    Table,
    applies,
    judge,
    point,
    sets_in_force,
)
from axlebook.records.limit_set import build_tests

FIVE = Fraction(5)
PLACE = Place("limits/own.yaml", "/limits/0")


def nothing(facet: str) -> FacetValue | None:
    """No facet is known."""
    return None


def limit(*conditions: Condition, table: Table | None = None, stage: str = "condemning") -> Limit:
    return Limit("own/x", "own", conditions, stage, "page 1", "as written", "Own book", PLACE, table=table)


def bounded(word: str, value: Fraction | None = FIVE) -> Limit:
    return limit(Condition("tire_width", (Bound(word, value, "5 in"),)))


def verdict(of: Limit, span: Span, facets: dict[str, str | Fraction] | None = None) -> Verdict:
    return judge(of, {"tire_width": span}, (facets or {}).get).verdict


@pytest.mark.parametrize(
    ("word", "under_it", "over_it"),
    [
        ("under", "outside", "within"),
        ("at_most", "outside", "within"),
        ("over", "within", "outside"),
        ("at_least", "within", "outside"),
    ],
)
def test_under_and_over_leave_their_own_figure_out(word: str, under_it: str, over_it: str) -> None:
    assert verdict(bounded(word), Span(None, FIVE, left_out=True)) == under_it
    assert verdict(bounded(word), Span(FIVE, None, left_out=True)) == over_it
    assert verdict(bounded(word), Span(FIVE - 1, FIVE)) == {"under": "undecided", "at_most": "outside"}.get(
        word, "within" if word == "over" else "undecided"
    )


@pytest.mark.parametrize(
    ("word", "below", "at", "above"),
    [
        ("under", "outside", "within", "within"),
        ("at_most", "outside", "outside", "within"),
        ("over", "within", "within", "outside"),
        ("at_least", "within", "outside", "outside"),
    ],
)
def test_a_word_decides_below_on_and_above_its_figure(word: str, below: str, at: str, above: str) -> None:
    hair = Fraction(1, 10**9)
    got = [verdict(bounded(word), point(FIVE + step)) for step in (-hair, Fraction(0), hair)]
    assert got == [below, at, above]


@pytest.mark.parametrize(
    ("word", "low", "high", "told"),
    [
        ("under", 4, 5, "undecided"),
        ("under", 5, 6, "within"),
        ("under", None, 4, "outside"),
        ("under", None, 5, "undecided"),
        ("under", 5, None, "within"),
        ("under", 4, None, "undecided"),
        ("at_most", 4, 5, "outside"),
        ("at_most", 5, 6, "undecided"),
        ("at_most", 6, None, "within"),
        ("at_most", None, 5, "outside"),
        ("over", 5, 6, "undecided"),
        ("over", 4, 5, "within"),
        ("over", 6, None, "outside"),
        ("over", 5, None, "undecided"),
        ("over", None, 5, "within"),
        ("at_least", 5, 6, "outside"),
        ("at_least", 4, 5, "undecided"),
        ("at_least", None, 4, "within"),
        ("at_least", 5, None, "outside"),
        ("at_least", None, None, "undecided"),
    ],
)
def test_an_interval_is_judged_only_when_all_of_it_lies_on_one_side(
    word: str, low: int | None, high: int | None, told: str
) -> None:
    span = Span(None if low is None else Fraction(low), None if high is None else Fraction(high))
    assert verdict(bounded(word), span) == told


def test_a_span_is_widened_on_both_sides_and_stays_open() -> None:
    assert Span(FIVE, None).widened(Fraction(1)) == Span(Fraction(4), None)


def test_the_margin_is_positive_inside_and_negative_outside() -> None:
    margins = [judge(bounded(word), {"tire_width": point(Fraction(6))}, nothing).margin for word in ("under", "over")]
    assert margins == [1, -1]


def test_two_bounds_of_one_condition_are_outside_when_either_holds() -> None:
    both = limit(Condition("tire_width", (Bound("under", FIVE, "5 in"), Bound("over", Fraction(7), "7 in"))))
    assert [verdict(both, point(Fraction(n))) for n in (4, 5, 6, 7, 8)] == [
        "outside", "within", "within", "within", "outside",
    ]  # fmt: skip


@pytest.mark.parametrize(("value", "word", "margin"), [("5.5", "under", "0.5"), ("6.5", "over", "0.5")])
def test_of_two_bounds_the_nearer_one_is_told(value: str, word: str, margin: str) -> None:
    both = limit(Condition("tire_width", (Bound("under", FIVE, "5 in"), Bound("over", Fraction(7), "7 in"))))
    judgement = judge(both, {"tire_width": point(Fraction(value))}, nothing)
    assert judgement.bound is not None
    assert (judgement.bound.word, judgement.margin) == (word, Fraction(margin))


@pytest.mark.parametrize(
    ("docket", "last_day", "silenced"),
    [("D-1", date(2027, 1, 1), ("own/y",)), ("D-1", None, ()), ("", date(2027, 1, 1), ()), ("", None, ())],
)
def test_a_waiver_silences_what_it_names_only_with_its_docket_and_its_last_day(
    docket: str, last_day: date | None, silenced: tuple[str, ...]
) -> None:
    waiver = bounded("under")._replace(docket=docket, expires_on=last_day, replaces=("own/y",))
    assert waiver.stands_in_for == silenced


NEXT_ROW = Table(
    ("axle_load", "center_diameter", "thickness"),
    Between.NEXT_ROW,
    tuple(
        (None if load is None else Fraction(load), None if center is None else Fraction(center), Fraction(thick))
        for load, center, thick in ((10, 44, 1), (10, None, 2), (20, 44, 3), (None, None, 4))
    ),
    ("1", "2", "3", "4"),
)


@pytest.mark.parametrize(
    ("load", "center", "figure"), [(10, 44, 1), (9, 43, 1), (10, 45, 2), (11, 44, 3), (11, 45, 4), (99, 99, 4)]
)
def test_a_table_takes_the_next_row_and_a_row_serves_up_to_its_figure(load: int, center: int, figure: int) -> None:
    found = NEXT_ROW.look_up((Fraction(load), Fraction(center)))
    assert found == (Fraction(figure), str(figure))


LINE_ROWS = ((Fraction(10), Fraction(1)), (Fraction(20), Fraction(3)))
LINE = Table(("axle_load", "thickness"), Between.STRAIGHT_LINE, LINE_ROWS, ("1", "3"))


@pytest.mark.parametrize(("load", "figure"), [(10, 1), (15, 2), (20, 3)])
def test_a_straight_line_is_read_between_its_rows(load: int, figure: int) -> None:
    assert (LINE.look_up((Fraction(load),)) or ("none",))[0] == figure


@pytest.mark.parametrize("load", [9, 21])
def test_a_straight_line_is_never_drawn_on_beyond_its_rows(load: int) -> None:
    assert LINE.look_up((Fraction(load),)) is None


def test_a_figure_from_a_table_judges_and_a_facet_not_known_is_named() -> None:
    by_table = limit(Condition("tire_width", (Bound("under", None, "table"),)), table=NEXT_ROW)
    known: dict[str, str | Fraction] = {"axle_load": Fraction(15), "center_diameter": Fraction(40)}
    assert [verdict(by_table, point(Fraction(n)), known) for n in (2, 3)] == ["outside", "within"]
    judgement = judge(by_table, {"tire_width": point(FIVE)}, {"axle_load": Fraction(1)}.get)
    assert (judgement.verdict, judgement.missing) == (Verdict.NOT_ASSESSED, "center_diameter")


def test_a_table_without_a_row_for_it_is_not_assessed() -> None:
    by_table = limit(Condition("tire_width", (Bound("under", None, "table"),)), table=LINE)
    judgement = judge(by_table, {"tire_width": point(FIVE)}, {"axle_load": Fraction(21)}.get)
    assert (judgement.verdict, judgement.missing) == (Verdict.NOT_ASSESSED, "a row of the table")


CHIP = limit(
    Condition("chip_length", (Bound("over", Fraction(3), "3 in"),)),
    Condition("chip_width", (Bound("over", Fraction(1), "1 in"),)),
)


@pytest.mark.parametrize(
    ("length", "width", "told"),
    [
        (4, 2, "outside"), (3, 2, "within"), (4, 1, "within"), (4, None, "not assessed"), (3, None, "within"),
        (None, 1, "within"), (None, None, "not assessed"),
    ],
)  # fmt: skip
def test_joint_conditions_are_outside_only_together(length: int | None, width: int | None, told: str) -> None:
    given = {"chip_length": length, "chip_width": width}
    spans = {name: point(Fraction(value)) for name, value in given.items() if value is not None}
    assert judge(CHIP, spans, nothing).verdict == told


def test_what_is_seen_is_outside_and_what_is_not_seen_is_within() -> None:
    crack = limit(Condition("crack", seen="crack"))
    assert judge(crack, {"crack": SEEN}, nothing).verdict is Verdict.OUTSIDE
    assert judge(crack, {"crack": NOT_SEEN}, nothing).verdict is Verdict.WITHIN
    assert judge(crack, {}, nothing).verdict is Verdict.NOT_ASSESSED


TESTS = (
    FacetTest("role", ("driver", "tender")),
    FacetTest("track_gauge", bounds=(Bound("at_least", Fraction(24), "24 in"), Bound("under", Fraction(56), "56 in"))),
)


@pytest.mark.parametrize(
    ("facets", "answer", "named"),
    [
        ({"role": "driver", "track_gauge": Fraction(24)}, True, ""),
        ({"role": "tender", "track_gauge": Fraction(55)}, True, ""),
        ({"role": "driver", "track_gauge": Fraction(56)}, False, "track_gauge"),
        ({"role": "engine-truck", "track_gauge": Fraction(30)}, False, "role"),
        ({"role": "driver"}, None, "track_gauge"),
        ({"track_gauge": Fraction(23)}, False, "track_gauge"),
        ({}, None, "role"),
    ],
)
def test_all_facets_must_hold_a_list_means_any_and_a_no_outweighs_what_is_not_known(
    facets: dict[str, str | Fraction], answer: bool | None, named: str
) -> None:
    found = applies(TESTS, facets.get)
    assert (found.answer, found.facet) == (answer, named)


@pytest.mark.parametrize(("gauge", "answer"), [("600", True), ("600.001", False), ("1435", False), ("762", True)])
def test_a_facet_asked_for_by_its_figure_is_that_figure_and_no_other(gauge: str, answer: bool) -> None:
    tests = build_tests({"track_gauge": ["600 mm", "30 in"]})
    assert applies(tests, {"track_gauge": Fraction(gauge) / 1000}.get).answer is answer
    assert applies(build_tests({"track_gauge": "narrow"}), {"track_gauge": Fraction(gauge)}.get).answer is False


@pytest.mark.parametrize(
    ("stage", "severity"),
    [("condemning", "condemning"), ("shop", "shop"), ("new", "shop"), ("practice", "shop"), ("note", "note")],
)
def test_a_stage_tells_how_heavy_an_outside_is(stage: str, severity: str) -> None:
    assert limit(CHIP.conditions[0], stage=stage).severity == Severity(severity)


@pytest.mark.parametrize(
    ("on", "ids"),
    [("2013-12-31", []), ("2014-01-01", ["us"]), ("2020-06-30", ["us"]), ("2020-07-01", [])],
)
def test_a_set_is_in_force_from_its_first_day_to_its_last_and_a_historic_one_never(on: str, ids: list[str]) -> None:
    start, until = date(2014, 1, 1), date(2020, 6, 30)
    sets = {
        "us": LimitSet("us", "", "", "", "as written", PLACE),
        "old": LimitSet("old", "", "", "", "as written", PLACE, historic=True),
    }
    adopted = [Adoption(name, start, until) for name in ("us", "old", "lost")]
    assert [found.id for found in sets_in_force(adopted, sets, date.fromisoformat(on))] == ids
