"""Every word of the vocabulary that can be judged is judged by exactly one check."""

from collections import Counter
from datetime import date

import pytest

from axlebook.checks import all_checks
from axlebook.checks._claims import REST, left_observations, left_quantities
from axlebook.records.derived import DERIVED
from axlebook.run import read_book
from axlebook.sources.vocabulary import read_vocabulary

WORDS = read_vocabulary()


def claims(attribute: str) -> Counter[str]:
    named = (word for check in all_checks() if check.ID not in REST for word in getattr(check, attribute, ()))
    return Counter(named)


def test_a_quantity_is_judged_by_one_named_check_or_by_the_one_that_judges_the_rest() -> None:
    named = claims("QUANTITIES")
    rest = left_quantities(read_book([], as_of=None, today=date(2026, 3, 1)))
    assert not [word for word, times in named.items() if times > 1]
    assert set(named) - set(WORDS.quantities) - set(WORDS.derived) == set()
    assert set(named).isdisjoint(rest)
    assert set(named) | set(rest) == set(WORDS.quantities) | set(WORDS.derived)


def test_a_thing_looked_for_is_judged_by_one_named_check_or_by_the_one_that_judges_the_rest() -> None:
    named = claims("OBSERVATIONS")
    rest = left_observations(read_book([], as_of=None, today=date(2026, 3, 1)))
    assert not [word for word, times in named.items() if times > 1]
    assert set(named) | set(rest) == set(WORDS.observations)
    assert set(named).isdisjoint(rest)


def test_a_size_is_judged_with_the_one_thing_it_is_a_size_of() -> None:
    carriers = Counter(size for word in WORDS.observations.values() for size in word.sizes)
    assert carriers == Counter(dict.fromkeys(WORDS.sizes, 1))


PRACTICE_ONLY = {"fitting_clearance"}  # a figure to work to, which no limit judges


@pytest.mark.parametrize("name", [name for name in WORDS.derived if name not in DERIVED and name not in PRACTICE_ONLY])
def test_a_derived_quantity_that_is_worked_out_elsewhere_is_judged_by_the_check_that_works_it_out(name: str) -> None:
    assert claims("QUANTITIES")[name] == 1


def test_a_derived_quantity_speaks_for_words_that_there_are() -> None:
    for word in WORDS.derived.values():
        assert all(WORDS.find_word(name) for name in word.speaks_for), word.name
