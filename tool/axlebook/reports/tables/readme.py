"""The page beside the tables: what each holds, column by column, made of the definitions that make the files."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from .columns import Table

SORTS = {"text": "text", "number": "number", "whole": "whole number", "day": "day, YYYY-MM-DD", "yes": "true or false"}
QUERY = """SELECT ledger, thing AS tire, round(min(value_low) * 1000, 1) AS thinnest_mm,
       max(measured_on_last) AS last_read
FROM read_csv('*/readings.csv', union_by_name = true)
WHERE quantity = 'tire_thickness' AND thing_kind = 'tire'
GROUP BY ALL
ORDER BY thinnest_mm"""
_HEAD = """# Tables of a ledger

Written by `axlebook export --tables`, a file a table. The ledger itself is the truth; these are a copy of it to ask
questions of, and nothing reads them back.

- `ledger` stands in every table: tables of many ledgers can be read as one.
- What was written stands as text (`value_text`), exactly; beside it two numbers in SI base units (`value_low`,
  `value_high`) and that unit (`value_si_unit`). One figure has both alike; `under 0.0015 in` has no lower one.
- Corrections are in effect. What is not known is empty: it is never 0, and a missing temperature is never 68 degF.
- In CSV a text that begins with = + - or @ has an apostrophe before it, so that no spreadsheet takes it for a formula;
  a spreadsheet, and who takes the apostrophe away, has it as it was. Parquet holds it as it was.
- Readings are told by the thing they are of (`thing`): it stays with the part when the part moves to another place.
- `findings` reports against the limits on file. Qualified people and the authority having jurisdiction decide.

With DuckDB, over the tables of several ledgers, each in a folder of its own; `duckdb.sql` gives each table as a view
with the types of its columns (a reader that guesses takes `yes` for a truth and a day for a text):

```sql
"""


def readme(tables: Iterable[Table], counts: Mapping[str, int] | None = None, about: str = "") -> str:
    """The page; `counts` are the rows that were written, `about` of which ledger and when."""
    return "\n".join(_lines(tables, counts or {}, about)) + "\n"


def _lines(tables: Iterable[Table], counts: Mapping[str, int], about: str) -> Iterator[str]:
    head, _, rest = _HEAD.partition("\n\n")
    yield head
    yield ""
    if about:
        yield about
        yield ""
    yield f"{rest}{QUERY};"
    yield "```"
    for table in tables:
        rows = f" {counts[table.name]} rows." if table.name in counts else ""
        yield f"\n## {table.name}\n\nA row is {table.row_is}.{rows}\n"
        yield "| column | holds | what it tells |"
        yield "|---|---|---|"
        for column in table.columns:
            yield f"| `{column.name}` | {SORTS[column.sort]} | {column.meaning.replace('|', '/')} |"


TYPES = {"text": "VARCHAR", "number": "DOUBLE", "whole": "BIGINT", "day": "DATE", "yes": "BOOLEAN"}


def views(tables: Iterable[Table], ending: str) -> str:
    """DuckDB's view of each table over all ledgers whose tables lie side by side, the columns typed as defined."""
    lines = [
        "-- The tables of all ledgers that lie side by side, each in a folder of its own; run from the folder above:",
        "--   duckdb -init ONE_OF_THEM/duckdb.sql",
    ]
    for table in tables:
        typed = ", ".join(f"'{column.name}': '{TYPES[column.sort]}'" for column in table.columns)
        source = (
            f"read_parquet('*/{table.name}.parquet', union_by_name = true)"
            if ending == "parquet"
            else f"read_csv('*/{table.name}.csv', header = true, delim = ',', quote = '\"', escape = '\"', "
            f"columns = {{{typed}}})"
        )
        lines.append(f"CREATE OR REPLACE VIEW {table.name} AS SELECT * FROM {source};")
    return "\n".join(lines) + "\n"
