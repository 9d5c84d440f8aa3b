"""`due`: overdue first, twelve months as a list and as a calendar, and for other programs."""

from __future__ import annotations

import csv
import io
import re
from datetime import date
from pathlib import Path

import pytest
from icalendar import Calendar
from tests.cli.commands import TOP, call, promised, small_ledger

DEMO = str(TOP / "demo-ledger")


def test_the_first_screen_of_the_demo_tells_what_is_overdue_worst_first(tmp_path: Path) -> None:
    called = call("due", "--ledger", DEMO, at=tmp_path)
    assert len(called.lines) <= 24
    assert all(len(line) <= 80 for line in called.lines)
    assert called.out.startswith("As of 2026-02-28 (closed): 3 overdue, ")
    first = next(n for n, line in enumerate(called.lines) if line.startswith("✗"))
    assert called.lines[first : first + 3] == [
        "✗ 2026-02-24  e-3: Annual inspection (condemning)",
        "✗ 2023-12-15  e-12 d-4: Driving axles, ultrasonic from both ends (shop)",
        "✗ 2026-02-01  pyrometer-1: Certificate of the contact pyrometer (shop)",
    ]
    assert "e-12, service days since the last 31: 0, 92: 0, annual: 0, 1472: 435 to 476." in called.lines
    assert "A day marked ~ is estimated" in called.out
    assert called.code == 1


def test_a_report_that_nobody_wrote_was_filed_is_overdue_unless_it_was(tmp_path: Path) -> None:
    held = "kind: inspection\nmeasured_on: 2026-02-14\nengine: e-1\npurpose: annual\nby: [lead]\n"
    root = small_ledger(tmp_path, {"inspections/2026/2026-02-14-e-1-annual.yaml": held})
    told = call("due", "--as-of", "2026-02-25", at=root).out
    assert "2026-02-24  e-1: Report of the annual inspection (overdue unless it was done)" in told
    assert "overdue unless" not in call("due", "--as-of", "2026-02-24", at=root).out
    words = " ".join(call("status", "--as-of", "2026-02-25", at=root).out.split())
    assert "Overdue unless it was done: by 2026-02-24, Report of the annual inspection, e-1." in words


def test_an_inspection_without_a_reading_is_named_where_dates_stand_on_it(tmp_path: Path) -> None:
    held = "kind: inspection\nmeasured_on: 2026-02-14\nengine: e-1\npurpose: annual\nby: [lead]\n"
    root = small_ledger(tmp_path, {"inspections/2026/2026-02-14-e-1-annual.yaml": held})
    first = "Counted from an inspection that holds no reading: 2026-02-14-e-1-annual ("
    for command in (("due",), ("due", "--calendar"), ("due", "--all"), ("status",), ("status", "--all")):
        words = " ".join(call(*command, "--as-of", "2026-02-25", at=root).out.split())
        assert first in words, command
    rows = promised(call("due", "--as-of", "2026-02-25", "--format", "json", at=root).out)["result"]["rows"]
    told = next(row["told"] for row in rows if row["title"] == "Annual inspection")
    assert told.endswith("it stands on 2026-02-14-e-1-annual, which holds no reading")


def test_an_inspection_with_a_reading_is_not_named_so(tmp_path: Path) -> None:
    out = call("due", "--ledger", DEMO, at=tmp_path).out + call("status", "--ledger", DEMO, at=tmp_path).out
    assert "holds no reading" not in out


