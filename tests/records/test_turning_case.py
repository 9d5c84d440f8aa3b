"""Ways of turning a set: the least metal against every plan there is, exact limits, and which ways stand out."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.records.books import book_of, driver, engine, inspection, line, reading, tire, tire_work

from axlebook.records.book import Book
from axlebook.records.turning_case import Case, build_case, pareto
from axlebook.records.turning_plans import LEAST, Plan, Setup, make_plan
from axlebook.records.turning_wear import Life
from axlebook.records.turning_wheels import DIAMETER, Asked, Need, Read, Wheel

STEP = Fraction(254, 640000)  # a sixty-fourth of an inch
NAMES = ("driver-1 left", "driver-1 right", "driver-2 left", "driver-2 right")
SINGLE = ("single tire", "single pair")


def limits(across: int, within: int, near: int) -> dict[str, Any]:
    """A set of limits in sixty-fourths: across an axle always; the set, when all; one tire, one pair."""

    def limit(id: str, quantity: str, words: dict[str, str], **asked: str) -> dict[str, Any]:
        return {"id": id, "quantity": quantity, "stage": "condemning", "clause": id, "out_when": words,
                "applies_to": asked}  # fmt: skip

    bounds = {"over": f"{near}/64 in", "under": f"-{near}/64 in"}
    return {
        "kind": "limit-set",
        "source": {"title": "Ours (invented)", "edition": "1"},
        "decision": "as written",
        "limits": [
            limit("across", "diameter_difference_on_axle", {"over": f"{across}/64 in"}),
            limit("within", "diameter_difference_in_set", {"over": f"{within}/64 in"}, set_case="all"),
            limit("opposite", "diameter_less_opposite", bounds, set_case="single tire"),
            limit("average", "diameter_less_base_average", bounds, set_case="single pair"),
        ],
    }


def book_with(across: int = 6, within: int = 6, near: int = 6) -> Book:
    adopted = {"defaults": {"track_gauge": "4 ft 8 1/2 in", "limit_sets": [
        {"set": "ours", "adopted_on": "2019-01-01", "adopted_by": "lead"}]}}  # fmt: skip
    trees: dict[str, Any] = {
        "ledger.yaml": {"kind": "ledger", "railway": "Test railway (invented)"} | adopted,
        "limits/ours.yaml": limits(across, within, near),
    }
    trees |= engine(line("driver-1", "d-1"), line("driver-2", "d-2")) | driver("d-1") | driver("d-2")
    for id in ("1-left", "1-right", "2-left", "2-right"):
        trees |= tire(f"t-{id}", flange="plain") | tire_work("found", "2020-01-01", f"t-{id}", f"d-{id}")
    return book_of(trees | inspection("2026-02-01", *(reading("tread_diameter", name, "50 in") for name in NAMES)))


def setup_of(book: Book, sizes: list[int], cuts: list[Fraction]) -> Setup:
    """The four wheels with these diameters and depths, in sixty-fourths."""
    case = build_case(book, book.engines["e-1"], Asked())
    wheels = tuple(
        replace(w, read={DIAMETER: Read(size * STEP, "")}, needs=(Need("hollow", cut * STEP, ""),))
        for w, size, cut in zip(case.wheels, sizes, cuts, strict=True)
    )
    return replace(case.setup, wheels=wheels)


BOOKS = {(a, w, n): book_with(a, w, n) for a, w, n in ((1, 2, 1), (2, 3, 2), (6, 6, 3))}
SIZES = st.lists(st.integers(3200, 3206), min_size=4, max_size=4)
CUTS = st.lists(st.sampled_from([Fraction(0), Fraction(1, 2), Fraction(1), Fraction(2)]), min_size=4, max_size=4)


def within(sizes: tuple[Fraction, ...], turned: tuple[int, ...], across: int, inside: int, near: int) -> bool:
    """The limits read off their words once more."""
    if any(abs(sizes[i] - sizes[i + 1]) > across for i in (0, 2)):
        return False
    if len(turned) == 4:
        return max(sizes) - min(sizes) <= inside
    if len(turned) == 1:
        return abs(sizes[turned[0]] - sizes[turned[0] ^ 1]) <= near
    average = sum(sizes, Fraction(0)) / 4
    return all(abs(sizes[i] - average) <= near for i in turned)


def every(tops: list[Fraction], turned: tuple[int, ...], step: Fraction, reach: int) -> Iterator[tuple[Fraction, ...]]:
    choices = [[top - i * step for i in range(reach)] if n in turned else [top] for n, top in enumerate(tops)]
    yield from itertools.product(*choices)


@settings(max_examples=60, deadline=None)
@given(which=st.sampled_from(sorted(BOOKS)), sizes=SIZES, cuts=CUTS)
def test_turning_all_takes_no_more_metal_than_the_best_of_all_plans(
    which: tuple[int, int, int], sizes: list[int], cuts: list[Fraction]
) -> None:
    setup = setup_of(BOOKS[which], sizes, cuts)
    plan = make_plan(setup, "all", setup.wheels, NAMES, LEAST)
    tops = [Fraction(size) - 2 * cut for size, cut in zip(sizes, cuts, strict=True)]
    floor = min(tops)  # no wheel is ever lower than the worst
    best = max(
        (p for p in itertools.product(*([floor + i for i in range(int(t - floor) + 1)] for t in tops))
         if within(p, (0, 1, 2, 3), *which)), key=sum)  # fmt: skip
    assert plan.possible
    assert tuple(plan.diameters[name] / STEP for name in NAMES) == best


@settings(max_examples=60, deadline=None)
@given(which=st.sampled_from(sorted(BOOKS)), sizes=SIZES, cut=st.sampled_from([0, 1, 2]), turned=st.sampled_from(
    [(0, 1), (2, 3), (0,), (3,)]))  # fmt: skip
def test_no_plan_for_one_pair_or_tire_is_better_than_ours_and_ours_is_within(
    which: tuple[int, int, int], sizes: list[int], cut: int, turned: tuple[int, ...]
) -> None:
    cuts = [Fraction(cut if n in turned else 0) for n in range(4)]
    setup = setup_of(BOOKS[which], sizes, cuts)
    plan = make_plan(setup, "some", setup.wheels, [NAMES[n] for n in turned], LEAST)
    tops = [Fraction(size) - 2 * depth for size, depth in zip(sizes, cuts, strict=True)]
    met = [p for p in every(tops, turned, Fraction(1, 2), 30) if within(p, turned, *which)]
    assert plan.case == SINGLE[len(turned) - 1]
    if plan.possible:
        ours = tuple(plan.diameters[name] / STEP for name in NAMES)
        assert within(ours, turned, *which)
        assert sum(ours) >= max(map(sum, met), default=Fraction(0))
    else:
        assert not met


@pytest.mark.parametrize("odd", [Fraction(1, 3), Fraction(1, 7), Fraction(10**12 + 1, 10**12)])
def test_a_plan_that_lands_on_a_limit_is_on_it_to_the_last_digit(odd: Fraction) -> None:
    setup = setup_of(BOOKS[6, 6, 3], [3200, 3200, 3210, 3210], [odd, Fraction(0), Fraction(0), Fraction(0)])
    plan = make_plan(setup, "all", setup.wheels, NAMES, LEAST)
    assert plan.possible
    assert plan.spread == 6 * STEP
    assert plan.diameters["driver-1 left"] == (3200 - 2 * odd) * STEP


def test_once_some_but_not_all_or_one_pair_are_new_no_limit_speaks_of_the_set_and_that_is_said() -> None:
    setup = setup_of(BOOKS[6, 6, 3], [3200] * 4, [Fraction(0)] * 4)
    plan = make_plan(setup, "three", setup.wheels, NAMES[:3], LEAST)
    assert (plan.case, plan.match_unjudged) == ("several", True)


def test_what_was_turned_before_and_has_not_run_counts_with_what_is_turned_now() -> None:
    setup = replace(setup_of(BOOKS[6, 6, 3], [3200] * 4, [Fraction(0)] * 4), fresh=NAMES[:2])
    assert make_plan(setup, "the rest", setup.wheels, NAMES[2:], LEAST).case == "all"


def test_where_service_records_do_not_tell_whether_it_ran_the_case_is_not_known() -> None:
    setup = replace(setup_of(BOOKS[6, 6, 3], [3200] * 4, [Fraction(0)] * 4), unsure=NAMES[:2])
    plan = make_plan(setup, "one pair", setup.wheels, NAMES[2:], LEAST)
    assert (plan.case, plan.match_unjudged) == (None, True)


def plan_of(name: str, metal: int, spread: int, years: float | None) -> Plan:
    wheel = build_case(BOOKS[6, 6, 3], BOOKS[6, 6, 3].engines["e-1"], Asked()).wheels[0]
    sizes = {"a": Fraction(100), "b": Fraction(100 - spread)}
    wheels: tuple[Wheel, ...] = (wheel,)
    return Plan(name, wheels, (), diameters=sizes, life=Life(years), scrapped=Fraction(metal))


def test_a_way_that_another_betters_in_everything_does_not_stand_out() -> None:
    ways = [plan_of("a", 4, 0, 5.0), plan_of("b", 5, 0, 5.0), plan_of("c", 1, 3, 2.0), plan_of("d", 4, 0, 5.0)]
    assert [way.name for way in pareto(ways)] == ["a", "c", "d"]


def test_an_engine_without_drivers_has_no_ways() -> None:
    book = book_of(engine())
    case: Case = build_case(book, book.engines["e-1"], Asked())
    assert (case.wheels, case.plans) == ((), ())
