"""What must hold for every value, tried on many."""

from decimal import Decimal
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from axlebook.quantities import (
    UNITS,
    Interval,
    Measure,
    NotAMeasure,
    Quantity,
    Unit,
    digits_apart,
    parse_measure,
    parse_quantity,
    render_fraction,
    render_value,
)

sixty_fourths = st.integers(min_value=-64 * 200, max_value=64 * 200)
decimals = st.decimals(min_value=-9000, max_value=9000, places=4, allow_nan=False, allow_infinity=False)
lengths = st.sampled_from(["in", "mm", "cm", "m", "ft", "thou", "µm"])


def read_or_refused(text: str) -> Measure | NotAMeasure:
    """Read a text, giving the refusal itself where it is refused; any other exception is a fault."""
    try:
        return parse_measure(text)
    except NotAMeasure as refused:
        return refused


def as_millimeters(count: int) -> str:
    """Write a number of sixty-fourths of an inch in millimeters, exactly: each is 0.396875 mm."""
    micrometers_thousandth = count * 396_875
    sign = "-" if count < 0 else ""
    whole, rest = divmod(abs(micrometers_thousandth), 10**6)
    return f"{sign}{whole}.{rest:06d} mm"


@given(sixty_fourths)
def test_a_fraction_of_an_inch_and_its_millimeters_are_equal(count: int) -> None:
    exact = Fraction(count, 64) * Fraction("0.0254")
    written = render_fraction(exact)
    assert written is not None
    assert parse_measure(written) == parse_measure(as_millimeters(count))
    assert parse_quantity(written).exact == exact


@given(sixty_fourths)
def test_feet_and_inches_come_back_the_same(count: int) -> None:
    exact = Fraction(count, 64) * Fraction("0.0254")
    written = render_fraction(exact, feet=True)
    assert written is not None
    assert parse_quantity(written, "length").exact == exact


@given(decimals, st.sampled_from([unit for unit in UNITS.values() if unit.dimension != "expansion"]))
def test_what_is_written_is_read_back_the_same(number: Decimal, unit: Unit) -> None:
    read = read_or_refused(f"{number} {unit.name}")
    if isinstance(read, NotAMeasure):
        assert "of that size" in read.reason  # below absolute zero, or faster than any train
        return
    assert isinstance(read, Quantity)
    assert parse_quantity(render_value(read.exact, read.dimension, read.unit)).exact == read.exact


@given(decimals, decimals, lengths, lengths)
def test_order_is_that_of_the_metal(one: Decimal, other: Decimal, unit: str, other_unit: str) -> None:
    first, second = parse_quantity(f"{one} {unit}"), parse_quantity(f"{other} {other_unit}")
    assert (first < second) == (first.exact < second.exact)
    assert (first == second) == (first.exact == second.exact)
    if unit == other_unit:
        assert (first < second) == (Fraction(str(one)) < Fraction(str(other)))


@given(st.fractions(max_denominator=10**6), st.fractions(max_denominator=10**6), lengths)
def test_values_look_alike_only_when_equal(one: Fraction, other: Fraction, unit: str) -> None:
    first, second = digits_apart(one, other, unit)
    assert (first == second) == (one == other)


@given(decimals, st.integers(min_value=0, max_value=6))
def test_a_rounded_value_is_off_by_half_its_last_digit_at_most(number: Decimal, places: int) -> None:
    exact = Fraction(str(number)) / 3
    shown = render_value(exact, "length", "m", places)
    assert abs(parse_quantity(shown).exact - exact) <= Fraction(1, 2 * 10**places)


PIECES = st.sampled_from(
    [
        "1",
        "53",
        "0",
        "3/8",
        "/",
        "-",
        ".",
        ",",
        " ",
        "in",
        "ft",
        "'",
        '"',
        "°F",
        "½",
        "to",
        "under",
        "e",
        "Jan",
    ]
)


@given(st.one_of(st.text(max_size=70), st.lists(PIECES, max_size=12).map("".join)))
def test_any_text_is_read_or_refused_and_nothing_else(text: str) -> None:
    read = read_or_refused(text)
    assert read.text == text
    assert str(read).isprintable() or isinstance(read, Quantity | Interval)
