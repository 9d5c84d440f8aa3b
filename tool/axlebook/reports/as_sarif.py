"""A report as SARIF 2.1.0, which code hosts and editors read: a rule a check, a result a finding, worst first.

What fails the check is of level error; what was not assessed or is undecided is no failure and no pass, and says so by
its kind, `open`. Nothing but ASCII leaves here, and a path is a URI.
"""

from __future__ import annotations

import json
from typing import Any
from urllib.parse import quote

import axlebook
from axlebook.findings import Finding, Severity, Verdict, counts_for_exit

from .as_json import figure_json
from .cleaning import clean
from .text import sentence
from .view import WHO_DECIDES, Report

VERSION = "2.1.0"
SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
ROOT = "%SRCROOT%"  # the folder that axlebook was called in
OPEN = (Verdict.NOT_ASSESSED, Verdict.UNDECIDED)


def render_sarif(report: Report, *, beside: str = "") -> str:
    """The SARIF log of a report; `beside` stands before every path."""
    checks = list(dict.fromkeys(finding.check for finding in report.findings))
    run: dict[str, Any] = {
        "tool": {"driver": {
            "name": "axlebook",
            "version": axlebook.__version__,
            "semanticVersion": axlebook.__version__,
            "fullDescription": {"text": WHO_DECIDES},
            "rules": [_rule(check) for check in checks],
        }},
        "invocations": [{"executionSuccessful": True}],
        "columnKind": "unicodeCodePoints",
        "results": [_result(finding, checks.index(finding.check), beside) for finding in report.findings],
        "properties": {
            "asOf": report.day.as_of.isoformat(),
            "revision": report.revision.commit or "",
            "counts": dict(report.counts),
        },
    }  # fmt: skip
    log = {"$schema": SCHEMA, "version": VERSION, "runs": [run]}
    return json.dumps(log, indent=1, ensure_ascii=True, allow_nan=False) + "\n"


def _rule(check: str) -> dict[str, Any]:
    """A check as a rule: its manual page, as `explain` shows it."""
    from axlebook.checks import find_check

    from .explained import explained_check

    found = find_check(check)
    if found is None:
        return {"id": check}
    page = explained_check(found)
    return {
        "id": check,
        "shortDescription": {"text": page.title},
        "fullDescription": {"text": page.title},
        "help": {"text": "\n\n".join([page.title, *page.paragraphs])},
    }


def _result(finding: Finding, rule: int, beside: str) -> dict[str, Any]:
    kind, level = _kind_and_level(finding)
    told: dict[str, Any] = {
        "ruleId": finding.check,
        "ruleIndex": rule,
        "kind": kind,
        "level": level,
        "message": {"text": message_of(finding)},
        "locations": [{
            "physicalLocation": {
                "artifactLocation": {"uri": quote(f"{beside}{finding.place.path}"), "uriBaseId": ROOT},
                "region": {"startLine": max(finding.line, 1), "startColumn": max(finding.column, 1)},
            },
            "logicalLocations": [{"fullyQualifiedName": clean(finding.subject)}],
        }],
        "partialFingerprints": {"axlebookFinding/v1": finding.fingerprint},
        "properties": {
            "verdict": str(finding.verdict),
            "severity": str(finding.severity),
            "figures": [figure_json(figure) for figure in finding.figures],
        },
    }  # fmt: skip
    if finding.waived:
        words = f"waived by {clean(finding.waived)}"
        told["suppressions"] = [{"kind": "external", "status": "accepted", "justification": words}]
    return told


def _kind_and_level(finding: Finding) -> tuple[str, str]:
    if finding.verdict in OPEN:
        return "open", "none"
    if finding.severity is Severity.NOTE:
        return "fail", "note"
    return "fail", "error" if counts_for_exit(finding, strict=False) else "warning"


def message_of(finding: Finding) -> str:
    """What was read and compared, where that comes from, what to do now, as one line."""
    message, subject = sentence(clean(finding.message)), clean(finding.subject)
    parts = [f"{finding.verdict}: {message}" if subject in message else f"{finding.verdict}: {subject}: {message}"]
    if finding.source and finding.source not in finding.message:
        parts.append(sentence(f"By {clean(finding.source)}"))
    if finding.next:
        parts.append(sentence(clean(finding.next)))
    return " ".join(parts)
