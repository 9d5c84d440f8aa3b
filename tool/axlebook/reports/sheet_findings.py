"""The findings that a sheet must not hide: what `check` says of its parts that turns the exit code."""

from __future__ import annotations

from axlebook.findings import counts_for_exit

from .sheet import Line, Section
from .text import sentence
from .view import Report


def findings_section(report: Report) -> Section | None:
    """What counts against the parts of a sheet, worst first; None where nothing does."""
    found = [finding for finding in report.findings if counts_for_exit(finding, strict=False)]
    if not found:
        return None
    first = sentence(found[0].message)
    more = f" And {len(found) - 1} more" if len(found) > 1 else ""
    lines = [Line("Findings on these parts", f"{first}{more}", main=True, alarm=True)]
    lines += [
        Line(f"{one.verdict}, {one.severity}", f"{sentence(one.message)} {one.next}", note=one.check) for one in found
    ]
    return Section("Findings on these parts", tuple(lines))
