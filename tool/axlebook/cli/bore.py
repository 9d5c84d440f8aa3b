"""`axlebook bore`: the order sheet for the machine shop, from a measured center and the adopted allowance."""

from __future__ import annotations

import click

from .options import ALL, AS_OF, COLOR, LEDGER, STRICT, options
from .sheet_printed import SHEET_FORMAT, put_sheet, with_unread


@click.command()
@click.argument("center")
@options(SHEET_FORMAT, AS_OF, LEDGER, STRICT, ALL, COLOR)
def command(
    center: str, shape: str, as_of: str | None, ledger: str | None, strict: bool, whole: bool, color: bool | None
) -> int:
    """Write the order sheet for the machine shop: the bore for one measured center.

    From the center's readings and the adopted shrinkage allowance: bore at 68 degF with its tolerance, what to read
    at other temperatures, what to measure and send back. Exit 1: no tolerance can be given, an order on record reaches
    beyond it, or a finding on the center or its tire counts.

    \b
      axlebook bore d-3-left
      axlebook bore d-3-left --format html > order.html
    """
    from axlebook.reports.bore_view import bore_sheet

    from . import opened, reported
    from .fit_records import about, order

    found, asked = opened.open_ledger(ledger), opened.asked_day(as_of)
    outcome = reported.run(found, asked)
    made = order(outcome, center)
    parts = (center, *(tire.id for tire in made.tires))
    report = reported.report_of("bore", about(parts, outcome), found, asked, with_git=shape != "text")
    sheet = with_unread(bore_sheet(outcome.book, made, report.day), outcome, parts, whole=whole or shape != "text")
    put_sheet(sheet, report, shape, color=color, whole=whole)
    return int(sheet.alarms or report.fails(strict=strict))
