"""`export`: a sheet of what the plans ask, or of what is on record, that comes back as it went out."""

from __future__ import annotations

import csv
import io
import shutil
from pathlib import Path

import pytest
from tests.cli.commands import AT, THICK, TOP, call, promised
from tests.cli.sheet_ledger import sheet_ledger
from tests.cli.sheets import importing, records, row, said, sheet, small_ledger

DEMO = TOP / "demo-ledger"


@pytest.fixture
def ledger(tmp_path: Path) -> Path:
    return small_ledger(tmp_path)


def rows_of(text: str, separator: str = ",") -> list[dict[str, str]]:
    """The rows of a CSV that begins with a byte-order mark."""
    assert text.startswith("\ufeff")
    return list(csv.DictReader(io.StringIO(text.removeprefix("\ufeff")), delimiter=separator))


def test_a_sheet_has_a_row_for_each_position_that_the_plan_asks_in_walking_order(ledger: Path) -> None:
    called = call("export", "e-1", "--purpose", "annual", at=ledger)
    assert called.code == 0
    rows = rows_of(called.out)
    assert rows[0]["place"] == "engine-truck-1 left"
    thickness = [one for one in rows if one["what"] == "tire_thickness" and one["place"] == "driver-1 left"]
    assert len(thickness) > 1
    assert thickness[0]["row key"] == f"tire_thickness / driver-1 left / {thickness[0]['position']}"
    assert {one["value"] + one["seen"] + one["measured on"] for one in rows} == {""}
    assert len({one["row key"] for one in rows}) == len(rows)


def test_the_last_reading_and_how_to_take_it_stand_in_heads_that_are_not_read_back(ledger: Path) -> None:
    importing(ledger, sheet(row(measured_on="2025-01-10")), "--write")
    rows = rows_of(call("export", "d-1", "--purpose", "annual", at=ledger).out)
    first = next(one for one in rows if one["row key"] == "tire_thickness / driver-1 left / 0 deg")
    assert first["(last reading)"] == "2 7/16 in (2025-01-10)"
    assert first["(title)"] == "tire thickness"


def test_a_last_reading_that_was_taken_elsewhere_says_where(ledger: Path) -> None:
    importing(ledger, sheet(row(measured_on="2025-01-10")), "--write")
    rows = rows_of(call("export", "d-1", "--purpose", "annual", at=ledger).out)
    other = next(one for one in rows if one["row key"] == "tire_thickness / driver-1 left / 90 deg")
    assert other["(last reading)"] == "2 7/16 in at 0 deg (2025-01-10)"


def test_what_to_expect_is_told_as_on_the_paper_sheet(tmp_path: Path) -> None:
    root = sheet_ledger(tmp_path)
    printed = promised(call("sheet", "d-2", "--purpose", "yearly", "--format", "json", at=root).out)["result"]["rows"]
    exported = rows_of(call("export", "d-2", "--purpose", "yearly", at=root).out)
    assert [one["(expect)"] for one in exported] == [box["expected"] for box in printed]
    assert exported[0]["(expect)"] == "2 27/32 to 2 29/32 in"


def test_a_sheet_as_it_was_exported_adds_nothing(ledger: Path) -> None:
    out = call("export", "e-1", at=ledger).out
    called = importing(ledger, out, "--write")
    assert called.code == 0
    assert "Nothing to add: no row has a value, an answer or a reason." in said(called)
    assert records(ledger) == {}


@pytest.mark.parametrize(("name", "separator"), [("comma", ","), ("semicolon", ";"), ("tab", "\t")])
def test_a_sheet_that_was_filled_in_comes_back_as_a_record(ledger: Path, name: str, separator: str) -> None:
    out = call("export", "e-1", "--day", "2026-01-10", "--by", "lead v1", "--separator", name, at=ledger).out
    rows = rows_of(out, separator)
    for one in rows:
        if one["what"] == "tire_thickness" and one["place"] == "driver-1 left":
            one["value"] = "2 7/16 in"
        if one["what"] == "crack":
            one["seen"] = "not seen"
    stream = io.StringIO()
    writer = csv.DictWriter(stream, list(rows[0]), delimiter=separator)
    writer.writeheader()
    writer.writerows(rows)
    assert importing(ledger, stream.getvalue(), "--write").code == 0
    assert list(records(ledger)) == ["inspections/2026/2026-01-10-e-1-annual.yaml"]


def test_what_is_on_record_goes_out_and_is_on_record_when_it_comes_back(tmp_path: Path) -> None:
    demo = tmp_path / "demo"
    shutil.copytree(DEMO, demo)
    assert call("export", "--existing", "-o", "../all.csv", at=demo).code == 0
    called = call("import", "../all.csv", at=demo)
    assert called.code == 0
    assert " 0 rows new," in said(called)


