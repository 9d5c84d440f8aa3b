"""`axlebook status`: the condition of every wheel now."""

from __future__ import annotations

import click

from .options import ALL, AS_OF, AT, COLOR, FORMAT, LEDGER, STRICT, options


@click.command()
@options(FORMAT, AS_OF, AT, LEDGER, STRICT, ALL, COLOR)
def command(
    shape: str, as_of: str | None, at: str | None, ledger: str | None, strict: bool, whole: bool, color: bool | None
) -> int:
    """Tell the condition of every wheel now: reading, limit, margin, when and by whom.

    The latest reading of each quantity on the part now fitted, by the tightest limit on file, and how it wears; before
    it what holds the engine back: tags, restrictions, waivers.
    The exit code is that of `check`.
    """
    from axlebook.records.restrictions import restrictions
    from axlebook.reports.condition_view import conditions

    from . import opened, reported, terminal

    found = opened.open_ledger(ledger, at=at)
    asked = opened.asked_day(as_of)
    outcome = reported.run(found, asked, with_history=True)
    report = reported.report_of("status", outcome, found, asked, with_git=shape == "json")
    engines, held = conditions(outcome.book, outcome.findings), restrictions(outcome.book)
    if shape == "json":
        from axlebook.reports.as_json import condition_json, render_report

        terminal.put(render_report(report, condition_json(engines, held)))
    else:
        from axlebook.reports.condition_text import render_condition

        look = terminal.look(color)
        terminal.put(render_condition(report, engines, held, look, whole=whole), color=look.color)
    return int(report.fails(strict=strict))