def test_a_piece_of_an_inspection_is_named_beside_the_dates_that_it_does_not_move(tmp_path: Path) -> None:
    held = "kind: inspection\nmeasured_on: 2025-01-14\nengine: e-1\npurpose: annual\nby: [lead]\n"
    piece = "readings:\n- {quantity: flange_height, place: driver-1 left, with: gauge-1, values: {worst: 1 1/8 in}}\n"
    files = {
        "inspections/2025/2025-01-14-e-1-annual.yaml": held,
        "inspections/2026/2026-02-14-d-1-annual.yaml": held.replace("2025-01-1", "2026-02-1") + piece,
    }
    root = small_ledger(tmp_path, files)
    told = "2026-02-14-d-1-annual does not count: partial, nothing on driver-2, engine-truck-1, tender-1."
    for command in (("due",), ("due", "--calendar"), ("due", "--all"), ("status",), ("status", "--all")):
        words = " ".join(call(*command, "--as-of", "2026-02-25", at=root).out.split())
        assert told in words, command
    assert "✗ 2026-01-18  e-1: Annual inspection (condemning)" in call("due", "--as-of", "2026-02-25", at=root).lines


def test_the_calendar_of_twelve_months_fits_a_screen(tmp_path: Path) -> None:
    called = call("due", "--calendar", "--ledger", DEMO, at=tmp_path)
    assert len(called.lines) <= 24
    assert all(len(line) <= 80 for line in called.lines)
    months = [line for line in called.lines if line[:4] in ("2026", "2027")]
    assert [line[:7] for line in months] == [
        *(f"2026-{month:02}" for month in range(2, 13)), "2027-01", "2027-02",
    ]  # fmt: skip
    assert months[1].startswith("2026-03 .................#.............  18 e-12 driver-3")
    assert months[0][8:36] == "." * 28  # February has 28 days


def test_all_tells_why_by_which_clause_and_what_was_late(tmp_path: Path) -> None:
    words = " ".join(call("due", "--all", "--ledger", DEMO, at=tmp_path).out.split())
    assert "368 days from 2025-02-20 end with 2026-02-23" in words
    assert "230.16(a)(1)" in words
    assert "Done late in the past:" in words


def test_one_engine_is_told_alone(tmp_path: Path) -> None:
    called = call("due", "--engine", "e-12", "--ledger", DEMO, at=tmp_path)
    assert "e-3" not in called.out
    assert "✗ 2023-12-15  e-12 d-4" in called.out


def test_an_engine_that_is_not_there_is_answered_with_those_that_are(tmp_path: Path) -> None:
    called = call("due", "--engine", "e-99", "--ledger", DEMO, at=tmp_path)
    assert (called.code, called.out) == (2, "")
    assert "There are: e-12, e-21, e-3." in called.err


def test_a_path_chooses_what_is_shown_and_counts(tmp_path: Path) -> None:
    called = call("due", f"{DEMO}/waivers", at=tmp_path)
    assert called.code == 0
    assert "Waiver of frog-passage" in called.out
    assert "Annual" not in called.out


@pytest.mark.parametrize(
    "arguments", [["--months", "-1"], ["--months", "9999"], ["--alarm", "7"], ["--format", "xlsx"]]
)
def test_a_wrong_call_is_refused(arguments: list[str], tmp_path: Path) -> None:
    called = call("due", *arguments, "--ledger", DEMO, at=tmp_path)
    assert (called.code, called.out) == (2, "")


def test_the_json_keeps_its_promise(tmp_path: Path) -> None:
    told = promised(call("due", "--format", "json", "--ledger", DEMO, at=tmp_path).out)
    result = told["result"]
    assert result["until"] == "2027-02-28"
    assert [row["overdue_since"] for row in result["rows"] if row["verdict"] == "outside"] == [
        "2026-02-24", "2023-12-15", "2026-02-01",
    ]  # fmt: skip
    assert {finding["check"] for finding in told["findings"]} <= {
        "inspection-overdue", "examination-overdue", "certificate-expired", "recheck-overdue", "report-late",
        "done-late", "not-a-measure",
    }  # fmt: skip
    [e12] = [one for one in result["counters"] if one["engine"] == "e-12"]
    assert [c["service_days"] for c in e12["since"]] == ["0", "0", "0", "435 to 476"]
    fingerprints = [row["fingerprint"] for row in result["rows"]]
    assert len(fingerprints) == len(set(fingerprints))


