"""`import`: shown first, written when asked, whole or not at all, and the same file twice adds nothing."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.cli.commands import AT, THICK, call, promised
from tests.cli.sheets import importing, look, records, row, said, sheet, small_ledger, tree_at

RECORD = "inspections/2026/2026-01-10-e-1-annual.yaml"


@pytest.fixture
def ledger(tmp_path: Path) -> Path:
    return small_ledger(tmp_path)


def test_without_write_the_records_are_shown_and_nothing_is_written(ledger: Path) -> None:
    called = importing(ledger, sheet(row(), look()))
    assert called.code == 0
    assert RECORD in said(called)
    assert "Would be written" in called.out
    assert "1 reading, 1 look" in said(called)
    assert records(ledger) == {}


def test_with_write_the_rows_of_a_session_become_one_record(ledger: Path) -> None:
    rows = (row(), row(position="120 deg", value="2.4375 in"), look(), row(place="driver-1 right", value="62 mm"))
    assert importing(ledger, sheet(*rows), "--write").code == 0
    assert tree_at(ledger, RECORD) == {
        "kind": "inspection",
        "measured_on": "2026-01-10",
        "engine": "e-1",
        "purpose": "annual",
        "by": ["lead"],
        "instruments": ["rule-1"],
        "readings": [
            {
                "quantity": "tire_thickness",
                "place": "driver-1 left",
                "with": "rule-1",
                "values": {"0 deg": "2 7/16 in", "120 deg": "2.4375 in"},
            },
            {
                "quantity": "tire_thickness",
                "place": "driver-1 right",
                "with": "rule-1",
                "values": {"0 deg": "62 mm"},
            },
        ],
        "observations": [{"looked_for": "crack", "place": "driver-1 left", "answer": "not seen"}],
    }


def test_the_new_record_is_sound_in_form(ledger: Path) -> None:
    importing(ledger, sheet(row(), look()), "--write")
    told = promised(call("check", RECORD, "--format", "json", at=ledger).out)
    assert told["counts"]["unreadable"] == 0
    assert {finding["check"] for finding in told["findings"]} <= {
        "required-reading-missing", "report-late", "inspection-overdue",
    }  # fmt: skip


def test_the_same_file_twice_adds_nothing(ledger: Path) -> None:
    content = sheet(row(), look(), row(what="lateral", place="driver-1", position="worst", value="1/8 in"))
    importing(ledger, content, "--write")
    before = records(ledger)
    called = importing(ledger, content, "--write")
    assert called.code == 0
    assert "0 rows new, 3 on record already" in said(called)
    assert "Nothing to add" in called.out
    assert records(ledger) == before


def test_a_reading_that_an_earlier_record_has_in_another_unit_is_on_record(ledger: Path) -> None:
    importing(ledger, sheet(row(value="2 7/16 in")), "--write")
    assert "1 on record already" in said(importing(ledger, sheet(row(value="61.9125 mm"))))


def test_a_reading_on_record_is_known_again_where_its_position_and_plane_are_spelled_otherwise(ledger: Path) -> None:
    flange = row(what="flange_thickness", value="1 1/8 in", instrument="gauge-1", plane="3/8 in above tread")
    importing(ledger, sheet(flange), "--write")
    before = records(ledger)
    again = importing(ledger, sheet({**flange, "position": "000°", "plane": '0.375"  above tread'}), "--write")
    assert "0 rows new, 1 on record already" in said(again)
    assert records(ledger) == before


def test_rows_that_came_later_go_into_a_record_of_their_own(ledger: Path) -> None:
    importing(ledger, sheet(row()), "--write")
    first = (ledger / RECORD).read_bytes()
    assert importing(ledger, sheet(row(), row(position="120 deg")), "--write").code == 0
    assert (ledger / RECORD).read_bytes() == first
    assert list(records(ledger)) == [RECORD.replace("annual", "annual-2"), RECORD]


def test_a_figure_on_record_is_never_altered(ledger: Path) -> None:
    importing(ledger, sheet(row()), "--write")
    before = records(ledger)
    called = importing(ledger, sheet(row(value="2 3/8 in"), row(position="120 deg")), "--write")
    assert called.code == 2
    assert "2026-01-10-e-1-annual has 2 7/16 in there as value, the row 2 3/8 in" in said(called)
    assert "write a correction" in said(called)
    assert records(ledger) == before


def test_a_reading_that_was_corrected_is_on_record_as_it_was_and_as_it_is(ledger: Path) -> None:
    importing(ledger, sheet(row()), "--write")
    correction = (
        "kind: correction\nrecord: 2026-01-10-e-1-annual\nat: /readings/0/values/0 deg\nwas: 2 7/16 in\n"
        "is: 2 3/8 in\nreason: misread\nby: lead\ncorrected_on: 2026-01-12\napproved_by: lead\n"
    )
    (ledger / "corrections").mkdir()
    (ledger / "corrections/2026-01-12-misread.yaml").write_text(correction, encoding="utf-8")
    for value in ("2 7/16 in", "2 3/8 in"):
        assert "1 on record already" in said(importing(ledger, sheet(row(value=value)))), value


def test_sessions_are_told_apart_by_day_engine_purpose_and_people(ledger: Path) -> None:
    rows = (row(), row(measured_on="2026-01-11"), row(purpose="periodic", position="90 deg"), row(by="v1"))
    assert importing(ledger, sheet(*rows), "--write").code == 0
    assert list(records(ledger)) == [
        "inspections/2026/2026-01-10-e-1-annual-2.yaml",
        RECORD,
        "inspections/2026/2026-01-10-e-1-periodic.yaml",
        "inspections/2026/2026-01-11-e-1-annual.yaml",
    ]


def test_one_row_at_fault_keeps_the_whole_file_out(ledger: Path) -> None:
    called = importing(ledger, sheet(row(), row(measured_on="2026-01-11"), row(value="two")), "--write")
    assert called.code == 2
    assert "row 4, value: two: there is no number" in said(called)
    assert records(ledger) == {}


def test_an_empty_row_is_no_reading_and_is_counted(ledger: Path) -> None:
    called = importing(ledger, sheet(row(), row(value="", position="120 deg"), look(seen="")))
    assert "1 row new, 2 empty (not read as anything)" in said(called)


def test_a_number_without_a_unit_is_refused(ledger: Path) -> None:
    called = importing(ledger, sheet(row(value="2.4375")))
    assert called.code == 2
    assert "row 2, value: 2.4375 has no unit. Write 2.4375 in or 2.4375 mm" in said(called)


def test_a_unit_in_the_head_of_the_column_counts_for_all_its_cells(ledger: Path) -> None:
    rows = (row(value="61.9"), row(value="2 7/16 in", position="120 deg"))
    assert importing(ledger, sheet(*rows, heads={"value": "value (mm)"}), "--write").code == 0
    values = tree_at(ledger, RECORD)["readings"][0]["values"]
    assert values == {"0 deg": "61.9 mm", "120 deg": "2 7/16 in"}


def test_a_unit_of_another_dimension_in_the_head_is_refused(ledger: Path) -> None:
    called = importing(ledger, sheet(row(value="2.5"), heads={"value": "value (degF)"}))
    assert "2.5 degF is a temperature, and a length is asked for" in said(called)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("16-Jan", "1/16"), ("Jan-16", "1/16"), ("1/16/2026", "1/16"), ("01/16/26", "1/16"), ("16.01.2026", "1/16"),
        ("2026-01-16", "1/16"), ("2026-01-16 00:00:00", "1/16"), ("8-May", "5/8"), ("16. Mär", "3/16"),
        ("03.04.2026", "3/4"), ("46038", "1/16"),
    ],
)  # fmt: skip
def test_a_date_where_a_fraction_was_is_refused_with_how_to_retype_it(ledger: Path, typed: str, meant: str) -> None:
    called = importing(ledger, sheet(row(value=typed), heads={"value": "value (in)"}))
    assert called.code == 2
    assert f"most likely of {meant}" in said(called)
    assert f"Format the column as text (or type an apostrophe first) and type the fraction again, with its unit: "\
           f"{meant} in." in said(called)  # fmt: skip


def test_a_decimal_that_a_spreadsheet_made_of_a_fraction_is_taken(ledger: Path) -> None:
    assert importing(ledger, sheet(row(value="1.375"), heads={"value": "value (in)"}), "--write").code == 0
    assert "0 deg: 1.375 in" in records(ledger)[RECORD]


def test_a_decimal_comma_is_read_only_where_it_is_said(ledger: Path) -> None:
    content = sheet(row(value="61,9 mm"), separator=";")
    refused = importing(ledger, content)
    assert refused.code == 2
    assert "--decimal comma" in said(refused)
    assert importing(ledger, content, "--decimal", "comma", "--write").code == 0
    assert "0 deg: 61.9 mm" in records(ledger)[RECORD]


def test_a_point_beside_decimal_commas_is_refused_with_all_that_it_may_mean(ledger: Path) -> None:
    def refused(value: str) -> str:
        called = importing(ledger, sheet(row(value=value), separator=";"), "--decimal", "comma", "--write")
        assert called.code == 2
        assert RECORD not in records(ledger)
        return said(called)

    assert "1.250 mm has a point" in (thousands := refused("1.250 mm"))
    assert "it may be 1250 mm, the point between thousands, or 1,250 mm." in thousands
    slip = refused("61.9 mm")
    assert "Write 61,9 mm; or leave out --decimal comma" in slip
    assert "thousands" not in slip
    assert "has a point and a comma" in refused("1.250,5 mm")
    called = importing(ledger, sheet(row(value="2 7/16 in.; 61,9 mm"), separator="\t"), "--decimal", "comma")
    assert called.code == 0


def test_a_day_with_two_meanings_is_refused_until_it_is_said_which(ledger: Path) -> None:
    content = sheet(row(measured_on="1/2/2026"))
    refused = importing(ledger, content)
    assert "1/2/2026 may be 2026-01-02 or 2026-02-01" in said(refused)
    assert "inspections/2026/2026-01-02-e-1-annual.yaml" in said(importing(ledger, content, "--dates", "mdy"))
    assert "inspections/2026/2026-02-01-e-1-annual.yaml" in said(importing(ledger, content, "--dates", "dmy"))


def test_what_rows_do_not_say_may_be_said_once(ledger: Path) -> None:
    rows = (row(measured_on="", by="", purpose=""), row(measured_on="2026-01-11", by="", purpose="", position="90 deg"))
    assert importing(ledger, sheet(*rows)).code == 2
    called = importing(
        ledger, sheet(*rows), "--day", "2026-01-10", "--by", "lead, v1", "--purpose", "annual", "--write"
    )
    assert called.code == 0
    assert list(records(ledger)) == [RECORD, "inspections/2026/2026-01-11-e-1-annual.yaml"]
    assert "- lead\n  - v1\n" in records(ledger)[RECORD]


def test_a_row_whose_key_names_another_row_was_torn_by_sorting(ledger: Path) -> None:
    torn = row(row_key="tire_thickness / driver-1 right / 0 deg")
    called = importing(ledger, sheet(torn))
    assert called.code == 2
    assert "cells of two rows are mixed" in said(called)
    assert "Sort whole rows only" in said(called)


def test_two_rows_of_one_place_are_refused_and_two_readings_in_one_cell_are_taken(ledger: Path) -> None:
    refused = importing(ledger, sheet(row(), row(value="2 1/2 in")))
    assert "row 3: row 2 is of the same place, day and people." in said(refused)
    assert importing(ledger, sheet(row(value="2 7/16 in; 2 1/2 in")), "--write").code == 0
    assert tree_at(ledger, RECORD)["readings"][0]["values"]["0 deg"] == ["2 7/16 in", "2 1/2 in"]


def test_a_second_reader_and_another_instrument_stand_beside_the_first(ledger: Path) -> None:
    rows = (row(), row(instrument="gauge-1", value="2 1/2 in"))
    assert importing(ledger, sheet(*rows), "--write").code == 0
    assert [one["with"] for one in tree_at(ledger, RECORD)["readings"]] == ["rule-1", "gauge-1"]


EXCUSED = {"not_measured_because": "too hot", "value": ""}
WHOLE = {"quantity": "tire_thickness", "places": ["driver-1 left"], "because": "too hot"}


def test_what_was_left_out_at_all_positions_that_the_plan_asks_for_is_said_once(ledger: Path) -> None:
    rows = (row(position=f"{angle} deg", **EXCUSED) for angle in (0, 90, 180, 270))
    assert importing(ledger, sheet(*rows), "--write").code == 0
    assert tree_at(ledger, RECORD)["not_measured"] == [WHOLE]


def test_one_position_left_out_beside_readings_of_the_others_is_named_and_comes_back_as_on_record(ledger: Path) -> None:
    rows = (row(), row(position="120 deg", value="2 1/2 in"), row(position="240 deg", **EXCUSED))
    called = importing(ledger, sheet(*rows), "--write")
    assert called.code == 0
    assert tree_at(ledger, RECORD)["not_measured"] == [WHOLE | {"positions": ["240 deg"]}]
    exported = call("export", "--existing", at=ledger).out
    assert "tire_thickness / driver-1 left / 240 deg" in exported
    assert "0 rows new, 3 on record already" in said(importing(ledger, exported, "--write"))
    earlier = sheet(*rows[:2], row(position="", **EXCUSED))  # as sheets were exported without the position of an excuse
    assert "0 rows new, 3 on record already" in said(importing(ledger, earlier, "--write"))
    assert list(records(ledger)) == [RECORD]


def test_a_position_of_what_was_not_measured_at_all_is_on_record_already(ledger: Path) -> None:
    assert importing(ledger, sheet(row(position="", **EXCUSED)), "--write").code == 0
    assert tree_at(ledger, RECORD)["not_measured"] == [WHOLE]
    assert "0 rows new, 1 on record already" in said(importing(ledger, sheet(row(position="120 deg", **EXCUSED))))
    other = sheet(row(position="120 deg", value="", not_measured_because="no access"))
    assert "has too hot there as not measured because" in said(importing(ledger, other))


def test_a_whole_quantity_left_out_is_not_taken_for_the_one_position_on_record(ledger: Path) -> None:
    assert importing(ledger, sheet(row(position="120 deg", **EXCUSED)), "--write").code == 0
    assert tree_at(ledger, RECORD)["not_measured"] == [WHOLE | {"positions": ["120 deg"]}]
    called = importing(ledger, sheet(row(position="", **EXCUSED)), "--write")
    assert called.code == 2
    assert "has 120 deg there as position, the row nothing" in said(called)


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"seen": "seen"}, "value and seen are both filled in"),
        ({"what": "crack"}, "crack is looked for, and value is filled in"),
        ({"value": "", "seen": "seen"}, "tire_thickness is measured, and seen is filled in"),
        ({"what": "tire_thicknes"}, "Write tire_thickness if that is meant"),
        ({"what": "interference"}, "interference is worked out from center_diameter and tire_bore, never typed"),
        ({"place": ""}, "neither a place nor a part is named"),
        ({"part": "t-1-left"}, "a place and a part are both named"),
        ({"engine": ""}, "a place is named, and no engine"),
        ({"engine": "e-9"}, "there is no engine 'e-9' in this ledger. There are: e-1"),
        ({"position": "400 deg"}, "'400 deg' is no position"),
        ({"position": ""}, "no position is told. Write it such as 90 deg, worst"),
        ({"value": "62 degF"}, "62 degF is a temperature, and a length is asked for"),
        ({"value": "", "note": "by hand"}, "note is filled in, and no reading, answer or reason beside it"),
        ({"place": "driver 1 left"}, "which names no place on an engine"),
        ({"measured_on": "2026-02-30"}, "2026-02-30"),
        ({"by": "the lead!"}, "no person's id"),
        ({"angle": "30 deg"}, "angle says nothing of tire_thickness"),
    ],
)
def test_a_row_at_fault_is_told_by_its_number(ledger: Path, changed: dict[str, str], words: str) -> None:
    called = importing(ledger, sheet(row(position="240 deg"), row(**changed)), "--write", "--all")
    assert called.code == 2
    assert "row 3" in called.out
    assert words in said(called)
    assert records(ledger) == {}


@pytest.mark.parametrize("mark", ["x", "X", "n/a", "N.A.", "-", "--", "\u2013", "none", "?", "/"])
def test_a_mark_in_place_of_a_figure_is_answered_with_where_to_say_why_it_was_not_read(
    ledger: Path, mark: str
) -> None:
    told = said(importing(ledger, sheet(row(value=mark))))
    assert (
        f"row 2, value: {mark} is no figure. Where it was not read, empty the cell and write why into 'not measured "
        "because': no access, no instrument, no time."
    ) in told
    told = said(importing(ledger, sheet(look(seen=mark)))) if mark != "none" else ""
    assert mark == "none" or (
        f"{mark!r} is no answer. Write seen, not seen or unknown; where nobody looked, empty the cell and write why "
        "into 'not measured because'."
    ) in told
    told = said(importing(ledger, sheet(row(value="", **{"not measured because": mark}))))
    assert f"{mark} is no reason. Write one of: no access," in told


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"angle": "worst"}, "row 2, angle: angle says nothing of tire_thickness: it is of what was seen. Where round "
                             "a figure was read stands in 'position': name the column so, or move it there, worst."),
        ({"angle": "90"}, "angle: angle says nothing of tire_thickness: it is of what was seen"),
        ({"what": "flat", "value": "", "seen": "seen", "angle": "90"}, "90 has no unit. Write 90 deg, or put the unit "
                                                                       "into the column's head: angle (deg)."),
        ({"what": "flat", "value": "", "seen": "seen", "angle": "worst"}, "worst: there is no number. Write the angle "
                                                                          "from the datum, such as 140 deg."),
        ({"part temperature": "54"}, "54 has no unit. Write 54 degF or 54 degC, or put the unit into the column's "
                                     "head: part temperature (degF)."),
        ({"what": "flat", "value": "", "seen": "seen", "length": "2"}, "2 has no unit. Write 2 in or 2 mm, or put the "
                                                                       "unit into the column's head: length (in)."),
    ],
)  # fmt: skip
def test_what_a_cell_lacks_is_told_as_its_column_is_written(
    ledger: Path, changed: dict[str, str], words: str
) -> None:
    assert words in said(importing(ledger, sheet(row(**changed))))


@pytest.mark.parametrize(
    ("order", "told"),
    [
        ("dmy", "11/20/2026 has no day by --dates dmy: there is no month 20. Write 2026-11-20 if that is meant; or, "
                "where the whole file has the month first, --dates mdy."),
        ("mdy", "20/11/2026 has no day by --dates mdy: there is no month 20. Write 2026-11-20 if that is meant; or, "
                "where the whole file has the day first, --dates dmy."),
        ("dmy", "31/31/2026 is no day of the calendar. Write it such as 2026-03-07."),
    ],
)  # fmt: skip
def test_a_day_that_is_none_in_the_order_told_is_answered_with_the_one_it_may_be(
    ledger: Path, order: str, told: str
) -> None:
    day = told.partition(" ")[0]
    called = importing(ledger, sheet(row(measured_on=day)), "--dates", order)
    assert f"row 2, measured on: {told}" in said(called)


@pytest.mark.parametrize("head", ["worst", "0 deg", "90", "all round", "Worst"])
def test_a_column_for_a_position_is_answered_with_the_row_that_each_figure_has(ledger: Path, head: str) -> None:
    told = said(importing(ledger, sheet(row(**{head: "2 7/16 in"}))))
    assert (
        f"no column is called {head!r}. Give each figure a row of its own: {head} in the column position, the figure "
        "in the column value."
    ) in told


def test_an_unknown_column_is_refused_and_one_in_parentheses_is_not_read(ledger: Path) -> None:
    refused = importing(ledger, sheet(row(valeu="2 in")))
    assert "no column is called 'valeu'. Write value if that is meant." in said(refused)
    assert importing(ledger, sheet(row(**{"(my remarks)": "31/12/1999"}))).code == 0


def test_a_head_that_people_write_is_answered_with_the_column_it_means(ledger: Path) -> None:
    told = said(importing(ledger, "what,Axle,Measured\nback_to_back,driver-1,53 1/4 in\n"))
    assert "no column is called 'Axle'. Write place if that is meant." in told
    assert "no column is called 'Measured'. Write value if that is meant." in told


@pytest.mark.parametrize("heads", [("Date", "Wheel", "Reading", "Who"), ("day", "wheel", "measurement", "read by")])
def test_the_heads_of_a_sheet_of_one_s_own_are_taken_where_they_mean_one_thing(
    ledger: Path, heads: tuple[str, ...]
) -> None:
    named = dict(zip(("measured on", "place", "value", "by"), heads, strict=True))
    assert importing(ledger, sheet(row(), heads=named), "--write").code == 0
    tree = tree_at(ledger, RECORD)
    assert (tree["measured_on"], tree["by"]) == ("2026-01-10", ["lead"])
    assert tree["readings"][0]["place"] == "driver-1 left"
    assert tree["readings"][0]["values"] == {"0 deg": "2 7/16 in"}


def test_a_place_that_the_engine_has_not_is_refused_and_nothing_is_written(ledger: Path) -> None:
    called = importing(ledger, sheet(row(), row(place="driver-9 left")), "--write")
    assert called.code == 2
    assert "row 3, place: e-1 has no place driver-9" in said(called)
    assert records(ledger) == {}


def test_two_columns_of_one_name_are_refused(ledger: Path) -> None:
    assert "there are two columns 'value'" in said(importing(ledger, "what,value,value\ncrack,,\n"))


def test_what_check_would_find_is_said_before_anything_is_written(ledger: Path) -> None:
    thin = row(what="flange_thickness", place="driver-2 right", position="worst", value="15/16 in",
               instrument="gauge-1", plane="3/8 in above tread")  # fmt: skip
    called = importing(ledger, sheet(row(), thin))
    assert called.code == 1
    assert "Look at these first: row 3: e-1 driver-2 right, flange thickness, worst: 15/16 in" in said(called)
    assert records(ledger) == {}


def test_what_all_readings_of_a_session_share_is_told_once(ledger: Path) -> None:
    held = {"hold": "under the engine", "air_temperature": "54 degF"}
    rows = (
        row(part_temperature="55 degF", **held),
        row(position="120 deg", part_temperature="57 degF", hold=held["hold"]),
    )
    assert importing(ledger, sheet(*rows), "--write").code == 0
    tree = tree_at(ledger, RECORD)
    assert tree["setup"] == {"hold": "under the engine", "air_temperature": "54 degF"}
    assert [one["part_temperature"] for one in tree["readings"]] == ["55 degF", "57 degF"]
    assert "2 on record already" in said(importing(ledger, sheet(*rows)))


def test_a_session_has_one_air_temperature(ledger: Path) -> None:
    called = importing(ledger, sheet(row(air_temperature="54 degF"), row(position="90 deg", air_temperature="60 degF")))
    assert "row 3, air temperature: the session has 54 degF already" in said(called)


def test_a_loose_part_is_named_by_itself(ledger: Path) -> None:
    loose = row(engine="", place="", part="t-1-left", purpose="receiving")
    assert importing(ledger, sheet(loose), "--write").code == 0
    assert list(records(ledger)) == ["inspections/2026/2026-01-10-t-1-left-receiving.yaml"]


def test_a_flat_with_its_sizes_is_taken_and_two_flats_are_told_apart_by_angle(ledger: Path) -> None:
    flat = {"what": "flat", "seen": "yes", "length": "1 1/4 in"}
    rows = (look(angle="140 deg", **flat), look(angle="200 deg", **flat))
    assert importing(ledger, sheet(*rows), "--write").code in (0, 1)
    assert [one["angle"] for one in tree_at(ledger, RECORD)["observations"]] == ["140 deg", "200 deg"]


def test_the_records_in_full_are_shown_with_all(ledger: Path) -> None:
    assert "quantity: tire_thickness" in importing(ledger, sheet(row()), "--all").out


def test_json_tells_the_records_and_the_rows_refused(ledger: Path) -> None:
    told = promised(importing(ledger, sheet(row(), look()), "--write", "--format", "json").out)["result"]
    assert told["rows"] == {"new": 2, "on_record": 0, "empty": 0, "said_twice": 0}
    assert told["records"] == [
        {"id": "2026-01-10-e-1-annual", "path": RECORD, "readings": 1, "looks": 1, "not_measured": 0, "written": True}
    ]
    called = importing(ledger, sheet(row(position="90 deg", value="16-Jan")), "--format", "json")
    assert called.code == 2
    refused = promised(called.out)["result"]["refused"]
    assert [(one["row"], one["column"]) for one in refused] == [(2, "value")]


def test_while_an_inspection_cannot_be_read_nothing_is_added_beside_it(ledger: Path) -> None:
    (ledger / RECORD).parent.mkdir(parents=True)
    (ledger / RECORD).write_text("kind: [", encoding="utf-8")
    called = importing(ledger, sheet(row()), "--write")
    assert called.code == 2
    assert f"{RECORD} cannot be read, and so nobody knows whether these rows stand in it" in called.err
    assert records(ledger) == {RECORD: "kind: ["}


def test_what_an_inspection_on_file_says_is_on_record_too(tmp_path: Path) -> None:
    ledger = small_ledger(tmp_path, {AT: THICK})
    same = row(what="flange_thickness", place="driver-2 right", position="worst", value="1 1/4 in",
               instrument="gauge-1", plane="3/8 in above tread")  # fmt: skip
    assert "0 rows new, 1 on record already" in said(importing(ledger, sheet(same)))


def test_a_wrong_call_is_answered_with_what_to_write(ledger: Path) -> None:
    for arguments, words in (
        (("nowhere.csv",), "there is no file 'nowhere.csv'"),
        ((".",), "is no file"),
        (("ledger.yaml", "--day", "May"), "--day: 'May' is no day"),
        (("ledger.yaml", "--day", "24/11/2026"), "Write 2026-11-24."),
        (("ledger.yaml", "--day", "5/6/2026"), "Write 2026-05-06 or 2026-06-05, whichever is meant."),
        (("ledger.yaml", "--by", "A B"), "--by: 'A' is no id"),
        (("ledger.yaml", "--sheet", "x"), "it is no workbook"),
    ):
        called = call("import", *arguments, at=ledger)
        assert called.code == 2
        assert words in called.err


def test_help_teaches_by_example(ledger: Path) -> None:
    called = call("import", "--help", at=ledger)
    assert "axlebook import e-12.csv --day 2026-03-07" in called.out


def test_rows_that_stand_in_many_records_are_not_said_to_stand_in_a_few(ledger: Path) -> None:
    rows = [row(measured_on=f"{year}-01-10") for year in range(2010, 2022)]
    importing(ledger, sheet(*rows), "--write")
    told = said(importing(ledger, sheet(*rows)))
    assert re.search(r"Nothing to add: all of it stands in 2010-01-10-.* and 6 more records\.", told)


def test_what_is_wrong_with_many_rows_alike_is_told_once_with_how_many_and_which(ledger: Path) -> None:
    bare = [row(value=f"2 {above}/16", position=f"{30 * above} deg") for above in (1, 3, 5, 7, 9)]
    content = sheet(*bare[:3], row(value="two", position="10 deg"), *bare[3:])
    told = said(called := importing(ledger, content))
    assert "Nothing was written: 6 places cannot be taken as they stand." in told
    assert (
        "row 2, value: 2 1/16 has no unit. Write 2 1/16 in or 2 1/16 mm, or put the unit into the column's head: value "
        "(in). The same in 4 more rows: 3-4, 6-7."
    ) in told
    assert "row 5, value: two: there is no number." in told
    assert called.out.count("has no unit") == 1
    whole = importing(ledger, content, "--all")
    assert whole.out.count("has no unit") == 5
    assert "The same in" not in whole.out
    assert "row 7, value: 2 9/16 has no unit." in said(whole)


def test_of_rows_alike_that_lie_apart_the_first_are_named(ledger: Path) -> None:
    rows = [row(value="2 1/16" if n % 2 else "2 in", position=f"{n} deg") for n in range(30)]
    assert "The same in 14 more rows: 5, 7, 9, 11, 13, 15 and on." in said(importing(ledger, sheet(*rows)))


def test_what_is_wrong_in_ways_of_their_own_beyond_the_first_is_counted(ledger: Path) -> None:
    rows = [row(value=text, position=f"{n} deg") for n, text in enumerate(["a", "b", "c", "d", "e", "f", "g", "h"])]
    assert "and 2 more: --all" in said(importing(ledger, sheet(*rows)))


def test_what_may_be_out_is_told_before_it_is_written_and_is_no_fault(ledger: Path) -> None:
    thin = row(what="flange_thickness", place="driver-2 right", position="worst", value="7/8 in", instrument="")
    called = importing(ledger, sheet(thin))
    assert "Look at these first: row 2: e-1 driver-2 right, flange thickness, worst: 7/8 in" in said(called)
    assert called.code == 0


def with_a_slip(ledger: Path) -> str:
    """Two rows, one with its whole number lost and so below a limit too, and one below a limit alone."""
    earlier = row(measured_on="2025-12-10", value="2 13/16 in", purpose="shop")
    assert importing(ledger, sheet(earlier), "--write").code == 0
    thin = row(what="flange_thickness", place="driver-2 right", position="worst", value="15/16 in",
               instrument="gauge-1", plane="3/8 in above tread")  # fmt: skip
    return sheet(row(value="13/16 in"), thin)


def test_json_places_a_finding_at_the_line_that_the_record_would_have(ledger: Path) -> None:
    content = with_a_slip(ledger)
    found = promised(importing(ledger, content, "--format", "json").out)["findings"]
    assert {one["check"] for one in found} == {"tire-thin", "flange-thin", "fraction-lost"}
    assert importing(ledger, content, "--write").code == 1
    lines = (ledger / RECORD).read_text(encoding="utf-8").splitlines()
    thin = next(one for one in found if one["check"] == "tire-thin")
    assert "13/16 in" in lines[thin["line"] - 1][thin["column"] - 1 :]


def test_a_slip_is_told_before_what_it_would_lead_to(ledger: Path) -> None:
    told = said(importing(ledger, with_a_slip(ledger)))
    slip = told.index("row 2: e-1 driver-1 left, tire thickness, 0 deg: 13/16 in (20.6375 mm). Last time")
    thin = told.index("Out under")
    assert told.index("Look at these first:") < slip < thin
    assert "2 13/16 in fits" in told[:thin]
