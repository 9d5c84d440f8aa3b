"""Sheets as LibreOffice saves them (tests/cli/fixtures/README.md), and the ways a file can be written."""

from __future__ import annotations

from datetime import datetime
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from openpyxl import Workbook
from tests.cli.commands import call
from tests.cli.sheets import FIXTURES, importing, records, row, said, sheet, small_ledger, tree_at

RECORD = "inspections/2026/2026-01-10-e-1-annual.yaml"
NOTE = 'shop said "62", é ½ ° seen'


@pytest.fixture
def ledger(tmp_path: Path) -> Path:
    return small_ledger(tmp_path)


def saved(ledger: Path, name: str, *arguments: str) -> Any:
    return call("import", str(FIXTURES / name), *arguments, at=ledger)


@pytest.mark.parametrize("name", ["typed.csv", "semicolons.csv", "tabs-utf16.csv", "windows-1252.csv", "typed.xlsx"])
def test_one_sheet_saved_in_five_ways_gives_one_record(ledger: Path, name: str) -> None:
    assert saved(ledger, name, "--write").code == 0
    tree = tree_at(ledger, RECORD)
    assert [one["values"] for one in tree["readings"]] == [
        {"0 deg": "2 7/16 in", "120 deg": "2.4375 in"},
        {"240 deg": "62 mm"},
    ]
    assert tree["readings"][1]["note"] == NOTE
    assert tree["observations"] == [{"looked_for": "crack", "place": "driver-1 left", "answer": "not seen"}]
    assert tree["not_measured"] == [{"quantity": "flange_height", "places": ["driver-1 left"], "because": "no access"}]


def test_a_sheet_imported_as_csv_is_on_record_when_it_comes_as_a_workbook(ledger: Path) -> None:
    saved(ledger, "semicolons.csv", "--write")
    before = records(ledger)
    assert "5 on record already" in said(saved(ledger, "typed.xlsx", "--write"))
    assert records(ledger) == before


def test_how_a_file_was_read_is_told(ledger: Path) -> None:
    assert "UTF-8, separated by semicolons" in said(saved(ledger, "semicolons.csv"))
    assert "UTF-16, separated by tabs" in said(saved(ledger, "tabs-utf16.csv"))
    assert "not UTF-8, so read as Windows-1252" in said(saved(ledger, "windows-1252.csv"))
    assert "workbook, sheet 'typed'" in said(saved(ledger, "typed.xlsx"))


def test_what_was_exported_comes_back_from_libreoffice_as_what_is_on_record_already(ledger: Path) -> None:
    saved(ledger, "typed.csv", "--write")
    before = records(ledger)
    exported = call("export", "--existing", at=ledger).out.replace("\r\n", "\n")
    assert exported.encode() == (FIXTURES / "exported.csv").read_bytes().replace(b"\r\n", b"\n")  # git turns ends
    for name in ("exported.csv", "exported.xlsx"):
        called = saved(ledger, name, "--write")
        assert called.code == 0
        assert "0 rows new, 5 on record already" in said(called), name
    assert records(ledger) == before


def test_a_sheet_opened_in_the_wrong_encoding_is_refused_where_signs_are_spoilt(ledger: Path) -> None:
    called = saved(ledger, "opened-wrongly.xlsx", "--write")
    assert called.code == 2
    assert "the sheet was opened in another encoding than it was written in" in said(called)
    assert "Open the CSV anew and choose Unicode (UTF-8)." in said(called)
    assert records(ledger) == {}


def test_a_sheet_opened_in_the_wrong_encoding_is_taken_where_nothing_in_it_could_be_spoilt(ledger: Path) -> None:
    text = "\ufeff".encode().decode("cp1252") + sheet(row()).replace('"', "")
    assert importing(ledger, text.encode(), "--write").code == 0
    assert list(records(ledger)) == [RECORD]


def test_a_date_that_libreoffice_made_of_a_fraction_is_refused_in_a_workbook(ledger: Path) -> None:
    called = saved(ledger, "spoilt.xlsx", "--write")
    assert called.code == 2
    assert "row 2, value: 2026-01-16 is a date" in said(called)
    assert "most likely of 1/16" in said(called)
    assert records(ledger) == {}


def test_a_fraction_that_libreoffice_rounded_on_saving_is_refused_in_a_csv(ledger: Path) -> None:
    called = saved(ledger, "spoilt-saved.csv", "--write")
    assert called.code == 2
    assert "row 3, value: 1 1/5 has no unit of its own" in said(called)
    assert "01/16/26 is a date" in said(called)
    assert records(ledger) == {}


