"""The starter plans ask for what the shipped limits judge, in positions and counts that can be read."""

from pathlib import Path

import pytest
from tests.records.published_rows import PLANS, shipped, tree_of

from axlebook.quantities import parse_quantity
from axlebook.records import forms
from axlebook.sources.vocabulary import read_vocabulary

ASKS = [(path, ask) for path in PLANS for ask in tree_of(path)["asks"]]
PURPOSES = ["receiving", "shop", "after-work", "after-incident", "daily", "periodic", "annual"]


@pytest.mark.parametrize("purpose", PURPOSES)
def test_each_purpose_has_a_starter_plan(purpose: str) -> None:
    assert [path for path in PLANS if purpose in tree_of(path)["purposes"]]


def test_all_that_part_230_judges_is_asked_for_by_some_plan() -> None:
    words = read_vocabulary()
    asked = {ask.get("quantity") or ask["looked_for"] for _, ask in ASKS}
    asked |= {size for name in asked & words.observations.keys() for size in words.observations[name].sizes}
    asked |= {name for name, word in words.derived.items() if asked & {*word.comes_from}}
    judged = {quantity for limit in shipped("us-49-cfr-230").limits for quantity in limit.quantities}
    assert judged - asked == set()


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_a_plan_asks_for_a_temperature_exactly_where_the_quantity_needs_it(path: Path) -> None:
    asks = [ask for ask in tree_of(path)["asks"] if "quantity" in ask]
    needs = {name for name, word in read_vocabulary().quantities.items() if word.needs_temperature}
    wrong = [
        ask["quantity"] for ask in asks if (ask["quantity"] in needs) != (ask.get("temperature") == "yes")
    ]
    assert wrong == []


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_least_counts_have_the_dimension_of_their_quantity_and_positions_are_positions(path: Path) -> None:
    for ask in tree_of(path)["asks"]:
        if "least_count" in ask:
            parse_quantity(ask["least_count"], read_vocabulary().quantities[ask["quantity"]].dimension)
        assert all(forms.parse_position(position) is not None for position in ask.get("positions", []))


def test_no_plan_asks_for_the_same_thing_of_the_same_wheels_twice() -> None:
    for path in PLANS:
        asks = [ask.get("quantity") or ask["looked_for"] for ask in tree_of(path)["asks"]]
        assert sorted(asks) == sorted(set(asks)), path.stem
