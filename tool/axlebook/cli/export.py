"""`axlebook export`: a sheet of readings to fill in or of those on record, or the whole ledger as tables."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from . import CannotRun, say
from .options import AS_OF, AT, FORMAT, LEDGER, options
from .output_file import OUTPUT, require_new

if TYPE_CHECKING:
    from axlebook.records.book import Book
    from axlebook.reports.rows_view import SheetRow
    from axlebook.run import Outcome

    from .opened import Opened

WORKBOOKS = (".xlsx", ".xlsm", ".xls", ".ods")
SEPARATORS = {"comma": ",", "semicolon": ";", "tab": "\t"}


@click.command()
@click.argument("about", metavar="[ENGINE|WHEELSET|TIRE]", required=False)
@click.option("--purpose", metavar="PURPOSE", help="The occasion whose plan is asked; annual where none is given.")
@click.option("--existing", is_flag=True, help="The readings on record, in place of a sheet to fill in.")
@click.option("--day", metavar="DATE", help="Fill in the day of measuring.")
@click.option("--by", metavar="PERSONS", help="Fill in who measures.")
@click.option(
    "--separator",
    type=click.Choice(list(SEPARATORS)),
    default="comma",
    show_default=True,
    help="Semicolon where the spreadsheet's decimal mark is a comma.",
)
@click.option("--tables", metavar="DIR", help="Write the whole ledger as tables into a new folder.")
@click.option("--parquet", is_flag=True, help="With --tables: Parquet files, which need axlebook[tables].")
@options(OUTPUT, FORMAT, AS_OF, AT, LEDGER)
def command(
    about: str | None, purpose: str | None, existing: bool, day: str | None, by: str | None, separator: str,
    tables: str | None, parquet: bool, output: str | None, shape: str, as_of: str | None, at: str | None,
    ledger: str | None,
) -> int:  # fmt: skip
    """Write a sheet for a spreadsheet: a row for each reading that the plans ask for, its figure left empty.

    Fill it in, save it as CSV or .xlsx, and look at what `axlebook import FILE` makes of it. Each row bears a key; a
    head in parentheses is for the eye and is not read back. With --tables the whole ledger is written as tidy tables
    for DuckDB, pandas or Spark, with a README that tells every column.

    \b
      axlebook export e-12 --purpose annual -o e-12.csv
      axlebook export d-1 --day 2026-03-07 --by "lead v3" -o d-1.csv
      axlebook export --existing -o all.csv
      axlebook export --tables tables/
    """
    from . import opened, reported

    _require_a_way(about, purpose, existing, tables, parquet, output, shape)
    found, asked = opened.open_ledger(ledger, at=at), opened.asked_day(as_of)
    said = {"measured_on": _day(day), "by": " ".join((by or "").replace(",", " ").split())}
    if tables is not None:
        outcome = reported.run(found, asked)
        from .tables_written import write_tables

        result = write_tables(found, outcome, tables, parquet=parquet)
        return _tell(found, outcome, result, shape, asked)
    require_new(output)
    outcome = reported.run(found, asked)
    rows, left = _existing(outcome.book, about) if existing else (
        _asked(outcome.book, about, purpose or "annual", said), []
    )  # fmt: skip
    if not rows:
        raise CannotRun(_nothing(about, existing))
    from axlebook.reports.rows_view import sheet_csv

    from .output_file import put

    put(sheet_csv(rows, template=not existing, separator=SEPARATORS[separator]), output)
    if left:
        say(f"Left out, for a row names a place or a part: what was not measured and names neither. {'; '.join(left)}.")
    told = {"left_out": left} if existing else {}
    return _tell(found, outcome, {"path": output or "", "rows": len(rows), **told}, shape, asked)


def _require_a_way(
    about: str | None, purpose: str | None, existing: bool, tables: str | None, parquet: bool, output: str | None,
    shape: str,
) -> None:  # fmt: skip
    if tables is not None and (about or purpose or existing or output):
        raise CannotRun("--tables writes the whole ledger: leave out what is chosen, and -o.")
    if output is not None and output.lower().endswith(WORKBOOKS):
        raise CannotRun("a sheet is written as CSV: name it .csv; the spreadsheet opens it and saves it as .xlsx.")
    if parquet and tables is None:
        raise CannotRun("--parquet goes with --tables DIR.")
    if existing and purpose:
        raise CannotRun("--existing gives what is on record, whatever the purpose: leave out --purpose.")
    if shape == "json" and output is None and tables is None:
        raise CannotRun("name a file with -o: the sheet and the report cannot both be printed.")


def _day(text: str | None) -> str:
    from axlebook.records.forms import is_day_or_less

    from .opened import no_day

    if text is not None and not is_day_or_less(text):
        raise no_day("--day:", text, "2026-03-07")
    return text or ""


def _asked(book: Book, about: str | None, purpose: str, said: dict[str, str]) -> list[SheetRow]:
    from axlebook.checks._questions import purposes_for, target_of
    from axlebook.reports.rows_view import asked_rows

    from .sheet_made import target_named

    there = purposes_for(book)
    if purpose not in there:
        plans = f"There are plans for: {', '.join(there)}." if there else "There is no plan at all in plans/."
        raise CannotRun(f"no plan is for {purpose[:60]!r}. {plans}")
    targets = [target_named(book, about)] if about else [target_of(book, id, book.as_of) for id in book.engines]
    return [row for target in targets if target for row in asked_rows(book, target, purpose, said)]


def _existing(book: Book, about: str | None) -> tuple[list[SheetRow], list[str]]:
    """The rows on record, and the records of which something has no row."""
    from axlebook.reports.rows_view import not_in_rows, rows_on_record

    from .sheet_made import target_named

    target = target_named(book, about) if about else None
    return list(rows_on_record(book, target)), not_in_rows(book, target)


def _nothing(about: str | None, existing: bool) -> str:
    of = f" of {about}" if about else ""
    return f"there is no reading{of} on record." if existing else f"no plan asks anything{of} for this purpose."


def _tell(found: Opened, outcome: Outcome, result: dict[str, Any], shape: str, asked: Any) -> int:
    if shape == "json":
        from axlebook.reports.as_json import render_report

        from . import reported, terminal

        report = reported.report_of("export", outcome, found, asked, with_git=True)

        terminal.put(render_report(report._replace(findings=()), result))
    return 0