def test_a_note_of_several_lines_goes_out_on_one_and_is_on_record_when_it_comes_back(tmp_path: Path) -> None:
    ledger = small_ledger(tmp_path, {AT: THICK + "    note: |\n      oil on the rim,\n      wiped off\n"})
    out = call("export", "--existing", at=ledger).out
    assert rows_of(out)[0]["note"] == "oil on the rim, wiped off"
    assert "0 rows new, 1 on record already" in said(importing(ledger, out))


def test_what_acts_on_a_terminal_is_written_out(tmp_path: Path) -> None:
    ledger = small_ledger(tmp_path, {AT: THICK + '    note: "red \\u200b"\n'})
    out = call("export", "--existing", at=ledger).out
    assert "\u200b" not in out
    assert rows_of(out)[0]["note"] == "red \\u200b"


def test_every_inspection_of_a_ledger_can_be_rebuilt_from_the_sheet_row_for_row(tmp_path: Path) -> None:
    demo, bare = tmp_path / "demo", tmp_path / "bare"
    shutil.copytree(DEMO, demo)
    shutil.copytree(DEMO, bare)
    shutil.rmtree(bare / "inspections")
    call("export", "--existing", "-o", "../all.csv", at=demo)
    assert call("import", "../all.csv", "--write", at=bare).code in (0, 1)
    call("export", "--existing", "-o", "../again.csv", at=bare)
    first, again = (rows_of((tmp_path / name).read_text(encoding="utf-8")) for name in ("all.csv", "again.csv"))
    assert first, "a ledger without readings shows nothing"

    def told(rows: list[dict[str, str]]) -> list[list[tuple[str, str]]]:
        return sorted(sorted((key, text) for key, text in one.items() if text) for one in rows)

    assert told(again) == told(first)


def test_existing_readings_of_one_engine_or_part_are_those_of_it_alone(tmp_path: Path) -> None:
    rows = rows_of(call("export", "e-21", "--existing", "--ledger", str(DEMO), at=tmp_path).out)
    assert {one["engine"] for one in rows} == {"e-21"}
    rows = rows_of(call("export", "t-2601", "--existing", "--ledger", str(DEMO), at=tmp_path).out)
    assert {one["part"] for one in rows} == {"t-2601"}


def test_a_file_is_never_written_over(ledger: Path) -> None:
    (ledger / "taken.csv").write_text("mine", encoding="utf-8")
    called = call("export", "e-1", "-o", "taken.csv", at=ledger)
    assert called.code == 2
    assert (ledger / "taken.csv").read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("e-9",), "there is no engine, wheelset, tire or center 'e-9'"),
        (("e-1", "--purpose", "picnic"), "no plan is for 'picnic'"),
        (("--existing",), "there is no reading on record"),
        (("--existing", "--purpose", "annual"), "leave out --purpose"),
        (("e-1", "--tables", "x"), "--tables writes the whole ledger"),
        (("--parquet",), "--parquet goes with --tables"),
        (("e-1", "--format", "json"), "name a file with -o"),
        (("e-1", "--day", "soon"), "is no day"),
        (("e-1", "-o", "e-1.xlsx"), "a sheet is written as CSV: name it .csv"),
    ],
)
def test_a_wrong_call_is_answered_with_what_to_write(ledger: Path, arguments: tuple[str, ...], words: str) -> None:
    called = call("export", *arguments, at=ledger)
    assert called.code == 2
    assert words in " ".join(called.err.split())
    assert called.out == ""


def test_json_tells_the_file_and_its_rows(ledger: Path) -> None:
    told = promised(call("export", "e-1", "-o", "e-1.csv", "--format", "json", at=ledger).out)
    assert told["result"] == {"path": "e-1.csv", "rows": len(rows_of((ledger / "e-1.csv").read_text(encoding="utf-8")))}


def test_an_excuse_that_names_no_place_is_told_to_be_left_out_with_its_record(ledger: Path, tmp_path: Path) -> None:
    excuses = (
        "not_measured:\n  - {looked_for: crack, because: no time}\n"
        "  - {quantity: flange_thickness, places: [driver-2 left], because: no access}\n"
    )
    (ledger / AT).parent.mkdir(parents=True, exist_ok=True)
    (ledger / AT).write_text(THICK + excuses, encoding="utf-8")
    called = call("export", "e-1", "--existing", at=ledger)
    assert [one["not measured because"] for one in rows_of(called.out)] == ["", "no access"]
    told = f"what was not measured and names neither. {AT} (crack)."
    assert called.err == f"Left out, for a row names a place or a part: {told}\n"
    file = str(tmp_path / "out.csv")
    result = promised(call("export", "--existing", "-o", file, "--format", "json", at=ledger).out)["result"]
    assert result["left_out"] == [f"{AT} (crack)"]
    assert call("export", "d-1", "--existing", at=ledger).code == 2  # of it nothing is on record
    (ledger / AT).write_text(THICK, encoding="utf-8")
    assert call("export", "e-1", "--existing", at=ledger).err == ""
