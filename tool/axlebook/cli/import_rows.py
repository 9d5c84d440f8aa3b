"""`axlebook import FILE`: readings from a spreadsheet as new records; shown first, written when you say so."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from . import CannotRun
from .options import ALL, COLOR, FORMAT, LEDGER, options

if TYPE_CHECKING:
    from axlebook.records.rows.lines import Ways


@click.command("import")
@click.argument("file", metavar="FILE")
@click.option("--write", "writes", is_flag=True, help="Write the records; without it they are only shown.")
@click.option("--day", metavar="DATE", default="", help="The day, of rows that do not say it.")
@click.option("--purpose", metavar="PURPOSE", default="", help="The occasion, of rows that do not say it.")
@click.option("--by", metavar="PERSONS", default="", help="Who measured, of rows that do not say it.")
@click.option("--engine", metavar="ENGINE", default="", help="The engine, of rows that do not say it.")
@click.option(
    "--decimal",
    type=click.Choice(["point", "comma"]),
    default="point",
    show_default=True,
    help="The file's decimal mark.",
)
@click.option("--dates", type=click.Choice(["mdy", "dmy"]), help="How the file's days are written, where two ways fit.")
@click.option("--sheet", metavar="NAME", default="", help="The sheet of a workbook that has several.")
@options(FORMAT, LEDGER, ALL, COLOR)
def command(
    file: str, writes: bool, day: str, purpose: str, by: str, engine: str, decimal: str, dates: str | None,
    sheet: str, shape: str, ledger: str | None, whole: bool, color: bool | None,
) -> int:  # fmt: skip
    """Make records of the rows of FILE, a CSV or .xlsx that began with `axlebook export`.

    Without --write nothing is written: what would be is shown, with what `check` would find in it. All rows of a file
    are sound, or none is written; an empty row is no reading. A row that is on record already is passed over, so the
    same file twice adds nothing, and a call that was cut off is simply made again. A fraction that the spreadsheet
    made a date of is refused, with how to retype it; so is a number without a unit, unless the head of its column
    has it: value (in).

    \b
      axlebook import e-12.csv
      axlebook import e-12.csv --day 2026-03-07 --by "lead v3" --write
      axlebook import readings.xlsx --sheet "Week 12" --decimal comma
    """
    from axlebook.findings import Verdict

    from .import_made import make, read_file, read_grid, stopped, write
    from .import_printed import put
    from .opened import open_ledger

    ways = _ways(day, purpose, by, engine, decimal, dates)
    found = open_ledger(ledger)
    made = make(found, read_grid(file, read_file(file), sheet), ways)
    written = write(found, made) if writes and not made.wrong else []
    try:
        put(found, file, made, written, shape, whole=whole, color=color)
    except KeyboardInterrupt:
        if not written:
            raise
        raise stopped(written, len(written)) from None
    if made.wrong:
        return 2
    return int(any(one.verdict is not Verdict.UNDECIDED for _, one in made.findings))


def _ways(day: str, purpose: str, by: str, engine: str, decimal: str, dates: str | None) -> Ways:
    from axlebook.records.forms import is_day_or_less, is_id
    from axlebook.records.rows.lines import Ways

    from .opened import no_day, quoted

    if day and not is_day_or_less(day):
        raise no_day("--day:", day, "2026-03-07")
    people = " ".join(by.replace(",", " ").split())
    for option, ids in (("--purpose", [purpose]), ("--by", people.split())):
        for id in ids:
            if id and not is_id(id):
                raise CannotRun(f"{option}: {quoted(id[:40])} is no id: lower-case letters, digits and hyphens.")
    defaults = {"measured_on": day, "purpose": purpose, "by": people, "engine": engine}
    return Ways(defaults, decimal == "comma", dates or "")