def workbook(*cells: tuple[Any, str], heads: str = "value (in)", sheets: int = 1) -> bytes:
    """A workbook with some cells as value, each with its number format."""
    book = Workbook()
    page = book.active
    assert page is not None
    columns = {key: text for key, text in row().items() if key != "value"}
    page.append([*columns, heads])
    for number, (value, shape) in enumerate(cells):
        page.append([*(columns | {"position": f"{number * 10} deg"}).values(), value])
        page.cell(number + 2, len(columns) + 1).number_format = shape
    for number in range(1, sheets):
        book.create_sheet(f"more {number}").append(["what"])
    stream = BytesIO()
    book.save(stream)
    return stream.getvalue()


@pytest.mark.parametrize(
    ("value", "shape", "written"),
    [
        (2.4375, "General", "2.4375 in"),
        (2.4375, "# ?/?", "2 7/16 in"),
        (1.375, "# ??/??", "1 3/8 in"),
        (2.3, "# ?/?", "2.3 in"),
        (53.25, "0.000", "53.250 in"),
        (53.2504, "0.00", "53.2504 in"),
        (3, "General", "3 in"),
        (2.5, '0.00" in"', "2.50 in"),
        ("2 7/16", "@", "2 7/16 in"),
        ("62 mm", "General", "62 mm"),
    ],
)
def test_a_number_of_a_workbook_is_taken_as_it_is_shown(ledger: Path, value: Any, shape: str, written: str) -> None:
    assert importing(ledger, workbook((value, shape)), "--write", name="a.xlsx").code in (0, 1)
    assert tree_at(ledger, RECORD)["readings"][0]["values"] == {"0 deg": written}


@pytest.mark.parametrize(
    ("value", "shape", "words"),
    [
        (datetime(2026, 5, 8), "d-mmm", "most likely of 5/8"),
        (datetime(1932, 1, 1), "mmm-yy", "1932-01 is a date"),
        ("=1+1", "General", "the cell holds a formula"),
        (0.5, "0%", "in a form of its own (0%)"),
        (46038, "General", "the number a spreadsheet keeps for the day 2026-01-16, most likely of 1/16"),
        (1e30, "General", "the cell holds the number 1e+30"),
        ("#N/A", "General", "#N/A"),
    ],
)
def test_a_cell_that_is_no_reading_is_refused(ledger: Path, value: Any, shape: str, words: str) -> None:
    called = importing(ledger, workbook((2.5, "General"), (value, shape)), "--write", name="a.xlsx")
    assert called.code == 2
    assert "row 3, value" in said(called)
    assert words in said(called)
    assert records(ledger) == {}


def test_a_number_of_a_workbook_without_a_unit_is_refused(ledger: Path) -> None:
    called = importing(ledger, workbook((2.5, "General"), heads="value"), name="a.xlsx")
    assert "2.5 has no unit" in said(called)


def test_of_several_sheets_one_is_named(ledger: Path) -> None:
    content = workbook((2.5, "General"), sheets=2)
    refused = importing(ledger, content, name="a.xlsx")
    assert refused.code == 2
    assert "it has several sheets; name one with --sheet: 'Sheet', 'more 1'" in refused.err
    assert importing(ledger, content, "--sheet", "Sheet", name="a.xlsx").code == 0
    assert "it has no sheet 'x'" in importing(ledger, content, "--sheet", "x", name="a.xlsx").err


def test_a_workbook_is_known_by_its_content_not_by_its_name(ledger: Path) -> None:
    assert "workbook" in said(importing(ledger, workbook((2.5, "General")), name="a.csv"))
    assert "separated by commas" in said(importing(ledger, sheet(row()), name="a.xlsx"))


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_every_encoding_separator_and_line_end_gives_the_same(
    ledger: Path, separator: str, encoding: str, end: str
) -> None:
    text = sheet(row(note="Größe ½"), separator=separator).replace("\r\n", end)
    assert importing(ledger, text.encode(encoding), "--write").code == 0
    assert 'note: "Größe ½"' in records(ledger)[RECORD]


def test_a_first_line_that_names_the_separator_is_obeyed_and_rows_are_counted_with_it(ledger: Path) -> None:
    called = importing(ledger, "sep=;\r\n" + sheet(row(value="2.5"), separator=";"))
    assert "row 3, value" in said(called)


def test_a_line_break_in_a_note_does_not_move_the_row_numbers(ledger: Path) -> None:
    called = importing(ledger, sheet(row(note="two\r\nlines"), row(value="2.5", position="90 deg")))
    assert "row 3, value" in said(called)
