"""`axlebook check`: every check over the whole ledger; worst first."""

from __future__ import annotations

import click

from .options import ALL, AS_OF, AT, COLOR, FORMAT, LEDGER, STRICT, options


@click.command()
@click.argument("paths", nargs=-1, metavar="[PATH]...")
@options(FORMAT, AS_OF, AT, LEDGER, STRICT, ALL, COLOR)
def command(
    paths: tuple[str, ...],
    shape: str,
    as_of: str | None,
    at: str | None,
    ledger: str | None,
    strict: bool,
    whole: bool,
    color: bool | None,
) -> int:
    """Check every record and every relation between records; worst first.

    PATH, a file or folder of the ledger, chooses what is shown and counts for the exit code; everything is always
    read. Exit 0: nothing outside. 1: a finding outside, suspect or unreadable that is more than a note and not
    waived. 2: could not run.
    """
    from . import opened, reported, terminal

    found = opened.open_ledger(ledger, paths, at)
    asked = opened.asked_day(as_of)
    report = reported.report("check", found, asked, with_git=shape == "json")
    if shape == "json":
        from axlebook.reports.as_json import render_report

        terminal.put(render_report(report))
    else:
        from axlebook.reports import text

        look = terminal.look(color)
        terminal.put(text.render_report(report, look, whole=whole, beside=found.beside), color=look.color)
    return int(report.fails(strict=strict))
