"""CSV: RFC 4180, and no cell acts as a formula."""

import csv
import io

import pytest

from axlebook.reports.as_csv import neutral, render_csv


@pytest.mark.parametrize("cell", ["=HYPERLINK(1)", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", " =1", "\u00a0=1"])
def test_a_cell_that_would_act_gets_an_apostrophe(cell: str) -> None:
    assert neutral(cell) == f"'{cell}"


@pytest.mark.parametrize("cell", ["", "15/16 in", "1-Aug", "a=b", "'quoted", "2026-02-24"])
def test_any_other_cell_stays_as_it_is(cell: str) -> None:
    assert neutral(cell) == cell


def test_a_file_reads_back_and_its_lines_end_as_the_standard_wants() -> None:
    text = render_csv(("a", "b"), [("x, y", 'say "no"'), ("two\nlines", "=1")])
    assert text == 'a,b\r\n"x, y","say ""no"""\r\n"two\nlines",\'=1\r\n'
    assert list(csv.reader(io.StringIO(text, newline="")))[1:] == [["x, y", 'say "no"'], ["two\nlines", "'=1"]]
