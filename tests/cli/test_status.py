"""`status`: every wheel's latest reading by the tightest limit, as the checks judge it."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.cli.commands import AT, THIN, TOP, call, promised, small_ledger


@pytest.fixture
def thin(tmp_path: Path) -> Path:
    return small_ledger(tmp_path, {AT: THIN})


def test_a_wheel_on_its_limit_is_told_with_reading_limit_margin_day_and_person(thin: Path) -> None:
    called = call("status", at=thin)
    words = " ".join(called.out.split())
    assert called.lines[0] == "As of 2026-02-28 (closed): condition of the wheels of 1 engine."
    assert (
        "✗ driver-2 right: outside: flange thickness, worst 15/16 in (23.8125 mm); out at or under 15/16 in, "
        "230.113(g); margin 0 in; too few readings (1); 2026-01-10 by lead."
    ) in words
    assert "A trend is the median of past wear at the worst place" in words
    assert words.endswith("qualified people and the authority having jurisdiction decide.")
    assert called.code == 1


def test_a_wheelset_that_nobody_read_is_said_aloud(thin: Path) -> None:
    words = " ".join(call("status", at=thin).out.split())
    assert "engine-truck-1 - - nothing read - nothing read" in words
    assert "Nothing was read on engine-truck-1 (et-1), tender-1 (tw-1)." in words


def test_a_wheel_that_was_read_and_of_which_nobody_knows_which_it_is_is_not_told_as_unread(tmp_path: Path) -> None:
    root = small_ledger(tmp_path, {AT: THIN.replace("driver-2 right", "engine-truck-1 right")})
    engine = root / "engines" / "e-1.yaml"
    text = engine.read_text(encoding="utf-8")
    engine.write_text(text.replace("    a_end: left\n", "", 1), encoding="utf-8")
    told = call("status", at=root).out
    plan = {line.split()[0]: line for line in told.splitlines() if line.startswith("  ") and line.split()[0]}
    assert plan["engine-truck-1"].count("read, which wheel?") == 2
    assert plan["tender-1"].count("nothing read") == 2
    said = " ".join(told.split())
    assert "Which wheel of engine-truck-1 (et-1) was read: write `a_end` in the engine's line." in said
    page = call("annual", "1", "2026", "--as-of", "2026-02-28", "--format", "markdown", at=root).out
    assert "Nothing was ever read on" in page
    assert "engine-truck-1" not in page.partition("Nothing was ever read on")[2].partition(".")[0]


def test_what_was_not_measured_is_told_with_the_reason(thin: Path) -> None:
    (thin / AT).write_text(
        THIN + "not_measured:\n  - quantity: flange_height\n    places: [driver-1 left]\n    because: no access\n"
    )
    assert "Not measured: flange height, driver-1 left: no access." in call("status", at=thin).out


def test_the_json_has_a_row_a_quantity_with_figures_and_says_that_one_reading_is_no_trend(thin: Path) -> None:
    result = promised(call("status", "--format", "json", at=thin).out)["result"]
    [row] = [row for row in result["rows"] if row["verdict"] == "outside"]
    assert (row["engine"], row["place"], row["part"]) == ("e-1", "driver-2 right", "t-2-right")
    assert (row["quantity"], row["read_on"], row["by"]) == ("flange_thickness", "2026-01-10", ["lead"])
    assert [f["from"] for f in row["figures"] if f["name"].startswith("limit")] == ["us-49-cfr-230/flange-thin"]
    [trend] = result["trend"]
    assert (trend["part"], trend["quantity"], trend["state"]) == ("t-2-right", "flange_thickness", "too few readings")
    assert trend["figures"] == []


def test_a_day_before_the_reading_knows_nothing_of_it(thin: Path) -> None:
    called = call("status", "--as-of", "2026-01-09", at=thin)
    assert "15/16 in" not in called.out
    assert called.code == 0


def test_an_engine_takes_a_screen_at_most_and_what_is_outside_is_on_it(thin: Path) -> None:
    lines = [f"  - at: tender-{n}\n    wheelset: x-{n}\n    from: unknown\n" for n in range(2, 60)]
    with (thin / "engines" / "e-1.yaml").open("a") as file:
        file.writelines(lines)
    for n in range(2, 60):
        (thin / "wheelsets" / f"x-{n}.yaml").write_text("kind: wheelset\nmade: one-piece\n")
    called = call("status", at=thin)
    of_engine = called.out.split("\n\n")[1].splitlines()
    assert len(of_engine) <= 24
    assert "✗ driver-2 right: outside" in called.out
    assert "nothing outside, suspect or undecided on them: tender-" in " ".join(called.out.split())
    assert "tender-59" in call("status", "--all", at=thin).out


def test_what_holds_an_engine_back_stands_before_what_is_out(thin: Path) -> None:
    (thin / "defects" / "2026").mkdir(parents=True)
    (thin / "defects" / "2026" / "2026-01-10-e-1-flange.yaml").write_text(
        "kind: defect\nfound_on: 2026-01-10\nengine: e-1\nplace: driver-2 right\nwhat: thin flange\n"
        "restriction:\n  words: not to be used\n  from: 2026-01-11\n  until: 2026-03-31\n  set_by: lead\n"
    )
    words = " ".join(call("status", at=thin).out.split())
    said = (
        "Restricted: not to be used (e-1 driver-2 right, since 2026-01-11 until 2026-03-31, by lead; "
        "2026-01-10-e-1-flange)"
    )
    assert said in words
    assert words.index("Restricted") < words.index("driver-2 right: outside")
    assert said in " ".join(call("status", "--all", at=thin).out.split())
    [held] = promised(call("status", "--format", "json", at=thin).out)["result"]["restrictions"]
    assert held == {
        "engine": "e-1", "kind": "restriction", "subject": "e-1 driver-2 right", "words": "not to be used",
        "since": "2026-01-11", "until": "2026-03-31", "by": "lead", "record": "2026-01-10-e-1-flange",
    }  # fmt: skip


def test_a_restriction_of_a_part_is_told_of_the_engine_it_is_on_and_of_none_once_it_came_off(thin: Path) -> None:
    (thin / "defects" / "2026").mkdir(parents=True)
    (thin / "defects" / "2026" / "2026-01-10-t-2-right.yaml").write_text(
        "kind: defect\nfound_on: 2026-01-10\npart: t-2-right\nwhat: seam\nrestriction:\n  words: not to be used\n"
    )
    words = " ".join(call("status", at=thin).out.split())
    assert "Restricted: not to be used (e-1 driver-2 right; 2026-01-10-t-2-right)" in words
    assert "Of no engine on record" not in words
    (thin / "tire-work" / "2026").mkdir()
    (thin / "tire-work" / "2026" / "2026-02-01-t-2-right-removed.yaml").write_text(
        "kind: tire-removed\nremoved_on: 2026-02-01\ntire: t-2-right\ncenter: d-2-right\n"
    )
    words = " ".join(call("status", at=thin).out.split())
    assert "Of no engine on record Restricted: not to be used (t-2-right; 2026-01-10-t-2-right)" in words


def test_a_ledger_and_an_engine_may_be_named_in_words() -> None:
    every = call("status", "demo-ledger", at=TOP)
    one = call("status", "demo-ledger", "e-3", at=TOP)
    assert "condition of the wheels of 3 engines" in every.out
    assert "condition of the wheels of 1 engine" in one.out
    assert "e-12" not in one.out
    assert call("status", "demo-ledger/engines/e-3.yaml", at=TOP).out == one.out


def test_an_engine_that_is_not_there_is_answered_with_those_that_are() -> None:
    called = call("status", "demo-ledger", "e-99", at=TOP)
    assert called.code == 2
    assert "There are: e-12, e-21, e-3" in called.err
