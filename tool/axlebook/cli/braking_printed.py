"""The estimate of an engine under its brake in the format asked for."""

from __future__ import annotations

from axlebook.reports.braking_sums import TireSums
from axlebook.reports.page import Look
from axlebook.reports.sheet import Sheet
from axlebook.reports.view import Report


def printed(
    shape: str, sheet: Sheet, sums: list[TireSums], report: Report, *, metric: bool, look: Look, whole: bool
) -> str:
    """The text to print."""
    if shape == "json":
        from axlebook.reports.as_json import render_report
        from axlebook.reports.braking_view import braking_result

        return render_report(report, braking_result(sheet, sums))
    if shape == "markdown":
        from axlebook.reports.sheet_markdown import render_markdown

        return render_markdown(sheet)
    if shape == "svg":
        from axlebook.reports.braking_chart import braking_svg

        return braking_svg(sums, metric=metric)
    if shape == "html":
        return _page(sheet, sums, metric=metric)
    from axlebook.reports.sheet_text import render_sheet

    return render_sheet(sheet, look, whole=whole)


def _page(sheet: Sheet, sums: list[TireSums], *, metric: bool) -> str:
    """One self-contained page; the chart is an image inside it."""
    from base64 import b64encode

    from axlebook.reports.braking_chart import alternative, braking_svg
    from axlebook.reports.html import render_page

    chart = b64encode(braking_svg(sums, metric=metric).encode()).decode("ascii")
    return render_page("braking.html.j2", sheet=sheet, title=sheet.title, chart=chart, alternative=alternative(sums))
