"""Which slip is named: the one that puts a value where it was expected, the commoner of two, or a plain jump."""

from __future__ import annotations

from axlebook.trends.slips import Explanation, name_slip

SPREAD = 0.001


def named(value: float, expected: float, *given: Explanation) -> str:
    return name_slip([value], [expected], [SPREAD], given, "plain").kind


def test_a_jump_that_nothing_explains_is_plain() -> None:
    assert named(53.30, 53.25) == "plain"


def test_a_turn_that_puts_the_value_right_is_named() -> None:
    assert named(53.275, 53.2502, Explanation("one-turn-out", (53.25,), 2)) == "one-turn-out"


def test_a_turn_that_leaves_the_value_off_is_not_named() -> None:
    assert named(53.30, 53.25, Explanation("one-turn-out", (53.275,), 2)) == "plain"


def test_of_two_that_fit_the_one_that_fits_better_is_named() -> None:
    turn = Explanation("one-turn-out", (53.25,), 2)
    digits = Explanation("digits-transposed", (53.253,), 2)
    assert named(53.275, 53.25, turn, digits) == "one-turn-out"
    assert named(53.275, 53.2532, turn, digits) == "digits-transposed"


def test_one_that_could_have_come_from_many_readings_weighs_less() -> None:
    few, many = Explanation("digits-transposed", (53.25,), 1), Explanation("wrong-wheel", (53.25,), 40)
    assert named(53.275, 53.25, few, many) == "digits-transposed"


def test_one_of_any_size_weighs_less_the_wider_it_may_be() -> None:
    narrow = Explanation("hot-reading", (53.25,), 1, width=0.02)
    assert named(53.275, 53.25, narrow) == "hot-reading"
    assert named(53.275, 53.25, narrow._replace(width=50.0)) == "plain"


def test_several_values_must_all_be_put_right() -> None:
    values, expected, spreads = [3.0, 3.1], [2.0, 2.1], [0.01, 0.01]
    right = Explanation("wrong-wheel", (2.0, 2.1), 3)
    half = Explanation("wrong-wheel", (2.0, 3.1), 3)
    assert name_slip(values, expected, spreads, [right], "plain").of is right
    assert name_slip(values, expected, spreads, [half], "plain").of is None