def test_the_csv_has_a_row_a_thing(tmp_path: Path) -> None:
    rows = list(csv.DictReader(io.StringIO(call("due", "--format", "csv", "--ledger", DEMO, at=tmp_path).out)))
    assert [row["subject"] for row in rows[:3]] == ["e-3", "e-12 d-4", "pyrometer-1"]
    assert rows[0]["overdue_since"] == "2026-02-24"


def test_a_record_cannot_put_a_formula_into_the_csv(tmp_path: Path) -> None:
    finding = "finding:\n  check: frog-passage\n  subject: '=cmd|x'\n"
    waiver = f"kind: waiver\n{finding}reason: r\napproved_by: lead\napproved_on: 2026-01-01\nexpires_on: 2026-12-31\n"
    root = small_ledger(tmp_path, {"waivers/2026-01-01-w.yaml": waiver})
    out = call("due", "--format", "csv", at=root).out
    assert "'=cmd|x" in out
    assert ",=cmd" not in out


def test_another_reader_reads_the_calendar_file(tmp_path: Path) -> None:
    called = call("due", "--format", "ics", "--alarm", "14", "--ledger", DEMO, at=tmp_path)
    assert called.out == call("due", "--format", "ics", "--alarm", "14", "--ledger", DEMO, at=tmp_path).out
    assert called.out.count("\n") == called.out.count("\r\n")
    assert all(len(line.encode()) <= 75 for line in called.out.split("\r\n"))
    events = Calendar.from_ical(called.out).walk("VEVENT")
    assert len({str(event["UID"]) for event in events}) == len(events)
    by_title = {str(event["SUMMARY"]): event["DTSTART"].dt for event in events}
    assert by_title["Overdue since 2026-02-24: e-3, Annual inspection"] == date(2026, 2, 28)
    assert by_title["e-12, Annual inspection"] == date(2027, 2, 17)
    assert by_title["Estimated: e-3, 31 service day inspection"] > date(2026, 2, 28)
    assert {len(event.walk("VALARM")) for event in events} == {1}


def test_the_markdown_has_a_list_months_and_counters(tmp_path: Path) -> None:
    out = call("due", "--format", "markdown", "--ledger", DEMO, at=tmp_path).out
    assert "| overdue | 2026-02-24 | e-3: Annual inspection |" in out
    assert "## By month" in out
    assert "## Service days" in out


def test_a_book_that_never_did_anything_is_not_a_pass(tmp_path: Path) -> None:
    called = call("due", at=small_ledger(tmp_path))
    assert "9 not known" in called.out
    assert call("due", "--strict", at=tmp_path / "ledger").code == 1


def test_nothing_in_a_ledger_without_engines_is_due(tmp_path: Path) -> None:
    (tmp_path / "ledger.yaml").write_text("kind: ledger\nrailway: Test railway (invented)\n")
    called = call("due", at=tmp_path)
    assert called.code == 0
    assert "0 overdue" in called.out


@pytest.mark.parametrize("day", ["1000-01-01", "1999-12-31", "2999-12-31", "2024-02-29"])
@pytest.mark.parametrize("shape", ["text", "json", "ics", "csv", "markdown"])
def test_no_day_of_the_calendar_is_too_early_or_too_late(day: str, shape: str, tmp_path: Path) -> None:
    called = call("due", "--format", shape, "--as-of", day, "--months", "240", "--ledger", DEMO, at=tmp_path)
    assert called.code in (0, 1), called.err


ODD_SET = """kind: limit-set
title: Odd intervals (invented)
source: {title: Test notebook, edition: "1", author: lead}
decision: as written
intervals:
- {id: a, every: 0 days, stage: shop, clause: p}
- {id: b, every: 99999999 days, or: 9999 years, which: last, stage: shop, clause: p}
- {id: c, each_year_by: 13-45, stage: shop, clause: p}
- {id: d, each_year_by: 02-29, stage: shop, clause: p}
- {id: e, with_each: nowhere, stage: shop, clause: p}
- {id: f, with_each: f, satisfies: [a, f], stage: shop, clause: p}
- {id: g, every: 5 h, report_within: 2 h, notice: 9999 years, stage: shop, clause: p}
- {id: h, every: 0 service days, stage: shop, clause: p}
- {id: i, every: 1 year, of: instrument, stage: shop, clause: p}
"""


