"""`axlebook due`: what falls due, by date, by service day; overdue first."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import click

from . import CannotRun, say
from .options import ALL, AS_OF, AT, COLOR, LEDGER, STRICT, options

if TYPE_CHECKING:
    from collections.abc import Iterable

    from axlebook.findings import Finding
    from axlebook.reports.due_view import DueList
    from axlebook.reports.view import Report
    from axlebook.run import Outcome

LONGEST = 240  # months; twenty years hold every interval there is
FORMAT = click.option(
    "--format", "shape", type=click.Choice(["text", "json", "markdown", "csv", "ics"]), default="text",
    show_default=True, help="How to print it; ics is a calendar file.",
)  # fmt: skip


@click.command()
@click.argument("paths", nargs=-1, metavar="[PATH]...")
@click.option("--engine", metavar="ENGINE", default="", help="Only what is one engine's.")
@click.option("--months", type=click.IntRange(0, LONGEST), default=12, show_default=True, help="How far to look ahead.")
@click.option("--calendar", is_flag=True, help="A line a month instead of the list.")
@click.option("--alarm", type=click.IntRange(0, 365), metavar="DAYS", help="With ics: remind so many days before.")
@options(FORMAT, AS_OF, AT, LEDGER, STRICT, ALL, COLOR)
def command(
    paths: tuple[str, ...],
    engine: str,
    months: int,
    calendar: bool,
    alarm: int | None,
    shape: str,
    as_of: str | None,
    at: str | None,
    ledger: str | None,
    strict: bool,
    whole: bool,
    color: bool | None,
) -> int:
    """Tell what falls due: inspections, examinations, certificates, re-checks, waivers; overdue first.

    PATH, a file or folder of the ledger, chooses what is shown. The exit code is 1 when something shown is overdue, or
    could not be read. What was never done on record is not known, and said so.

    \b
      axlebook due                            the next twelve months
      axlebook due --engine e-12 --calendar   a line a month
      axlebook due --all                      why, by which clause, what was late
      axlebook due --format ics > due.ics     a file for a calendar
    """
    from axlebook.reports.due_view import due_list

    from . import opened, reported, terminal
    from .engines import engine_named

    if alarm is not None and shape != "ics":
        raise CannotRun("--alarm is for the calendar file: add --format ics.")
    found = opened.open_ledger(ledger, paths, at)
    asked = opened.asked_day(as_of)
    outcome = reported.run(found, asked, with_history=True)
    engine = engine_named(outcome.book, engine).id if engine else ""
    report = reported.report_of("due", _about_due(outcome, engine), found, asked, with_git=shape == "json")
    waived = {one.fingerprint: one.waived for one in report.findings if one.waived}
    due = due_list(outcome.book, engine=engine, months=months, only=found.only, waived=waived)
    if shape == "text":
        from axlebook.reports import due_text

        look = terminal.look(color, opened.named_again(found), opened.day_again(found, as_of))
        render = due_text.render_calendar if calendar else due_text.render_due
        terminal.put(render(report, due, look, whole=whole), color=look.color)
        return _code(report, due, strict=strict)
    from axlebook.reports import due_files

    if shape == "json":
        from axlebook.reports.as_json import render_report

        terminal.put(render_report(report, due_files.due_json(due)))
    elif shape == "markdown":
        terminal.put(due_files.due_markdown(report, due))
    else:
        from axlebook.reports.unread import unread_line

        terminal.put_exact(due_files.due_csv(due) if shape == "csv" else due_files.due_ics(due, alarm=alarm))
        if told := unread_line(report.findings):  # neither file has a place for it
            say(told)
    return _code(report, due, strict=strict)


def _about_due(outcome: Outcome, engine: str) -> Outcome:
    """The outcome with what the checks of the due list found and what could not be read, of one engine or all."""
    from axlebook.checks import nothing_to_judge
    from axlebook.findings import worst_first
    from axlebook.reports.due_view import CHECKS
    from axlebook.reports.of_engine import of_engine, unread_of

    book, ids = outcome.book, {*CHECKS.values(), "done-late", nothing_to_judge.ID}

    def chosen(many: Iterable[Finding]) -> list[Finding]:
        told = [one for one in many if one.check in ids]
        return of_engine(book, engine, told) if engine else told

    findings, unread = chosen(outcome.findings), unread_of(book, {engine} - {""} or book.engines, outcome.findings)
    within = tuple(chosen(outcome.within))
    return replace(outcome, findings=tuple(sorted((*findings, *unread), key=worst_first)), within=within)


def _code(report: Report, due: DueList, *, strict: bool) -> int:
    """1 where a finding of the due list counts, or something else that is shown ran out."""
    from axlebook.findings import Severity
    from axlebook.reports.due_view import CHECKS

    others = (row.first for row in due.overdue if row.first.kind not in CHECKS)
    return int(report.fails(strict=strict) or any(one.severity is not Severity.NOTE for one in others))
