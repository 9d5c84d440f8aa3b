"""Planted slips are caught and named rightly: 95 of 100 that can be seen, over twenty seeds nobody has seen before."""

from __future__ import annotations

import pytest

from axlebook.checks import find_check
from axlebook.practice import KINDS
from tests.demo.score_practice import enough, scored, seeds
from tests.demo.scoring import Score, read_names, table


@pytest.fixture(scope="module")
def scores() -> list[Score]:
    return scored(seeds())


def test_ninety_five_of_a_hundred_planted_slips_are_named_rightly(
    scores: list[Score], capsys: pytest.CaptureFixture[str]
) -> None:
    printed = table(scores)
    with capsys.disabled():
        print(f"\n{printed}")
    assert enough(scores), printed


def test_what_is_too_small_to_be_seen_is_not_named(scores: list[Score]) -> None:
    for one in scores[:2]:
        assert sum(mark.caught for mark in one.unseen) <= len(one.unseen) // 4


def test_every_kind_of_slip_has_checks_that_name_it() -> None:
    names = read_names()
    assert set(names) == set(KINDS)
    for kind, checks in names.items():
        assert checks, f"no check names {kind}"
        assert all(find_check(check) for check in checks), kind
