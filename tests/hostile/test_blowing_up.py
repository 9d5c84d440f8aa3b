"""No text makes an expression, a record or a sheet take more than its share of time: twice the text, twice the time.

Growth is measured and not time, so that a slow machine is no fault: a text against one twice as long.
"""

from __future__ import annotations

import re

import pytest
from tests.cli.commands import AT, THIN
from tests.cli.sheets import row, sheet
from tests.hostile.blowing import Expression, attacks, doubled, expressions, growth
from tests.hostile.fuzz_targets import tell_records, tell_rows

from axlebook.reports.cleaning import clean
from axlebook.sources.yaml_lines import _taken_apart as taken_apart
from axlebook.sources.yaml_lines import read_lines

LINEAR = 3.0  # twice the text: 2 by nature, and some for chance; the square would be 4
SQUARE = 6.0
# These grow with the square of a text, and so may be given short ones alone: by what they are held to that.
SHORT = {
    "quantities.diagnosis": "a measure is at most 60 signs",
    "quantities.parsing": "a measure is at most 60 signs",
    "records.fit_given": "a section is at most 80 signs",
    "records.rows.cells": "a cell is at most 1000 signs",
    "trends.misread": "a measure is at most 60 signs",
}
EVIL = [" ", "0", "a", ".", "\t", "T", "1/", "1 ", "- ", "to ", "½", "\\n", "'"]
FIELDS = {
    "measured_on": "2026-01-10", "engine": "e-1", "purpose": "annual", "by": "lead", "quantity": "flange_thickness",
    "place": "driver-2 right", "with": "gauge-1", "where": "3/8 in above tread", "worst": "15/16 in",
}  # fmt: skip


def test_the_expressions_are_found_where_they_stand() -> None:
    assert len(expressions()) > 90
    assert {"sources.capsule", "quantities.parsing", "reports.cleaning"} <= {one.module for one in expressions()}
    kept_for_one_use = [one for one in expressions() if one.module == "sources.yaml_lines"]
    assert [set(one.uses) for one in kept_for_one_use] == [{"fullmatch"}] * 3
    assert any("search" in one.uses for one in expressions())


@pytest.mark.parametrize("pattern", ["(a+)+$", "(a|aa)+$", "(?:a*)*b", "a+a+a+$"])
def test_an_expression_that_blows_up_is_seen_to(pattern: str) -> None:
    assert max(growth(re.compile(pattern).match, attack) for attack in attacks(re.compile(pattern))) > SQUARE


def test_an_expression_that_takes_the_square_is_seen_to() -> None:
    assert max(growth(re.compile("a+b").search, attack) for attack in attacks(re.compile("a+b"))) > LINEAR


def test_a_reader_that_takes_the_square_is_seen_to() -> None:
    evil = re.compile("a+b")

    def run(text: str) -> None:
        sum(range(500_000))
        evil.search(text)

    assert doubled(run, lambda n: "a" * n, 3_000) > LINEAR


@pytest.mark.parametrize("one", expressions(), ids=lambda one: f"{one.module} {one.pattern.pattern[:30]}")
def test_no_text_blows_an_expression_up(one: Expression) -> None:
    most = SQUARE if one.module in SHORT else LINEAR
    for use in one.uses:
        for attack in attacks(one.pattern):
            assert growth(one.run(use), attack, well=most - 0.5) < most, (use, attack(20))


@pytest.mark.parametrize("sign", EVIL)
@pytest.mark.parametrize("field", ["measured_on", "by", "place", "where", "worst"])
def test_a_long_text_in_a_field_takes_its_share_of_time(field: str, sign: str) -> None:
    was = f"{field}: {FIELDS[field]}"
    assert THIN.count(was) == 1

    def record(n: int) -> str:
        return f"# at {AT}\n{THIN.replace(was, f'{field}: {chr(34)}{sign * n}x{chr(34)}')}"

    assert doubled(lambda text: tell_records(text.encode()), record, 15_000) < LINEAR


@pytest.mark.parametrize("begin", ["", "  ", "- ", "a", "a:", "a: ", "a: x", "a: [", "a: [x", 'a: "', "a: '", "- x"])
def test_a_long_line_is_taken_apart_in_its_share_of_time(begin: str) -> None:
    for sign in (" ", "x", " x", ": ", ":", " #", "[", ", ", "x, ", "(", "- ", '"', "' ", "é"):
        for end in ("", "\x00", ":", " #", "]", '"'):
            long = growth(lambda text: taken_apart(text.encode()), lambda n: begin + sign * n + end)  # noqa: B023
            assert long < LINEAR, (sign, end)


@pytest.mark.parametrize("lines", ["a:\n{}", "a{}:\n", "{}a:\n", "a:\n- b:\n{}", "# {}\n", "a{}: x\n", "- {}\n"])
def test_many_lines_are_put_together_in_their_share_of_time(lines: str) -> None:
    def text(n: int) -> str:
        return "a:\n" + "".join(lines.format(" " * (number % 17) if lines[0] == "{" else number) for number in range(n))

    assert doubled(lambda text: read_lines(text.encode(), 20), text, 5_000) < LINEAR


@pytest.mark.parametrize("sign", EVIL)
def test_a_long_cell_takes_its_share_of_time(sign: str) -> None:
    long = doubled(lambda text: tell_rows(text.encode()), lambda n: sheet(row(value=sign * n, note=sign * n)), 5_000)
    assert long < LINEAR


@pytest.mark.parametrize("sign", [*EVIL, " \n", "\r", "\x1b"])
def test_a_long_text_is_cleaned_in_its_share_of_time(sign: str) -> None:
    assert growth(clean, lambda n: sign * n) < LINEAR


def test_blanks_around_line_ends_become_one_blank_as_before() -> None:
    assert clean("a  \n b\n \nc \t d ") == "a b  c   d "
