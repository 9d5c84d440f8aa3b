"""How what was judged is said: in words, in figures, with where it comes from."""

from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from axlebook.checks._findings import _also, _band, _digits, _margin, _read, _said, _uncertain
from axlebook.checks._words import exact_text, figured, limit_figure, value_figures
from axlebook.findings import Verdict
from axlebook.limits import point
from axlebook.records.condition import Value
from axlebook.records.unsure import NOT_SURE, WRONG_UNIT

from .made_up import INCH, assessed, judgement, limit, value


@pytest.mark.parametrize(
    ("margin", "band", "decision", "told"),
    [
        ("0.00002", "0.00002", "as written", True),
        ("-0.00002", "0.00002", "as written", True),
        ("0.0000201", "0.00002", "as written", False),
        ("-0.0000201", "0.00002", "as written", False),
        ("0.00001", "0.00002", "guard band", False),
        ("0.00001", None, "as written", False),
        (None, "0.00002", "as written", False),
    ],
)
def test_a_figure_outside_as_written_by_less_than_it_is_good_to_says_so(
    margin: str | None, band: str | None, decision: str, told: bool
) -> None:
    one = judgement("outside", margin, of=limit()._replace(decision=decision))
    said = _uncertain(assessed(one, band=None if band is None else Fraction(band)), mm=False)
    assert bool(said) is told
    if told:
        assert said == " Compared as written; the reading itself is good to 0.0008 in (0.02 mm)."


def test_a_margin_is_given_in_millimetres_and_only_for_a_length() -> None:
    [figure] = _margin(assessed(judgement("outside", "-0.0005")), "length")
    assert (figure.name, figure.value, figure.unit) == ("margin", "-0.5", "mm")
    assert _margin(assessed(judgement("outside", "-0.0005")), "mass") == ()
    assert _margin(assessed(judgement("outside")), "length") == ()


def test_why_a_reading_cannot_tell_is_said() -> None:
    undecided = judgement("undecided", "0")
    assert _band(assessed(undecided, value("1", "2")), mm=False) == "it is known only as an interval"
    assert _band(assessed(undecided, band=Fraction("0.000254")), mm=False) == "guard band 0.01 in (0.254 mm)"
    assert _band(assessed(undecided), mm=False) == "no uncertainty is on record"
    assert _band(assessed(undecided._replace(missing=WRONG_UNIT), value("1", "2")), mm=False) == WRONG_UNIT


def test_other_sources_that_it_is_outside_of_are_named_once_each() -> None:
    own, law = judgement("outside"), judgement("outside", of=limit(name="law/a", source="Law"))
    also, within = judgement("outside", of=limit(name="law/b", source="Law")), judgement("within", of=limit(name="z/c"))
    others = tuple((value("1"), one) for one in (law, also, within, judgement("outside", of=limit(name="own/y"))))
    assert _also(assessed(own, others=others)) == " Outside Law, page 1 as well."
    assert _also(assessed(own, others=others[2:])) == ""


@pytest.mark.parametrize(
    ("apart", "dimension", "told"),
    [("0.0001", "length", True), ("-0.0001", "length", True), ("0.00011", "length", False), ("0", "length", False),
     ("0.00001", "mass", False)],
)  # fmt: skip
def test_a_length_that_prints_like_its_limit_is_shown_with_more_digits(apart: str, dimension: str, told: bool) -> None:
    said = _digits(assessed(judgement("outside"), value(INCH + Fraction(apart))), dimension)
    assert bool(said) is told


def word(*, worked_out: bool) -> Any:
    return SimpleNamespace(title="tire width", dimension="length", comes_from=("a",) if worked_out else ())


@pytest.mark.parametrize(
    ("of", "worked_out", "told"),
    [
        (value(INCH, text="1 in"), False, ": 1 in (25.4 mm)."),
        (value(INCH), True, ": 1 in (25.4 mm), from as read."),
        (value(INCH, "open"), True, ": at least 1 in (25.4 mm), from as read."),
        (value(INCH, 2 * INCH), True, ": 1 in (25.4 mm) to 2 in (50.8 mm), from as read."),
        (value(None, INCH, text="under 1 in"), True, ": under 1 in"),
        (value(INCH, text="1 in", position="0 deg"), False, ", 0 deg: 1 in (25.4 mm)."),
    ],
)
def test_what_was_read_is_said_in_both_units_and_what_was_worked_out_with_what_it_comes_from(
    of: Value, worked_out: bool, told: str
) -> None:
    said = _read(assessed(judgement("outside"), of), word(worked_out=worked_out), mm=False)
    assert said.startswith("e-1 driver-1 left, tire width" + told)


def test_what_condemns_when_seen_says_so_and_why_a_doubted_one_cannot_tell() -> None:
    seen = judgement("outside")._replace(bound=None)
    assert _said(assessed(seen, value(INCH, text="seen")), word(worked_out=False), mm=False).endswith("Out when seen.")
    doubt = seen._replace(missing=NOT_SURE, verdict=Verdict.UNDECIDED)
    assert _said(assessed(doubt), word(worked_out=False), mm=False).endswith(f"Out when seen. But {NOT_SURE}.")
    assert limit_figure(seen) == ()


@pytest.mark.parametrize(
    ("exact", "dimension", "told"),
    [
        (INCH, "length", "1 in (25.4 mm)"),
        (Fraction("0.05"), "ratio", "5 percent"),
        (Fraction(3), "count", "3"),
        (Fraction(1000), "force", "1 kN"),
    ],
)
def test_a_figure_is_said_in_the_units_of_its_kind(exact: Fraction, dimension: str, told: str) -> None:
    assert figured(exact, dimension, mm=False) == told


def test_a_length_may_be_said_millimetres_first() -> None:
    assert figured(INCH, "length", mm=True) == "25.4 mm (1 in)"


@pytest.mark.parametrize(
    ("exact", "dimension", "unit", "told"),
    [
        (INCH, "length", "mm", ("25.4", "mm")),
        (INCH / 64, "length", "in", ("0.015625", "in")),
        (Fraction(3), "count", "", ("3", "")),
        (Fraction("0.05"), "ratio", "", ("5", "percent")),
    ],
)
def test_an_exact_figure_has_all_its_digits(exact: Fraction, dimension: str, unit: str, told: tuple[str, str]) -> None:
    number, named = exact_text(exact, dimension, unit)
    assert (Fraction(number), named) == (Fraction(told[0]), told[1])


def test_a_span_of_one_figure_is_a_point() -> None:
    assert value("1").span == point(Fraction(1))


def test_the_figures_of_a_value_are_its_readings_what_was_worked_out_or_else_its_own_words() -> None:
    [own] = value_figures(value(INCH, text="1 in"), "length", False)
    assert (own.name, own.value, own.unit) == ("tire_width", "1 in", "in")
    [computed] = value_figures(value(INCH, text="1 in"), "length", True)
    assert (Fraction(computed.value), computed.unit, computed.origin) == (1, "in", "computed")
    [open_one] = value_figures(value(INCH, 2 * INCH, text="1 to 2 in"), "length", True)
    assert (open_one.value, open_one.origin) == ("1 to 2 in", "limits/own.yaml")
