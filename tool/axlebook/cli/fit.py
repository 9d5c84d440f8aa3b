"""`axlebook fit`: the sheet of a shrink fit, from records or as a what-if from flags."""

from __future__ import annotations

from typing import Any

import click

from axlebook.cli import CannotRun

from .fit_flags import FLAGS, flag_options
from .options import ALL, AS_OF, COLOR, LEDGER, STRICT, options
from .sheet_printed import SHEET_FORMAT, put_sheet, with_unread

ON_THE_DAY = "fitting_temperature"  # the one flag that is told with parts, too


@click.command()
@click.argument("parts", nargs=-1, metavar="[TIRE CENTER]")
@options(SHEET_FORMAT, AS_OF, LEDGER, STRICT, ALL, COLOR)
@flag_options
def command(
    parts: tuple[str, ...],
    shape: str,
    as_of: str | None,
    ledger: str | None,
    strict: bool,
    whole: bool,
    color: bool | None,
    **flags: Any,
) -> int:
    """Plan a shrink fit: interference, pressure, stress, heat, clearance, gauge, loosening.

    With TIRE and CENTER from the records of the ledger; without them as a what-if, from flags alone. Of these flags
    records take only --fitting-temperature: the center as it is read on the day, before the tire goes on. Missing
    temperatures are never taken for 68 degF. Exit 1: outside the practice on file, past the tire's ceiling or yield
    strength, or a finding on these parts counts.

    \b
      axlebook fit t-2601 d-3-left                            by the records
      axlebook fit t-2601 d-3-left --format html > fit.html   the day's sheet
      axlebook fit t-2603 d-1-left --fitting-temperature "52 degF"
      axlebook fit --center-od "44.000 in" --bore "43.953 in" --at-68 \\
          --fitting-temperature "60 degF" --tire-od "50 in" \\
          --tire-width "5 3/4 in" --seat-width "5 1/2 in" --solid
    """
    told = [FLAGS[name].flag for name, value in flags.items() if value not in (None, False)]
    if not parts and not told:
        raise CannotRun("fit needs TIRE and CENTER, or for a what-if --center-od, --bore and more (fit --help).")
    if parts:
        strange = [flag for flag in told if flag != FLAGS[ON_THE_DAY].flag]
        if strange:
            raise CannotRun(
                f"{strange[0]} belongs to a what-if, and the figures of {' '.join(parts)} are those on record: leave "
                "it out, or the parts. What was measured otherwise goes into the records."
            )
        if len(parts) != 2:
            raise CannotRun(f"fit needs two parts, TIRE and CENTER; given: {', '.join(parts)[:60]}.")
        return _from_records(parts, flags[ON_THE_DAY], shape, as_of, ledger, strict, whole, color)
    if ledger is not None:
        raise CannotRun("--ledger has no use in a what-if: it reads no ledger.")
    return _what_if(flags, shape, as_of, whole, color)


def _from_records(
    parts: tuple[str, ...], fitting: str | None, shape: str, as_of: str | None, ledger: str | None, strict: bool,
    whole: bool, color: bool | None,
) -> int:  # fmt: skip
    from axlebook.reports.fit_view import fit_sheet

    from . import opened, reported
    from .fit_flags import Given
    from .fit_records import about, story

    on_the_day = Given({ON_THE_DAY: fitting}).find(ON_THE_DAY)
    found, asked = opened.open_ledger(ledger), opened.asked_day(as_of)
    outcome = reported.run(found, asked)
    report = reported.report_of("fit", about(parts, outcome), found, asked, with_git=shape != "text")
    brief = shape == "text" and not whole
    sheet = fit_sheet(story(outcome, parts[0], parts[1], report.day, on_the_day, brief=brief))
    sheet = with_unread(sheet, outcome, parts, whole=not brief)
    put_sheet(sheet, report, shape, color=color, whole=whole)
    return int(sheet.alarms or report.fails(strict=strict))


def _what_if(flags: dict[str, Any], shape: str, as_of: str | None, whole: bool, color: bool | None) -> int:
    from axlebook.reports.fit_view import fit_sheet
    from axlebook.reports.view import Report

    from . import opened
    from .fit_flags import what_if

    asked = opened.asked_day(as_of)
    day = opened.day_told(asked or opened.today(), asked, None)
    counts = dict.fromkeys(
        ("read", "checked", "within", "outside", "suspect", "undecided", "not_assessed", "unreadable"), 0
    )
    sheet = fit_sheet(what_if(flags, brief=shape == "text" and not whole))
    put_sheet(sheet, Report("fit", day, counts, ()), shape, color=color, whole=whole)
    return int(sheet.alarms)
