"""`axlebook sheet`: paper to take to the wheel, with all that is known beforehand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from .options import AS_OF, AT, LEDGER, options
from .output_file import OUTPUT, put, require_new

if TYPE_CHECKING:
    from axlebook.reports.view import Report

    from .sheet_made import Made

FORMATS = ("html", "markdown", "json")


@click.command()
@click.argument("about", metavar="ENGINE|WHEELSET|TIRE")
@click.option(
    "--purpose", metavar="PURPOSE", help="What for: annual, periodic, shop, receiving, apply; any that has a plan."
)
@click.option(
    "--format", "shape", type=click.Choice(FORMATS), default="html", show_default=True, help="How to print it."
)
@options(OUTPUT, AS_OF, AT, LEDGER)
def command(
    about: str, purpose: str | None, shape: str, output: str | None, as_of: str | None, at: str | None,
    ledger: str | None,
) -> int:  # fmt: skip
    """Write paper sheets to take to the wheel: a page a wheelset, what the plans ask, in walking order.

    Each box shows the last reading, what to expect, when it is out of the limits on file, the unit and the gauge, with
    room for a second person. HTML prints on A4 and Letter in black and white. The sheet's id and the commit at its foot
    tell a stale sheet. An engine or wheelset is asked for `annual` where no purpose is given; a tire that is ordered
    for a center gets its receiving sheet, and once its bore was read the sheet for the day it goes on (`apply`).

    Exit 1: what is worked out for the day a tire goes on is outside what it is held against.

    \b
      axlebook sheet 12 -o annual.html
      axlebook sheet d-3 --purpose shop -o d-3.html
      axlebook sheet t-2603 --purpose receiving -o t-2603.html
      axlebook sheet d-1 --purpose apply -o d-1-tires.html
    """
    from . import opened, reported
    from .fit_records import about as concerning
    from .sheet_made import make, target_named

    require_new(output)
    found, asked = opened.open_ledger(ledger, at=at), opened.asked_day(as_of)
    outcome = reported.run(found, asked)
    target = target_named(outcome.book, about)
    report = reported.report_of("sheet", outcome, found, asked, with_git=True)
    made = make(outcome.book, target, purpose, report.day, _standing(report))
    if shape == "json":
        about_it = concerning(made.parts, outcome)
        report = reported.report_of("sheet", about_it, found, asked, with_git=True)
    put(_rendered(made, report, shape), output)
    return int(made.alarms)


def _standing(report: Report) -> str:
    """Where the ledger stands in git, so that a stale sheet is known."""
    commit = report.revision.commit
    if not commit:
        return "The ledger is not under version control."
    return f"Ledger at commit {commit[:12]}{', WITH UNCOMMITTED CHANGES' if report.revision.dirty else ''}."


def _rendered(made: Made, report: Report, shape: str) -> str:
    if shape == "json":
        from axlebook.reports.as_json import render_report

        return render_report(report, made.result())
    return made.markdown() if shape == "markdown" else made.html()
