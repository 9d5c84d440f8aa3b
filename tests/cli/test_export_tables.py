"""`export --tables`: every row with its ledger, exact text beside SI numbers, columns as documented, for DuckDB."""

from __future__ import annotations

import csv
import re
from pathlib import Path
from typing import Any

import duckdb
import pytest
from pyarrow import parquet
from tests.cli.commands import AT, THIN, TOP, call, promised, small_ledger

from axlebook.reports.tables import TABLES
from axlebook.reports.tables.readme import QUERY, readme
from axlebook.sources.parquet import SORTS

DEMO = TOP / "demo-ledger"


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's tables, as CSV and as Parquet."""
    folder = tmp_path_factory.mktemp("tables")
    assert call("export", "--tables", "csv", "--ledger", str(DEMO), at=folder).code == 0
    assert call("export", "--tables", "parquet", "--parquet", "--ledger", str(DEMO), at=folder).code == 0
    return folder


def rows_of(file: Path) -> list[dict[str, str]]:
    """The rows of a table."""
    with file.open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def two_ledgers(folder: Path) -> None:
    """The tables of two ledgers of other names, side by side."""
    for name, railway, value in (("north", "North (invented)", "15/16 in"), ("south", "South (invented)", "30 mm")):
        root = small_ledger(folder / name, {AT: THIN.replace("15/16 in", value)})
        record = (root / "ledger.yaml").read_text(encoding="utf-8")
        (root / "ledger.yaml").write_text(record.replace("Test railway (invented)", railway), encoding="utf-8")
        assert call("export", "--tables", f"../../tables/{name}", at=root).code == 0


def test_every_table_has_the_columns_it_says_in_both_forms(demo: Path) -> None:
    for table in TABLES:
        names = [column.name for column in table.columns]
        assert names[0] == "ledger", table.name
        assert len(set(names)) == len(names), table.name
        with (demo / "csv" / f"{table.name}.csv").open(encoding="utf-8", newline="") as stream:
            assert next(csv.reader(stream)) == names
        held = parquet.read_schema(demo / "parquet" / f"{table.name}.parquet")
        assert {field.name: str(field.type) for field in held} == {
            column.name: SORTS[column.sort].replace("date32", "date32[day]") for column in table.columns
        }


def test_both_forms_hold_the_same_rows(demo: Path) -> None:
    for table in TABLES:
        first = rows_of(demo / "csv" / f"{table.name}.csv")
        second = parquet.read_table(demo / "parquet" / f"{table.name}.parquet").to_pylist()
        assert first, f"the demo has no row of {table.name}"
        assert len(first) == len(second)
        for one, two in zip(first, second, strict=True):
            assert {key: _cell(one[key]) for key in one} == {key: _text(two[key]) for key in two}


