"""A misspelled id is answered with the one that was likely meant, among a few and among thousands."""

import pytest

from axlebook.checks._records import FEW, nearest

MEANT = "driver-2601-left"
MANY = [*(f"x{number:06}" for number in range(FEW)), MEANT]


@pytest.mark.parametrize(
    ("word", "found"),
    [
        ("drivre-2601-left", MEANT),  # its end is right
        ("driver-2601-lfet", MEANT),  # its beginning is
        ("driver-2601-le", MEANT),  # two letters short
        ("driver-2601-leftxx", MEANT),  # two too many
        ("driver-2601-l", ""),  # three short: of so many, those are not looked at
        ("driver-2601-leftxxx", ""),
        ("drivre-2601-lfet", ""),  # neither end is right
        ("xyz", ""),
    ],
)
def test_of_many_ids_those_of_like_length_and_one_right_end_are_looked_at(word: str, found: str) -> None:
    assert len(MANY) == FEW + 1
    assert nearest(word, MANY) == found


@pytest.mark.parametrize("word", ["driver-2601-l", "drivre-2601-lfet"])
def test_of_a_few_ids_all_are_looked_at(word: str) -> None:
    assert nearest(word, MANY[1:]) == MEANT


def test_what_is_like_nothing_is_answered_with_nothing() -> None:
    assert nearest("boiler", [MEANT]) == ""


def test_in_whatever_order_ids_come_the_same_one_is_nearest() -> None:
    alike = [f"2014-01-25-t-{number}-applied" for number in range(1000, 3000)]
    word = "2014-01-25-t-1417-aplied"
    orders = (alike, alike[::-1], alike[700:] + alike[:700])
    assert {nearest(word, order) for order in orders} == {"2014-01-25-t-1417-applied"}
