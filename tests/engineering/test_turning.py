"""Turning: cuts by hand, and plans against trying every one."""

from __future__ import annotations

import itertools
import math
import random

import pytest

from axlebook.engineering import turning
from axlebook.engineering.turning import MatchLimits, WheelToTurn


def test_an_eighth_of_flange_at_70_degrees_costs_eleven_sixteenths_on_diameter() -> None:
    assert 2 * turning.flange_cut(0.125, math.radians(70)) == pytest.approx(0.687, abs=0.0005)


def test_the_deepest_need_rules_and_the_clean_up_comes_once() -> None:
    assert turning.least_cut(0.10, 0.20, 0.05, 0.02) == pytest.approx(0.22)
    assert turning.least_cut(0.10, 0.20, 0.30, 0.02) == pytest.approx(0.32)


def test_a_template_s_own_cut_wins_over_the_formula_but_not_over_a_flat() -> None:
    assert turning.least_cut(0.30, 0.05, 0.0, 0.0, template=0.18) == pytest.approx(0.18)
    assert turning.least_cut(0.30, 0.05, 0.25, 0.0, template=0.18) == pytest.approx(0.25)


def test_the_common_diameter_is_the_worst_wheel_s() -> None:
    assert turning.common_diameter([64.0, 63.9, 64.1], [0.25, 0.125, 0.5]) == pytest.approx(63.1)


def test_a_cut_counts_once_on_thickness_and_twice_on_diameter() -> None:
    assert turning.thickness_left(2.75, 0.25) == 2.5
    assert turning.common_diameter([63.0], [0.25]) == 62.5


def test_turnings_left_may_reach_the_least_thickness_exactly() -> None:
    assert turning.turnings_left(2.5, 1.5, 0.1) == 10
    assert turning.turnings_left(2.5, 1.5, 0.1001) == 9
    assert turning.turnings_left(1.5, 1.5, 0.1) == 0


def wheels_of(*rows: tuple[str, float, float, bool]) -> dict[str, WheelToTurn]:
    return {f"W{i}": WheelToTurn(*row) for i, row in enumerate(rows)}


def is_met(wheels: dict[str, WheelToTurn], new: dict[str, float], limits: MatchLimits) -> bool:
    """The limits, read off their words once more."""
    turned = [name for name, wheel in wheels.items() if wheel.turned]
    for one, other in itertools.combinations(wheels, 2):
        apart = abs(new[one] - new[other])
        if limits.within_set is not None and apart > limits.within_set:
            return False
        if wheels[one].axle == wheels[other].axle:
            if limits.across_axle is not None and apart > limits.across_axle:
                return False
            alone = len(turned) == 1 and limits.single_tire_to_opposite is not None
            if alone and turned[0] in (one, other) and apart > (limits.single_tire_to_opposite or 0.0):
                return False
    pair = len(turned) == 2 and wheels[turned[0]].axle == wheels[turned[1]].axle
    if pair and limits.single_pair_to_average is not None and len(wheels) > 2:
        counted = [new[name] for name in wheels if limits.pair_counts_in_average or name not in turned]
        average = sum(counted) / len(counted)
        return all(abs(new[name] - average) <= limits.single_pair_to_average + 1e-9 for name in turned)
    return True


def best_by_trying(
    wheels: dict[str, WheelToTurn], limits: MatchLimits, reach: int
) -> tuple[dict[str, float], float] | None:
    """Every plan in whole steps, down to `reach` steps below what must come off."""
    choices = []
    for wheel in wheels.values():
        top = wheel.diameter - 2 * wheel.cut
        choices.append([top - i for i in range(reach + 1)] if wheel.turned else [top])
    plans = (dict(zip(wheels, plan, strict=True)) for plan in itertools.product(*choices))
    met = [plan for plan in plans if is_met(wheels, plan, limits)]
    if not met:
        return None
    best = max(met, key=lambda plan: sum(plan.values()))
    return best, sum(best.values())


def test_the_least_metal_plan_is_the_best_of_all_plans_for_a_whole_set() -> None:
    dice = random.Random(3)
    for _ in range(25):
        wheels = wheels_of(
            *((str(axle), float(dice.randint(40, 44)), dice.choice([0.0, 0.5, 1.0]), True)
              for axle in (1, 2) for _ in range(2))
        )
        limits = MatchLimits(
            across_axle=dice.choice([None, 0.0, 1.0, 2.0]), within_set=dice.choice([None, 1.0, 2.0, 3.0])
        )
        ours = turning.least_metal_diameters(wheels, limits)
        tried = best_by_trying(wheels, limits, 6)
        assert ours is not None
        assert tried is not None
        assert is_met(wheels, ours, limits)
        assert ours == tried[0]


def test_wheels_that_stay_on_the_road_are_matched_or_there_is_no_plan() -> None:
    dice, none = random.Random(6), 0
    for _ in range(60):
        wheels = wheels_of(
            ("1", float(dice.randint(38, 44)), dice.choice([0.0, 1.0]), True),
            ("1", float(dice.randint(40, 44)), 0.0, dice.random() < 0.5),
            ("2", float(dice.randint(40, 44)), 0.0, False),
            ("2", float(dice.randint(40, 44)), 0.0, False),
        )
        limits = MatchLimits(
            across_axle=dice.choice([None, 1.0, 4.0]),
            within_set=dice.choice([None, 3.0, 5.0]),
            single_tire_to_opposite=dice.choice([None, 1.0]),
        )
        ours, tried = turning.least_metal_diameters(wheels, limits), best_by_trying(wheels, limits, 12)
        none += ours is None
        assert ours == (tried[0] if tried else None)
    assert 0 < none < 60


