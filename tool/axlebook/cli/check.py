"""`axlebook check`: every check over the whole ledger; worst first."""

from __future__ import annotations

import click

from .options import ALL, AS_OF, AT, COLOR, LEDGER, STRICT, options

SHAPES = click.option(
    "--format",
    "shape",
    type=click.Choice(["text", "json", "sarif", "github"]),
    default="text",
    show_default=True,
    help="How to print it: for a person, for programs, or as annotations of a workflow.",
)


@click.command()
@click.argument("paths", nargs=-1, metavar="[PATH]...")
@options(SHAPES, AS_OF, AT, LEDGER, STRICT, ALL, COLOR)
@click.option("--no-history", is_flag=True, help="Leave out what git tells: who entered, edited or deleted a record.")
def command(
    paths: tuple[str, ...],
    shape: str,
    as_of: str | None,
    at: str | None,
    ledger: str | None,
    strict: bool,
    whole: bool,
    color: bool | None,
    no_history: bool,
) -> int:
    """Check every record and every relation between records; worst first.

    PATH, a file or folder of the ledger, chooses what is shown and counts for the exit code; everything is always
    read. Exit 0: nothing outside. 1: a finding outside, suspect or unreadable that is more than a note and not
    waived. 2: could not run.

    In a git checkout the history is read too: a signed record that was edited is found.

    \b
      axlebook check                                 what weighs most, here
      axlebook check --all                           everything
      axlebook check inspections/2026                in a year's inspections
      axlebook check --as-of 2025-12-31 --strict     as it stood, nothing let pass
      axlebook check --format sarif > findings.sarif
    """
    from . import opened, reported, terminal

    found = opened.open_ledger(ledger, paths, at)
    asked = opened.asked_day(as_of)
    with_git = shape in ("json", "sarif")
    report = reported.report("check", found, asked, with_git=with_git, with_history=not no_history)
    if shape == "json":
        from axlebook.reports.as_json import render_report

        terminal.put(render_report(report))
    elif shape == "sarif":
        from axlebook.reports.as_sarif import render_sarif

        terminal.put(render_sarif(report, beside=found.beside))
    elif shape == "github":
        from axlebook.reports.as_github import render_github

        terminal.put(render_github(report, beside=found.beside))
    else:
        from axlebook.reports import text

        look = terminal.look(color, opened.named_again(found), opened.day_again(found, as_of))
        terminal.put(text.render_report(report, look, whole=whole, beside=found.beside), color=look.color)
    return int(report.fails(strict=strict))
