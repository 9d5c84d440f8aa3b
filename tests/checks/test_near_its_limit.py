"""What could reach a limit within its lead time: twice the fastest mean wear between two works, held by hand."""

from datetime import date, timedelta
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from axlebook.checks._forecast import _date, lead_days, mended_by
from axlebook.checks._lead_time import _near, _outermost, mended, ordered_too_late
from axlebook.records.condition import Stand
from axlebook.records.wear import FALLS as FALLING
from axlebook.trends.series import Dated, Series

START = date(2025, 1, 1)
DAYS_150 = START + timedelta(150)


def series(*points: tuple[int, str, int]) -> Series:
    """Values by day and epoch."""
    found = (Dated(START + timedelta(d), Fraction(value), None, (), epoch, None, "") for d, value, epoch in points)
    return Series("t-1", "tire_thickness", "worst", tuple(found))


def near(of: Series, edge: float, lead: int = 50, as_of: date = DAYS_150, *, falling: bool = True) -> bool:
    return _near(of, edge, as_of, lead, falling)


FALLS = series((0, "10", 0), (100, "9", 0))  # 0.01 a day; in 50 days and a lead of 50, twice over, 2 more


@pytest.mark.parametrize(("edge", "told"), [(7.0, True), (6.99, False), (9.0, True), (9.5, True)])
def test_what_falls_is_near_an_edge_it_reaches_at_twice_its_fastest_wear(edge: float, told: bool) -> None:
    assert near(FALLS, edge) is told


@pytest.mark.parametrize(("edge", "told"), [(13.0, True), (13.01, False), (11.0, True), (10.5, True)])
def test_what_rises_is_near_an_edge_above_it(edge: float, told: bool) -> None:
    assert near(series((0, "10", 0), (100, "11", 0)), edge, falling=False) is told


def test_the_days_since_the_last_reading_count_as_well_as_the_lead_time() -> None:
    assert not near(FALLS, 7.0, lead=49)
    assert not near(FALLS, 7.0, as_of=START + timedelta(149))
    assert near(FALLS, 8.0, lead=0)
    assert not near(FALLS, 7.99, lead=0)


@pytest.mark.parametrize(
    "points",
    [
        ((0, "10", 0), (50, "9.5", 0), (60, "20", 1), (100, "19.96", 1)),  # the first epoch is the fastest
        ((0, "10", 0), (50, "9.96", 0), (60, "20", 1), (100, "19.6", 1)),  # the last
        ((0, "30", 0), (1, "29.999", 0), (40, "10", 1), (50, "9.9", 1), (60, "20", 2), (100, "19.96", 2)),  # the middle
    ],
)
def test_the_fastest_epoch_counts_and_the_step_between_two_does_not(points: tuple[tuple[int, str, int], ...]) -> None:
    last = float(Fraction(points[-1][1]))
    assert near(series(*points), last - 2.0 + 1e-6)
    assert not near(series(*points), last - 2.0 - 1e-6)


def test_two_readings_of_one_day_are_taken_a_day_apart() -> None:
    assert near(series((0, "10", 0), (0, "9", 0)), 9.0 - 2.0 * 200.0)
    assert not near(series((0, "10", 0), (0, "9", 0)), 9.0 - 2.0 * 200.0 - 0.01)


@pytest.mark.parametrize(
    ("quantity", "what"),
    [("flange_height", "lathe"), ("tread_hollow", "lathe"), ("tire_thickness", "tires"), ("back_to_back", "")],
)
def test_a_flange_is_mended_on_the_lathe_and_a_thin_tire_by_a_new_one(quantity: str, what: str) -> None:
    assert mended(quantity) == what


@pytest.mark.parametrize(
    ("time", "down", "day"),
    [
        (None, True, None), (3.7, True, 3), (3.7, False, 4), (3.0, True, 3), (3.0, False, 3), (0.4, True, 1),
        (-5.0, False, 1), (3652058.5, True, 3652058), (3652059.0, True, 3652059), (9e9, False, 3652059),
    ],
)  # fmt: skip
def test_a_day_is_rounded_to_the_careful_side_and_never_leaves_the_calendar(
    time: float | None, down: bool, day: int | None
) -> None:
    assert _date(time, down=down) == (None if day is None else date.fromordinal(day))


