"""The findings that a sheet must not hide: what `check` says of its parts that turns the exit code."""

from __future__ import annotations

from dataclasses import replace

from axlebook.findings import Finding, counts_for_exit

from .sheet import Line, Section, Sheet
from .text import sentence
from .view import Report

JOINED = " on "  # a fit is named by its tire and its center: t-1 on d-1-left
SHOWN_FIRST = 2  # on the short page of a terminal


def with_findings(sheet: Sheet, report: Report) -> Sheet:
    """A sheet with what counts against its parts: its own first, that of another fit of the same parts last."""
    found = [finding for finding in report.findings if counts_for_exit(finding, strict=False)]
    others = [finding for finding in found if JOINED in finding.subject and JOINED in sheet.subject
              and sheet.subject not in finding.subject]  # fmt: skip
    own = [finding for finding in found if finding not in others]
    first = (_section("Findings on these parts", own),) if own else ()
    last = (_section("Findings on another fit of these parts", others),) if others else ()
    return replace(sheet, sections=(*first, *sheet.sections, *last)) if found else sheet


def _section(heading: str, found: list[Finding]) -> Section:
    lines = [
        Line(
            f"Finding, {one.verdict}", sentence(one.message), note=f"{sentence(one.next)} {one.check}".strip(),
            main=place < SHOWN_FIRST, alarm=True,
        )
        for place, one in enumerate(found)
    ]  # fmt: skip
    return Section(heading, tuple(lines))