def _text(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return "" if value is None else value if isinstance(value, str) else repr(value) if not hasattr(
        value, "isoformat") else value.isoformat()  # fmt: skip


def _cell(text: str) -> str:
    return text[1:] if text.startswith(("'=", "'+", "'-", "'@")) else text


def test_a_reading_has_its_exact_text_its_si_value_and_its_unit(tmp_path: Path) -> None:
    root = small_ledger(tmp_path, {AT: THIN})
    assert call("export", "--tables", "out", at=root).code == 0
    (one,) = rows_of(root / "out" / "readings.csv")
    assert one["ledger"] == "Test railway (invented)"
    assert (one["value_text"], one["unit"]) == ("15/16 in", "in")
    assert one["value_low"] == one["value_high"] == "0.0238125"  # 15/16 x 25.4 mm
    assert one["value_si_unit"] == "m"
    assert (one["thing_kind"], one["thing"]) == ("tire", "t-2-right")
    assert (one["record"], one["pointer"]) == ("2026-01-10-e-1-annual", "/readings/0/values/worst")
    assert one["part_temperature_low"] == "", "a temperature that nobody read is empty"


def test_an_interval_has_one_bound_and_a_repeat_a_number(tmp_path: Path) -> None:
    text = THIN.replace("worst: 15/16 in", "worst: [15/16 in, under 1 in]")
    root = small_ledger(tmp_path, {AT: text})
    call("export", "--tables", "out", at=root)
    first, second = rows_of(root / "out" / "readings.csv")
    assert (first["repeat"], second["repeat"]) == ("1", "2")
    assert (second["value_low"], second["value_high"]) == ("", "0.0254")


def test_findings_are_those_of_check_and_what_is_within_stands_beside_them(tmp_path: Path) -> None:
    root = small_ledger(tmp_path, {AT: THIN})
    call("export", "--tables", "out", at=root)
    counts = promised(call("check", "--format", "json", at=root).out)["counts"]
    rows = rows_of(root / "out" / "findings.csv")
    for verdict in ("outside", "suspect", "undecided", "not assessed", "within"):
        assert sum(one["verdict"] == verdict for one in rows) == counts[verdict.replace(" ", "_")], verdict


def test_where_a_wheelset_a_center_and_a_tire_were_is_told_with_its_days(demo: Path) -> None:
    rows = rows_of(demo / "csv" / "positions.csv")
    spells = [(one["at"], one["since"], one["until"]) for one in rows if one["part"] == "d-1" and one["on"] == "e-12"]
    assert spells == [("driver-1", "2014-02-15", "2019-11-23"), ("driver-1", "2020-02-08", "")]
    assert {one["kind"] for one in rows} == {"wheelset", "center", "tire"}


def test_the_query_of_the_page_asks_two_ledgers_at_once(tmp_path: Path) -> None:
    two_ledgers(tmp_path)
    query = QUERY.replace("*/readings.csv", f"{tmp_path}/tables/*/readings.csv").replace(
        "tire_thickness", "flange_thickness"
    )
    assert duckdb.connect().execute(query).fetchall() == [
        ("North (invented)", "t-2-right", 23.8, _day("2026-01-10")),
        ("South (invented)", "t-2-right", 30.0, _day("2026-01-10")),
    ]


def test_the_views_that_are_written_beside_have_the_types_of_every_column(tmp_path: Path) -> None:
    two_ledgers(tmp_path)
    views = (tmp_path / "tables/north/duckdb.sql").read_text(encoding="utf-8")
    connection = duckdb.connect()
    connection.execute(views.replace("'*/", f"'{tmp_path}/tables/*/"))
    found = connection.execute("SELECT ledger, value_text, sure FROM readings ORDER BY value_low").fetchall()
    assert found == [("North (invented)", "15/16 in", "yes"), ("South (invented)", "30 mm", "yes")]
    outside = connection.execute("SELECT ledger FROM findings WHERE \"check\" = 'flange-thin' AND verdict = 'outside'")
    assert outside.fetchall() == [("North (invented)",)]
    for table in TABLES:
        connection.execute(f"SELECT count(*) FROM {table.name}").fetchall()


def test_parquet_is_asked_in_the_same_way(demo: Path) -> None:
    views = (demo / "parquet" / "duckdb.sql").read_text(encoding="utf-8")
    connection = duckdb.connect()
    connection.execute(views.replace("'*/", f"'{demo}/parque*/"))
    by_kind = connection.execute("SELECT kind, count(*) FROM parts GROUP BY kind ORDER BY kind").fetchall()
    expected = rows_of(demo / "csv" / "parts.csv")
    assert by_kind == [(kind, sum(one["kind"] == kind for one in expected)) for kind in ("center", "tire", "wheelset")]


def _day(text: str) -> Any:
    from datetime import date

    return date.fromisoformat(text)


def test_the_page_in_schema_is_made_of_the_definitions() -> None:
    held = (TOP / "schema" / "tables.md").read_text(encoding="utf-8")
    assert held == readme(TABLES), "python -m axlebook.cli.tables_written > schema/tables.md"


def test_the_page_beside_the_tables_tells_every_column_and_the_rows(demo: Path) -> None:
    page = (demo / "csv" / "README.md").read_text(encoding="utf-8")
    for table in TABLES:
        rows = len(rows_of(demo / "csv" / f"{table.name}.csv"))
        assert re.search(rf"^## {table.name}\n\nA row is .*\. {rows} rows\.$", page, re.MULTILINE), table.name
        for column in table.columns:
            assert f"| `{column.name}` |" in page


def test_the_same_ledger_on_the_same_day_gives_the_same_bytes(demo: Path, tmp_path: Path) -> None:
    call("export", "--tables", "again", "--ledger", str(DEMO), at=tmp_path)
    for file in sorted((demo / "csv").glob("*.csv")):
        assert (tmp_path / "again" / file.name).read_bytes() == file.read_bytes(), file.name


def test_a_text_that_a_spreadsheet_would_run_is_neutral_and_a_negative_number_is_a_number(tmp_path: Path) -> None:
    text = THIN.replace("15/16 in", "-15/16 in") + "    note: '=1+1'\n"
    root = small_ledger(tmp_path, {AT: text})
    call("export", "--tables", "out", at=root)
    (one,) = rows_of(root / "out" / "readings.csv")
    assert (one["value_text"], one["note"]) == ("'-15/16 in", "'=1+1")
    assert one["value_low"] == "-0.0238125"


def test_a_folder_that_holds_something_is_left_as_it_is(tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    (root / "full").mkdir()
    (root / "full/mine.csv").write_text("mine", encoding="utf-8")
    for name in ("full", "", "ledger.yaml"):
        called = call("export", "--tables", name, at=root)
        assert called.code == 2
        assert "nothing is overwritten" in " ".join(called.err.split())
    assert [path.name for path in (root / "full").iterdir()] == ["mine.csv"]


def test_json_tells_the_tables_that_were_written(tmp_path: Path) -> None:
    root = small_ledger(tmp_path, {AT: THIN})
    told = promised(call("export", "--tables", "out", "--format", "json", at=root).out)["result"]
    assert told["path"] == "out"
    assert {one["name"]: one["rows"] for one in told["tables"]}["readings"] == 1


def test_a_ledger_with_a_record_that_cannot_be_read_is_told_and_its_tables_have_the_rest(tmp_path: Path) -> None:
    root = small_ledger(tmp_path, {AT: THIN, "inspections/2026/2026-01-11-e-1-annual.yaml": "kind: ["})
    assert call("export", "--tables", "out", at=root).code == 0
    assert len(rows_of(root / "out" / "readings.csv")) == 1
    assert "unreadable" in {one["verdict"] for one in rows_of(root / "out" / "findings.csv")}


def test_without_pyarrow_parquet_says_what_to_install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(__import__("sys").modules, "pyarrow", None)
    root = small_ledger(tmp_path)
    called = call("export", "--tables", "out", "--parquet", at=root)
    assert called.code == 2
    assert "pip install 'axlebook[tables]'" in " ".join(called.err.split())
    assert not (root / "out").exists()
