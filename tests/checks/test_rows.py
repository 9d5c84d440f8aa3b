"""Every numeric row of the published sets, exactly on its figure, just inside and just outside, in inches and mm."""

from functools import cache
from pathlib import Path

import pytest

from axlebook.findings import Finding, Verdict
from axlebook.records.book import Book

from .row_books import Case, book_of, cases_of, findings_of, read_rows, verdict_of

FILES = sorted((Path(__file__).parent / "rows").glob("*.yaml"))


@cache
def cases_in(name: str) -> tuple[list[Case], Book]:
    limit_set, rows = read_rows(Path(__file__).parent / "rows" / f"{name}.yaml")
    cases = list(cases_of(rows))
    return cases, book_of(limit_set, cases)


@cache
def run_of(name: str) -> tuple[list[Case], dict[tuple[str, str, str], list[Finding]]]:
    cases, book = cases_in(name)
    return cases, findings_of(book, cases)


ALL = [(path.stem, case.number - 1, case.name) for path in FILES for case in cases_of(read_rows(path)[1])]


@pytest.mark.parametrize("name", [path.stem for path in FILES])
def test_the_records_of_the_rows_are_sound(name: str) -> None:
    _, book = cases_in(name)
    assert not book.problems, book.problems[:3]


@pytest.mark.parametrize(("file", "index"), [(f, i) for f, i, _ in ALL], ids=[f"{f}: {n}" for f, _, n in ALL])
def test_a_published_row_turns_over_exactly_at_its_figure(file: str, index: int) -> None:
    cases, found = run_of(file)
    case = cases[index]
    quantity = str(case.row.get("told_as", case.row["quantity"]))
    findings = found.get((case.engine, case.row["check"], quantity), [])
    told = "; ".join(f"{f.verdict}: {f.message} {f.source}" for f in findings)
    assert str(verdict_of(findings) or "silent") == case.verdict, told
    if case.verdict == "outside":
        assert any(case.row["clause"] in finding.source for finding in findings), told
    if case.verdict == "not assessed":
        assert all(f.cause and f.next for f in findings if f.verdict is not Verdict.WITHIN), told
        assert case.row.get("says", "") in told