@pytest.mark.parametrize(("told", "days"), [("90 day", 90), ("36 h", 2), ("1 day", 1), (None, None)])
def test_a_lead_time_is_in_whole_days_never_too_few(told: str | None, days: int | None) -> None:
    book: Any = SimpleNamespace(ledger=SimpleNamespace(tree={"lead_times": {"lathe": told} if told else {}}))
    assert lead_days(book, "lathe") == days


def reach(day: date | None, *, out: bool = False) -> Any:
    return SimpleNamespace(middle=day, out=out)


def made(*reaches: Any, certain: bool = True, line: bool = True, lead: int | None = 90) -> Any:
    """A flange's forecast as of the first of January 2025."""
    order = None if lead is None else SimpleNamespace(by=START, lead=lead)
    return SimpleNamespace(
        line=SimpleNamespace(certain=certain) if line else None,
        site=None,
        word=SimpleNamespace(name="flange_thickness"),
        order=order,
        reaches=reaches,
        position=SimpleNamespace(as_of=START),
    )


def test_what_reaches_its_limit_within_the_lead_time_is_ordered_too_late_to_the_day() -> None:
    on, after = reach(START + timedelta(90)), reach(START + timedelta(91))
    found = ordered_too_late(made(after, on))
    assert found is not None
    assert (found.what, found.by, found.lead, found.reach) == ("lathe", START, 90, on)
    assert ordered_too_late(made(after)) is None


@pytest.mark.parametrize(
    "forecast",
    [
        made(reach(START), lead=None),
        made(reach(START), line=False),
        made(reach(START), certain=False),
        made(reach(START), reach(START, out=True)),  # told by the check of that limit
        made(reach(None)),
        made(reach(date.max)),
        made(),
    ],
)
def test_nothing_is_ordered_too_late_where_wear_is_not_certain_or_no_limit_is_met(forecast: Any) -> None:
    assert ordered_too_late(forecast) is None


def test_of_several_limits_those_never_met_are_left_out() -> None:
    soon = reach(START + timedelta(10))
    found = ordered_too_late(made(reach(None), reach(date.max), soon, reach(START + timedelta(20))))
    assert found is not None
    assert found.reach is soon


def target(word: str, value: int | None, stage: str = "shop", many: int = 1, rows: tuple[int, ...] = ()) -> Any:
    bound = SimpleNamespace(word=word, value=None if value is None else Fraction(value))
    table = SimpleNamespace(rows=[(Fraction(1), Fraction(row)) for row in rows] + [(None, None)]) if rows else None
    return SimpleNamespace(stage=stage, conditions=[SimpleNamespace(bounds=[bound])] * many, table=table)


def outermost(wear: str, *limits: Any) -> float | None:
    book: Any = SimpleNamespace(limits_on=lambda engine, name: list(limits))
    stand: Any = SimpleNamespace(engine=None)
    word: Any = SimpleNamespace(name="it", wear=wear)
    return _outermost(book, stand, word)


def test_the_figure_that_wear_meets_first_is_the_highest_for_what_falls_and_the_lowest_for_what_rises() -> None:
    low, high = target("under", 5), target("at_most", 7)
    assert outermost(FALLING, low, high, target("over", 9)) == 7.0
    assert outermost("rises", target("over", 9), target("at_least", 8), low) == 8.0
    assert outermost(FALLING, low, target("under", 9, "new"), target("under", 8, many=2)) == 5.0
    assert outermost(FALLING, target("under", None, rows=(3, 6))) == 6.0
    assert outermost(FALLING) is None


def test_new_tires_mend_what_is_thin_where_a_tire_is_and_the_lathe_what_is_worn() -> None:
    nothing: Any = None
    tire: Any = SimpleNamespace(id="t-1")
    wheel = Stand(nothing, nothing, nothing)._replace(tire=tire)
    assert mended_by(wheel, "tire_thickness") == "tires"
    assert mended_by(wheel._replace(tire=None), "tire_thickness") == ""
    assert mended_by(wheel, "back_to_back") == ""
    assert mended_by(wheel, "flange_height") == "lathe"
