"""A waiver in force marks what it names and may, and nothing else; what is waived does not turn the exit code."""

from typing import Any

import pytest

from axlebook.checks._waiving import OF_WAIVERS, may_be_waived
from axlebook.findings import Finding, Place, Severity, Verdict, counts_for_exit

from .cases import run_case

WAIVER = """kind: waiver
finding:
  check: {check}
  subject: {subject}
reason: the record of the person is being written
approved_by: chair
approved_on: 2026-01-12
expires_on: {until}
"""
PERSON = {"check": "unknown-reference", "subject": "2026-01-10-e-1 v9"}
FLANGE = {"check": "flange-thin", "subject": "e-1 engine-truck-1 left"}


def found(named: dict[str, str], until: str = "2026-02-28") -> Finding:
    """The one finding of the check that a waiver names."""
    case: dict[str, Any] = {"base": "one-truck", "ledger": {"waivers/w-1.yaml": WAIVER.format(until=until, **named)}}
    [finding] = [finding for finding in run_case(case).findings if finding.check == named["check"]]
    return finding


def test_a_finding_that_a_waiver_in_force_names_is_marked_and_does_not_count() -> None:
    finding = found(PERSON)
    assert finding.waived == "w-1"
    assert not counts_for_exit(finding, strict=True)


def test_a_waiver_that_ran_out_yesterday_marks_nothing() -> None:
    finding = found(PERSON, "2026-02-27")
    assert not finding.waived
    assert counts_for_exit(finding, strict=False)


def test_what_condemns_is_never_waived() -> None:
    finding = found(FLANGE)
    assert not finding.waived
    assert counts_for_exit(finding, strict=False)


def test_the_fingerprint_of_a_finding_is_the_same_waived_or_not() -> None:
    waived, counted = (found(PERSON, day) for day in ("2026-02-28", "2026-02-27"))
    assert waived.fingerprint == counted.fingerprint


@pytest.mark.parametrize(
    ("verdict", "severity", "check", "may"),
    [
        ("outside", "shop", "flange-thin", True),
        ("suspect", "data", "flange-thin", True),
        ("within", "shop", "flange-thin", False),
        ("outside", "condemning", "flange-thin", False),
        ("suspect", "data", min(OF_WAIVERS), False),
    ],
)
def test_what_is_within_condemns_or_is_of_waivers_themselves_is_not_waived(
    verdict: str, severity: str, check: str, may: bool
) -> None:
    assert may_be_waived(Finding(check, Verdict(verdict), Severity(severity), "e-1", Place("a.yaml"), "")) is may
