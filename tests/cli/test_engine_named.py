"""An engine is named by its id or by the number it carries, in every command alike; and its counts are one."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.cli.commands import TOP, call, small_ledger

DEMO = str(TOP / "demo-ledger")


@pytest.mark.parametrize(
    "words", [["status", DEMO, "{}"], ["due", DEMO, "--engine", "{}"], ["history", "--ledger", DEMO, "{}"],
              ["sheet", "--ledger", DEMO, "{}"], ["turning", "--ledger", DEMO, "{}"]],
)  # fmt: skip
def test_the_number_of_an_engine_is_taken_for_its_id(tmp_path: Path, words: list[str]) -> None:
    by_id, by_number = ([word.replace("{}", name) for word in words] for name in ("e-12", "12"))
    first, second = call(*by_id, at=tmp_path), call(*by_number, at=tmp_path)
    assert first.out
    assert (first.code, first.out) == (second.code, second.out)


def test_a_sheet_of_readings_may_name_the_engine_by_its_number(tmp_path: Path) -> None:
    rows = tmp_path / "rows.csv"
    rows.write_text("what,place,position,value\nflange_thickness,driver-1 left,worst,1 3/64 in\n", encoding="utf-8")
    asked = ["import", str(rows), "--ledger", DEMO, "--day", "2026-02-28", "--purpose", "shop", "--by", "lead"]
    first, second = (call(*asked, "--engine", name, at=tmp_path) for name in ("e-12", "12"))
    assert "e-12 driver-1 left" in first.out or "2026-02-28-e-12-shop" in first.out
    assert (first.code, first.out) == (second.code, second.out)


def test_what_is_overdue_and_held_back_is_counted_alike_on_the_pages_in_due_and_in_status(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Overdue of e-12: axles of d-4, and the certificate of a pyrometer used on it. e-21 is waived, not held back."""
    monkeypatch.setattr("axlebook.reports.wear_plot.quick_svg", lambda *asked, **how: "<svg/>")  # most of its time
    assert call("pages", "site", "--ledger", DEMO, at=tmp_path).code == 0
    page = (tmp_path / "site" / "index.html").read_text(encoding="utf-8")
    rows = [re.findall(r"<td[^>]*>(.*?)</td>", row, re.S) for row in re.findall(r"<tr.*?</tr>", page, re.S)]
    told = {re.sub("<[^>]+>", "", row[0]): row[-2:] for row in rows if len(row) > 4}
    assert told == {"e-12": ["2", "1"], "e-21": ["0", "no"], "e-3": ["1", "no"]}
    for engine, (overdue, _) in told.items():
        assert f" {overdue} overdue, " in call("due", "--engine", engine, "--ledger", DEMO, at=tmp_path).out
    assert "Overdue, 2: " in call("status", DEMO, "e-12", at=tmp_path).out


def test_of_hundreds_of_engines_a_refusal_names_a_few(tmp_path: Path) -> None:
    root = small_ledger(tmp_path)
    for number in range(100, 300):
        (root / "engines" / f"e-{number}.yaml").write_text(f'kind: engine\nnumber: "{number}"\n', encoding="utf-8")
    called = call("status", "999", at=root)  # none of them tells a wheelset, and so none can be read
    assert called.code == 2
    assert "There are: e-1. Not read: engines/e-100.yaml, " in called.err
    assert "and 188 more." in called.err
    for number in range(100, 300):
        text = f'kind: engine\nnumber: "{number}"\nwheelsets: []\n'
        (root / "engines" / f"e-{number}.yaml").write_text(text, encoding="utf-8")
    assert len(call("status", "999", at=root).err) < 400