def test_a_set_with_odd_intervals_is_answered_and_never_a_crash(tmp_path: Path) -> None:
    root = small_ledger(tmp_path, {"limits/odd.yaml": ODD_SET})
    ledger = root / "ledger.yaml"
    ledger.write_text(ledger.read_text().replace("set: us-49-cfr-230", "set: odd"))
    for n, (day, purpose) in enumerate(
        [("1000-01-01", "a"), ("1000-01-01", "a"), *[("2026-01-01", p) for p in "bcdefgh"]]
    ):
        text = f"kind: inspection\nmeasured_on: {day}\nengine: e-1\npurpose: {purpose}\nby: lead\n"
        path = root / f"inspections/{day[:4]}/{day}-x{n}.yaml"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    for shape in ("text", "json", "ics", "csv", "markdown"):
        called = call("due", "--format", shape, at=root)
        assert called.code in (0, 1), called.err
    words = " ".join(call("due", "--all", at=root).out.split())
    assert "it falls due with nowhere, which is no interval in force" in words
    assert "its day of the year is not a day of the calendar" in words
    assert "not-a-period" in " ".join(call("check", "limits/odd.yaml", "--all", at=root).out.split())


def test_what_is_waived_says_by_which_waiver_and_does_not_count(tmp_path: Path) -> None:
    instrument = "kind: instrument\ntype: rule\ncertificates:\n  - issued_on: 2025-01-01\n    expires_on: 2026-01-31\n"
    used = (
        "kind: inspection\nmeasured_on: 2025-05-01\nengine: e-1\npurpose: periodic\nby: lead\ninstruments: [rule-9]\n"
    )
    waiver = (
        "kind: waiver\nfinding:\n  check: certificate-expired\n  subject: rule-9\nreason: sent away\n"
        "approved_by: lead\napproved_on: 2026-02-01\nexpires_on: 2026-12-31\n"
    )
    files = {"instruments/rule-9.yaml": instrument, "inspections/2025/2025-05-01-e-1.yaml": used}
    assert call("due", at=small_ledger(tmp_path / "a", files)).code == 1
    called = call("due", at=small_ledger(tmp_path / "b", files | {"waivers/2026-02-01-w.yaml": waiver}))
    assert "waived by 2026-02-01-w" in called.out
    assert called.code == 0


def test_a_book_with_no_interval_in_force_does_not_look_as_if_nothing_were_due(tmp_path: Path) -> None:
    assert call("init", "book", at=tmp_path).code == 0
    assert call("new", "engine", "e-7", at=tmp_path / "book").code == 0
    words = " ".join(call("due", at=tmp_path / "book").out.split())
    assert "First: Write your railway's name, and the limit sets you work to, into ledger.yaml." in words
    told = "No limit set in force has an interval for e-7: no inspection of it can fall due here."
    assert told in words
    assert told in call("due", "--format", "markdown", at=tmp_path / "book").out
    result = promised(call("due", "--format", "json", at=tmp_path / "book").out)["result"]
    assert result["without_interval"] == told
    shop = tmp_path / "book" / "inspections" / "2026-01-10-e-7-shop.yaml"
    shop.write_text("kind: inspection\nmeasured_on: 2026-01-10\nengine: e-7\npurpose: shop\n", encoding="utf-8")
    assert call("annual", "e-7", "2026", "-o", "annual.html", at=tmp_path / "book").code in (0, 1)
    assert call("pages", "pages", at=tmp_path / "book").code == 0
    for page in ("annual.html", "pages/due.html", "pages/engines/e-7.html"):
        text = re.sub("<[^>]*>", "", (tmp_path / "book" / page).read_text(encoding="utf-8"))  # ids are links
        assert told in text, page
        assert "Nothing falls due" not in text, page