@pytest.mark.parametrize("counts", [True, False])
def test_a_single_pair_is_brought_to_the_average_with_the_least_metal(counts: bool) -> None:
    dice, none = random.Random(9), 0
    for _ in range(40):
        wheels = wheels_of(
            ("1", float(dice.randint(36, 52)), 0.0, True),
            ("1", float(dice.randint(36, 52)), 0.0, True),
            *(("2", 42.0, 0.0, False), ("2", 43.0, 0.0, False)),
            *(("3", 41.0, 0.0, False), ("3", 42.0, 0.0, False)),
        )
        limits = MatchLimits(
            across_axle=dice.choice([None, 2.0]),
            single_pair_to_average=dice.choice([1.0, 3.0]),
            pair_counts_in_average=counts,
        )
        ours, tried = turning.least_metal_diameters(wheels, limits), best_by_trying(wheels, limits, 16)
        none += ours is None
        if ours is None:
            assert tried is None
            continue
        assert is_met(wheels, ours, limits)
        if tried is not None:
            # The average may fall between two steps, so the plan may be better than any in whole steps.
            assert sum(ours.values()) >= tried[1] - 1e-9
            assert sum(ours.values()) < tried[1] + 2.0
    assert none < 40


def test_a_plan_by_hand_for_four_wheels() -> None:
    # R1 comes down to 63.000; its mate may stand 0.094 above, the other axle 0.094 above the lowest as well.
    wheels = {
        "L1": WheelToTurn("1", 63.5, 0.0),
        "R1": WheelToTurn("1", 63.5, 0.25),
        "L2": WheelToTurn("2", 63.05, 0.0),
        "R2": WheelToTurn("2", 63.2, 0.0),
    }
    plan = turning.least_metal_diameters(wheels, MatchLimits(across_axle=0.09375, within_set=0.09375))
    assert plan == pytest.approx({"L1": 63.09375, "R1": 63.0, "L2": 63.05, "R2": 63.09375})
    assert plan is not None
    assert turning.metal_taken(wheels, plan)["L1"] == pytest.approx(0.203125)


def test_without_limits_each_wheel_loses_its_own_cut_only() -> None:
    wheels = wheels_of(("1", 64.0, 0.25, True), ("1", 62.0, 0.0, True))
    assert turning.least_metal_diameters(wheels, MatchLimits()) == {"W0": 63.5, "W1": 62.0}


@pytest.mark.parametrize("bad", [math.nan, -1.0])
def test_an_impossible_wheel_or_limit_names_itself(bad: float) -> None:
    with pytest.raises(ValueError, match="cut"):
        WheelToTurn("1", 64.0, bad)
    with pytest.raises(ValueError, match="within_set"):
        MatchLimits(within_set=bad)
    with pytest.raises(ValueError, match="flange_angle"):
        turning.flange_cut(0.1, bad)
    with pytest.raises(ValueError, match="two wheels"):
        turning.least_metal_diameters(wheels_of(*(("1", 64.0, 0.0, True),) * 3), MatchLimits())


@pytest.mark.parametrize("angle", [math.pi / 2.0, 1.6, 3.0])
def test_a_flange_that_stands_upright_or_leans_over_has_no_cut(angle: float) -> None:
    with pytest.raises(ValueError, match="a right angle"):
        turning.flange_cut(0.1, angle)


@pytest.mark.parametrize(("diameter", "planned"), [(41.0, True), (40.0, True), (39.9, False)])
def test_a_turned_pair_is_not_left_further_below_the_others_than_the_set_allows(diameter: float, planned: bool) -> None:
    wheels = wheels_of(("1", diameter, 0.0, True), ("1", diameter, 0.0, True), ("2", 43.0, 0.0, False),
                       ("2", 42.0, 0.0, False))  # fmt: skip
    plan = turning.least_metal_diameters(wheels, MatchLimits(within_set=3.0, single_pair_to_average=10.0))
    assert (plan is not None) is planned


@pytest.mark.parametrize("counts", [True, False])
def test_a_pair_that_may_not_stand_off_the_average_at_all_is_brought_to_it(counts: bool) -> None:
    wheels = wheels_of(("1", 44.0, 0.0, True), ("1", 44.0, 0.0, True), ("2", 42.0, 0.0, False),
                       ("2", 42.0, 0.0, False))  # fmt: skip
    plan = turning.least_metal_diameters(
        wheels, MatchLimits(single_pair_to_average=0.0, pair_counts_in_average=counts)
    )
    assert plan == {"W0": 42.0, "W1": 42.0, "W2": 42.0, "W3": 42.0}


def test_two_turned_wheels_of_two_axles_are_no_pair() -> None:
    wheels = wheels_of(("1", 36.0, 0.0, True), ("1", 43.0, 0.0, False), ("2", 36.0, 0.0, True),
                       ("2", 43.0, 0.0, False))  # fmt: skip
    plan = turning.least_metal_diameters(wheels, MatchLimits(single_pair_to_average=1.0))
    assert plan == {"W0": 36.0, "W1": 43.0, "W2": 36.0, "W3": 43.0}
