"""What the checks find on a wheelset beyond its readings is told with its condition."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from pathlib import Path

from tests.cli.commands import AT, THIN, TOP, small_ledger
from tests.reports.made import HIGH, MOVED, UNSURE

from axlebook.findings import Finding, Place, Severity
from axlebook.reports.condition_view import Axle, EngineCondition, conditions
from axlebook.reports.plan_drawing import told_of
from axlebook.reports.plan_view import plan
from axlebook.run import read_book
from axlebook.sources.folder import read_folder


def axles(folder: Path, *findings: Finding, files: dict[str, str] | None = None) -> dict[str, Axle]:
    """The wheelsets of the small ledger, with some files more, by place."""
    root = small_ledger(folder, {AT: THIN, "tires/t-9.yaml": "kind: tire\n"} | (files or {}))
    book = read_book(read_folder(root), as_of=None, today=date(2026, 3, 1))
    [engine] = conditions(book, findings)
    return {axle.at: axle for axle in engine.axles}


def test_a_suspicion_is_told_on_the_wheelset_it_names_by_place_or_by_tire(tmp_path: Path) -> None:
    by_place = replace(MOVED, subject="e-1 driver-1 left")
    by_tire = replace(MOVED, subject="t-2-left on d-2-left")
    found = axles(tmp_path, by_place, by_tire)
    assert found["driver-1"].others == (by_place,)
    assert found["driver-2"].others == (by_tire,)
    assert found["driver-1"].needs_somebody
    assert not found["engine-truck-1"].needs_somebody


def test_a_tire_that_is_to_go_onto_a_center_says_nothing_of_the_one_on_it(tmp_path: Path) -> None:
    assert axles(tmp_path, replace(UNSURE, subject="t-9 on d-1-left"))["driver-1"].others == ()


def test_wheelsets_come_from_front_to_rear_however_the_lines_are_ordered() -> None:
    """In the demo the line of tender-3 begins anew when its wheelset was turned, after that of tender-4."""
    book = read_book(read_folder(TOP / "demo-ledger"), as_of=None, today=date(2026, 3, 1))
    lines = [line.at for line in book.engines["e-12"].lines]
    assert lines.index("tender-4") < lines.index("tender-3")
    [engine] = conditions(book, (), {"e-12"})
    drivers, tender = [f"driver-{number}" for number in (1, 2, 3, 4)], [f"tender-{number}" for number in (1, 2, 3, 4)]
    assert [axle.at for axle in engine.axles if axle.at] == ["engine-truck-1", *drivers, *tender]


OFF = "kind: tire-removed\nremoved_on: 2026-02-03\ntire: t-2-right\ncenter: d-2-right\nby: lead\ncame_off: tight\n"
ON = "kind: tire-applied\napplied_on: 2026-02-10\ntire: t-9\ncenter: d-2-right\nby: lead\n"


def test_what_was_read_on_a_tire_that_came_off_is_not_told_of_its_wheel_which_has_none_on(tmp_path: Path) -> None:
    """The doubt is of a reading in the record of 2026-01-10, taken on the tire that came off three weeks later."""
    of_tire = replace(MOVED, subject="e-1 driver-2 right", place=Place(AT, "/readings/0/values/worst"))
    of_axle = replace(HIGH, subject="e-1 d-2", waived="", place=Place("drivers/d-2.yaml"))
    before = axles(tmp_path / "a", of_tire, of_axle)["driver-2"]
    assert before.others == (of_tire, of_axle)
    off = axles(tmp_path / "b", of_tire, of_axle, files={"tire-work/2026/2026-02-03-off.yaml": OFF})["driver-2"]
    assert off.others == (of_axle,)
    drawn = {one.at: one for one in plan(EngineCondition("e-1", (off,), (), ""))}["driver-2"]
    assert (drawn.right.word, drawn.right.verdict) == ("no tire since 2026-02-03", None)
    assert drawn.own.finding == of_axle
    new = axles(tmp_path / "c", of_tire, files={"tire-work/2026/2026-02-03-off.yaml": OFF,
                                                "tire-work/2026/2026-02-10-on.yaml": ON})["driver-2"]  # fmt: skip
    assert (new.others, new.without_tire) == ((), {})


def test_another_place_a_note_and_what_is_waived_are_not_told(tmp_path: Path) -> None:
    found = axles(
        tmp_path,
        replace(MOVED, subject="e-1 driver-10"),
        replace(MOVED, subject="e-1 driver-1", severity=Severity.NOTE),
        replace(HIGH, subject="e-1 driver-1"),
    )
    assert found["driver-1"].others == ()


def test_a_margin_that_a_guard_band_lessens_is_told_as_read_and_after_uncertainty() -> None:
    """The shop's limit is 1 in and 1 3/64 in was read: 3/64 in, of which the gauge's 0.0148 in are taken off."""
    book = read_book(read_folder(TOP / "demo-ledger"), as_of=None, today=date(2026, 3, 1))
    [engine] = [one for one in conditions(book, ()) if one.engine == "e-12"]
    [row] = [
        row for axle in engine.axles for row in axle.rows
        if row.place == "driver-1 left" and row.finding.quantity == "flange_thickness"
    ]  # fmt: skip
    assert row.reading.startswith("1 3/64 in")
    assert row.margin == "3/64 in (0.0320 in after uncertainty)"
    told = {axle.at: axle for axle in plan(engine)}["driver-1"].left
    assert told_of(told).endswith("margin 3/64 in")


def test_a_margin_of_pieces_says_of_what(tmp_path: Path) -> None:
    found = "kind: tire-found\nfound_on: 2026-01-10\ntire: t-2-right\ncenter: d-2-right\nshims: none\n"
    root = small_ledger(tmp_path, {"tire-work/2026/2026-01-10-t-2-right-seen.yaml": found})
    book = read_book(read_folder(root), as_of=None, today=date(2026, 3, 1))
    [row] = [
        row for engine in conditions(book, ()) for axle in engine.axles for row in axle.rows
        if row.place == "driver-2 right" and row.finding.quantity == "shim_thicknesses"
    ]  # fmt: skip
    assert row.margin == "2 pieces"


def test_what_stands_in_a_row_is_not_told_twice(tmp_path: Path) -> None:
    [row] = [row for row in axles(tmp_path)["driver-2"].rows if row.finding.quantity == "flange_thickness"]
    again = axles(tmp_path / "again", replace(row.finding, check="flange-thin"))
    assert again["driver-2"].others == ()
    assert row.place == "driver-2 right"
    assert (row.reading, row.limit, row.margin) == ("15/16 in (23.8125 mm)", "at or under 15/16 in, 230.113(g)", "0 in")


def test_doubt_of_the_reading_that_a_row_has_is_told_beside_it(tmp_path: Path) -> None:
    """The row is outside by its limit; that the figure itself is in doubt, at the same position, is another matter."""
    at = Place(AT, "/readings/0/values/worst")
    doubt = replace(MOVED, subject="e-1 driver-2 right", quantity="flange_thickness", where="worst", place=at)
    found = axles(tmp_path, doubt)["driver-2"]
    assert [row.finding.where for row in found.rows if row.finding.quantity == doubt.quantity] == ["worst"]
    assert found.others == (doubt,)


def test_a_limit_whose_figure_waits_for_an_axle_load_says_so_and_is_never_empty() -> None:
    told = [entry for entry in read_folder(TOP / "demo-ledger") if entry.content is not None]
    without = [
        entry._replace(content=re.sub(rb"(?m)^ *axle_load:.*\n", b"", entry.content or b"")) for entry in told
    ]  # fmt: skip
    assert without != told
    book = read_book(without, as_of=None, today=date(2026, 3, 1))
    outs = {row.out for one in conditions(book, ()) for axle in one.axles for row in axle.rows if row.limit}
    assert [out for out in outs if out.endswith(": axle load")]
    assert not [out for out in outs if not out.strip() or out.split()[-1] in ("under", "over")]
