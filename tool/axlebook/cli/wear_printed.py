"""What `wear` found in the format asked for."""

from __future__ import annotations

from axlebook.findings import Finding
from axlebook.reports.page import Look
from axlebook.reports.view import Report
from axlebook.reports.wear_view import WearRow


def printed(
    shape: str, report: Report, rows: list[WearRow], unread: list[Finding], look: Look, *, whole: bool, part: str
) -> str:
    """The text to print."""
    if shape == "json":
        from axlebook.reports.as_json import render_report
        from axlebook.reports.wear_json import wear_json

        return render_report(report, wear_json(rows))
    if shape == "markdown":
        from axlebook.reports.wear_page import wear_markdown

        return wear_markdown(report, rows)
    if shape == "html":
        from axlebook.reports.wear_page import wear_html

        return wear_html(report, rows, whole=whole, part=part)
    if shape == "svg":
        from axlebook.reports.wear_plot import drawing, wear_svg

        return wear_svg([drawing(row) for row in (rows if whole else rows[:6])])
    from axlebook.reports.wear_text import render_wear

    return render_wear(report, rows, unread, look, whole=whole, part=part)
