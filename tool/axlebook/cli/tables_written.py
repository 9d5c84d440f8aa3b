"""The tables of a ledger, written into a new folder: all of them, or nothing.

`python -m axlebook.cli.tables_written > schema/tables.md` writes the page of the columns anew.
"""

from __future__ import annotations

import os
import secrets
import shutil
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from . import CannotRun

if TYPE_CHECKING:
    from axlebook.reports.tables import Row, Table
    from axlebook.run import Outcome

    from .opened import Opened

Written = tuple[str, int, bytes]  # a table's name, its rows, its bytes


def write_tables(found: Opened, outcome: Outcome, folder: str, *, parquet: bool) -> dict[str, Any]:
    """Write every table and the page that explains them; give what a JSON report tells of it."""
    from axlebook.reports.tables import TABLES
    from axlebook.reports.tables.readme import readme, views

    from . import say
    from .opened import quoted

    target = Path(os.path.abspath(folder)) if folder and "\0" not in folder else None
    if target is None or (os.path.lexists(target) and (not target.is_dir() or any(target.iterdir()))):
        raise CannotRun(f"{quoted(folder)} is there already and not empty, or is no name: nothing is overwritten.")
    ending = "parquet" if parquet else "csv"
    tables = list(_tables(outcome, parquet=parquet))
    counts = {name: rows for name, rows, _ in tables}
    page = readme(TABLES, counts, _about(found, outcome))
    if parquet:
        page = page.replace("read_csv('*/readings.csv'", "read_parquet('*/readings.parquet'")
    files = {f"{name}.{ending}": content for name, _, content in tables}
    files |= {"duckdb.sql": views(TABLES, ending).encode(), "README.md": page.encode()}
    _put(target, files, folder)
    say(f"Written: {folder} ({len(tables)} tables, {sum(counts.values())} rows; README.md tells every column)")
    return {
        "path": folder,
        "tables": [{"name": name, "path": f"{name}.{ending}", "rows": rows} for name, rows, _ in tables],
    }


def _about(found: Opened, outcome: Outcome) -> str:
    from axlebook.reports.cleaning import clean

    from .reported import standing

    state = standing(found)
    at = f", at commit {state.commit[:12]}{' with uncommitted changes' * bool(state.dirty)}" if state.commit else ""
    railway = clean(outcome.book.ledger.railway) or "a ledger without a name"
    return f"Of {railway}, as of {outcome.book.as_of}{at}."


def _tables(outcome: Outcome, *, parquet: bool) -> Iterator[Written]:
    from axlebook.reports.tables import TABLES
    from axlebook.reports.tables.columns import Source

    source = Source(outcome.book, (*outcome.findings, *outcome.within))
    for table in TABLES:
        rows = list(table.rows(source))
        yield table.name, len(rows), _parquet(table, rows) if parquet else _csv(table, rows)


def _csv(table: Table, rows: list[Row]) -> bytes:
    from axlebook.reports.as_csv import render_csv

    names = [column.name for column in table.columns]
    return render_csv(names, ([row[name] for name in names] for row in rows)).encode("utf-8", "replace")


def _parquet(table: Table, rows: list[Row]) -> bytes:
    from axlebook.sources.parquet import NoParquet, parquet

    names = [column.name for column in table.columns]
    try:
        return parquet(table.columns, ([row[name] for name in names] for row in rows))
    except NoParquet:
        raise CannotRun("Parquet needs pyarrow: pip install 'axlebook[tables]'. CSV needs nothing more.") from None


def _put(target: Path, files: dict[str, bytes], named: str) -> None:
    """Write them beside the folder first, and give it its name when all are there."""
    from axlebook.sources.writing import write_new

    from .opened import quoted

    beside = target.parent / f".{target.name}.{secrets.token_hex(6)}.part"
    try:
        for name, content in files.items():
            write_new(beside / name, content)
        os.replace(beside, target)
    except OSError as error:
        raise CannotRun(f"{quoted(named)} cannot be written ({error.strerror}); nothing was left there.") from None
    finally:
        shutil.rmtree(beside, ignore_errors=True)


if __name__ == "__main__":
    from axlebook.reports.tables import TABLES
    from axlebook.reports.tables.readme import readme

    sys.stdout.write(readme(TABLES))
