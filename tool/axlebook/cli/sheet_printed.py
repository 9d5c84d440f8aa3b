"""Printing a sheet in the format asked for; the sheets' own option of formats."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from collections.abc import Iterable

    from axlebook.reports.sheet import Sheet
    from axlebook.reports.view import Report
    from axlebook.run import Outcome

SHEET_FORMAT = click.option(
    "--format", "shape", type=click.Choice(["text", "json", "markdown", "html"]), default="text", show_default=True,
    help="How to print it; html and markdown are for paper.",
)  # fmt: skip


def with_unread(sheet: Sheet, outcome: Outcome, ids: Iterable[str], *, whole: bool) -> Sheet:
    """The sheet with what could not be read of the engines that some parts or records are of."""
    from axlebook.reports.of_engine import unread_words_of

    return replace(sheet, not_read=unread_words_of(outcome.book, ids, outcome.findings, whole=whole))


def put_sheet(sheet: Sheet, report: Report, shape: str, *, color: bool | None, whole: bool) -> None:
    """Print a sheet to standard output, with the findings that turn the exit code, and where the ledger stands."""
    from axlebook.reports.sheet_findings import with_findings

    from . import terminal

    commit = report.revision.commit
    if commit:
        changed = ", and changed since" if report.revision.dirty else ""
        sheet = replace(sheet, revision=f"Ledger at commit {commit[:12]}{changed}.")
    sheet = with_findings(sheet, report)
    if shape == "json":
        from axlebook.reports.as_json import render_report

        terminal.put(render_report(report, sheet.result()))
    elif shape == "markdown":
        from axlebook.reports.sheet_markdown import render_markdown

        terminal.put_exact(render_markdown(sheet))
    elif shape == "html":
        from axlebook.reports import html

        terminal.put_exact(html.render_sheet(sheet))
    else:
        from axlebook.reports.sheet_text import render_sheet

        look = terminal.look(color)
        terminal.put(render_sheet(sheet, look, whole=whole), color=look.color)
