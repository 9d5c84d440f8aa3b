"""`axlebook braking`: an estimate of when each tire of an engine would lose its grip under the brake."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from . import CannotRun
from .braking_flags import asked, flag_options
from .engines import engine_named
from .options import ALL, AS_OF, COLOR, LEDGER, options

if TYPE_CHECKING:
    from axlebook.records.engine import Engine

FORMATS = ("text", "json", "markdown", "html", "svg")


@click.command()
@click.argument("engine")
@click.option("--tire", "only", metavar="TIRE", help="This tire alone.")
@flag_options
@click.option("--format", "shape", type=click.Choice(FORMATS), default="text", show_default=True, help="How to print.")
@options(AS_OF, LEDGER, ALL, COLOR)
def command(
    engine: str, only: str | None, powers: tuple[str, ...], shape: str, as_of: str | None, ledger: str | None,
    whole: bool, color: bool | None, **flags: str | None,
) -> int:  # fmt: skip
    """Estimate when each tire of ENGINE would lose its grip under the brake, on the lowest assumptions.

    It is not an operating instruction and no permission to hold a brake. From the measured fit and the present
    thickness of each tire: the temperature at which the model has no grip left, new and worn; minutes at stated powers
    or on a grade; degrees a stop. What is taken for granted is listed, and each of it can be replaced by a flag.

    The exit code says only whether it could be worked out; what is outside a limit now, `check` answers.

    \b
      axlebook braking e-12
      axlebook braking e-12 --speed "15 mph" --grade "2 percent" \\
          --train "450000 lb"
    """
    from axlebook.records.brake_case import tire_cases
    from axlebook.records.brake_load import brake_load
    from axlebook.reports.amounts import Amounts
    from axlebook.reports.braking_sums import tire_sums
    from axlebook.reports.braking_view import braking_sheet
    from axlebook.reports.unread import in_line, unread_refusal

    from . import opened, reported, terminal
    from .braking_printed import printed
    from .sheet_printed import with_unread

    found, day, wanted = opened.open_ledger(ledger), opened.asked_day(as_of), asked(flags, powers)
    outcome = reported.run(found, day)
    chosen = engine_named(outcome.book, engine)
    cases = [case for case in tire_cases(outcome.book, chosen, wanted) if only in (None, case.tire)]
    if not cases:
        why = f"there is no tire {only} on engine {chosen.id} now." if only else _bare(chosen)
        raise CannotRun(f"{why}{unread_refusal(outcome.findings)}")
    load = brake_load(outcome.book, chosen, wanted)
    sums = [one for case in cases if (one := tire_sums(case, load)) is not None]
    report = reported.report_of("braking", outcome, found, day, with_git=shape == "json")
    metric = outcome.book.in_mm(chosen)
    show = Amounts(metric)
    sheet = braking_sheet(chosen, cases, sums, load, show, report.day)
    sheet = with_unread(sheet, outcome, [chosen.id], whole=whole or shape != "text")
    look = terminal.look(color)
    terminal.put(printed(shape, sheet, sums, report, metric=metric, look=look, whole=whole), color=look.color)
    if shape == "svg" and sheet.not_read:  # a drawing has no place for it
        click.echo(in_line(sheet.not_read), err=True)
    return 0


def _bare(engine: Engine) -> str:
    return f"no tire stands on engine {engine.id} now."
