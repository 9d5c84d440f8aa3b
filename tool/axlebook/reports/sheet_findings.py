"""The findings that a sheet must not hide: what `check` says of its parts that turns the exit code."""

from __future__ import annotations

from axlebook.findings import counts_for_exit

from .sheet import Line, Section
from .text import sentence
from .view import Report

SHOWN_FIRST = 2  # on the short page of a terminal


def findings_section(report: Report) -> Section | None:
    """What counts against the parts of a sheet, worst first; None where nothing does."""
    found = [finding for finding in report.findings if counts_for_exit(finding, strict=False)]
    if not found:
        return None
    lines = [
        Line(
            f"Finding, {one.verdict}", sentence(one.message), note=f"{sentence(one.next)} {one.check}".strip(),
            main=place < SHOWN_FIRST, alarm=True,
        )
        for place, one in enumerate(found)
    ]  # fmt: skip
    return Section("Findings on these parts", tuple(lines))
