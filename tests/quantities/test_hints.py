"""What a refusal offers to write is itself read, and as the length that was meant."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from axlebook.quantities import NotAMeasure, Quantity, parse_measure

MEANT = {
    "5- 17/64 in": {"5 17/64 in"},
    "1 - 1/4 in": {"1 1/4 in"},
    "1 355,725 mm": {"1355.725 mm"},
    "53-54 in": {"53 to 54 in", "53/54 in"},
    "2 3\\16 in": {"2 3/16 in"},
}


def offered(text: str) -> list[str]:
    """The texts that a refusal offers, all that begins with a digit and stands after `Write`."""
    try:
        parse_measure(text)
    except NotAMeasure as refused:
        hint = refused.hint
        if "such as" in hint or "for five and a half" in hint:
            return []
        words = hint.removeprefix("Write ").rstrip(".")
        words = re.sub(r" (for a range|for a fraction|for one number|if that is meant|if that was read)", "", words)
        parts = re.split(r", | or ", words)
        return [part for part in parts if re.match(r"[-+]?[0-9.]", part)]
    return []


@pytest.mark.parametrize(("text", "wanted"), MEANT.items())
def test_what_was_meant_is_offered(text: str, wanted: set[str]) -> None:
    assert set(offered(text)) == wanted


@pytest.mark.parametrize("text", ["4-8 1/2 in", "1--1/4 in", "2-1/8-2 in", "1 1.5/2 in"])
def test_a_refused_text_is_never_offered_again_nor_its_unit_called_unknown(text: str) -> None:
    with pytest.raises(NotAMeasure) as refused:
        parse_measure(text)
    assert text not in refused.value.hint
    assert "is not known" not in refused.value.reason


NUMBERS = st.text("0123456789 ./-,", min_size=1, max_size=12)
UNITS = st.sampled_from([" in", " mm", "in", "", " inchs", " milimeter", '"'])


@given(st.builds(lambda number, unit: number + unit, NUMBERS, UNITS))
def test_every_text_that_is_offered_is_read(text: str) -> None:
    for one in offered(text):
        parse_measure(one)


@given(st.integers(1, 99), st.sampled_from([4, 8, 16, 32, 64]), st.data(), st.sampled_from(["- ", " - ", " -"]))
def test_a_fraction_behind_a_hyphen_is_offered_as_the_length_meant(
    whole: int, below: int, data: st.DataObject, hyphen: str
) -> None:
    above = data.draw(st.integers(1, below - 1))
    found = [parse_measure(one) for one in offered(f"{whole}{hyphen}{above}/{below} in")]
    lengths = [one.number for one in found if isinstance(one, Quantity)]
    assert not lengths or lengths == [whole + Fraction(above, below)]
