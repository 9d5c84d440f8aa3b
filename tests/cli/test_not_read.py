"""What could not be read is missing from every answer, so every answer says so first, with file and line."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.cli.commands import AT, THIN, TOP, call, small_ledger

BROKEN = "inspections/2026/2026-01-12-e-1-shop.yaml"
TOLD = f"! NOT READ, so missing from every answer: {BROKEN}:3."


@pytest.fixture
def broken(tmp_path: Path) -> Path:
    """Four wheels that condemn, which fill a screen, and a record with a tab on its third line."""
    wheels = [f"driver-{n} {side}" for n in (1, 2) for side in ("left", "right")]
    reading = THIN[THIN.index("  - quantity") :]
    thin = THIN.replace(reading, "".join(reading.replace("driver-2 right", wheel) for wheel in wheels))
    tabbed = "kind: inspection\nmeasured_on: 2026-01-12\n\tengine: e-1\npurpose: shop\nby: lead\n"
    return small_ledger(tmp_path, {AT: thin, BROKEN: tabbed})


@pytest.mark.parametrize("arguments", [["check"], ["check", "inspections/2026"], ["check", BROKEN], ["status"],
                                       ["status", "e-1", "--all"], ["due"], ["due", "--engine", "e-1"],
                                       ["due", "--calendar"]], ids=" ".join)  # fmt: skip
def test_a_file_that_cannot_be_read_is_named_with_its_line_before_all_else(broken: Path, arguments: list[str]) -> None:
    called = call(*arguments, at=broken)
    assert TOLD in " ".join("\n".join(called.lines[:8]).split())
    assert called.code == 1
    assert arguments != ["check"] or len(called.lines) <= 24


@pytest.mark.parametrize("arguments", [["wear"], ["wear", "e-1", "--all"]], ids=" ".join)
def test_a_forecast_says_first_what_could_not_be_read_beside_a_file_too(broken: Path, arguments: list[str]) -> None:
    assert TOLD in " ".join("\n".join(call(*arguments, at=broken).lines[:6]).split())
    assert TOLD in call(*arguments, "--format", "markdown", at=broken).err


@pytest.mark.parametrize("arguments", [["turning", "e-1"], ["braking", "e-1"], ["history", "t-2-left"]], ids=" ".join)
def test_what_is_worked_out_or_told_of_one_part_says_it_too(broken: Path, arguments: list[str]) -> None:
    for more in ([], ["--all"]):
        assert TOLD in " ".join("\n".join(call(*arguments, *more, at=broken).lines[:8]).split())
    assert f"**! Not read**, so missing from every answer: {BROKEN}:3." in call(
        *arguments, "--format", "markdown", at=broken
    ).out.replace("\\", "")
    (broken / BROKEN).unlink()
    assert "so missing from every answer" not in call(*arguments, at=broken).out


@pytest.mark.parametrize("arguments", [["fit", "t-2601", "d-3-left"], ["bore", "d-1-left"]], ids=" ".join)
def test_a_fit_and_a_bore_order_say_what_of_their_engine_could_not_be_read(arguments: list[str]) -> None:
    """The demo has one such record of e-12; d-3 and d-1 stand on it."""
    for more in ([], ["--all"], ["--format", "html"]):
        told = " ".join(call(*arguments, *more, at=TOP / "demo-ledger").out.split())
        assert "so missing from every answer: inspections/2016/2016-07-29-e-12-periodic.yaml:31." in told


def test_the_drawing_of_a_brake_has_no_place_for_it_and_it_goes_to_standard_error(broken: Path) -> None:
    assert call("braking", "e-1", "--format", "svg", at=broken).err == f"{TOLD}\n"


def test_of_many_files_three_are_named_and_the_rest_is_counted(broken: Path) -> None:
    for day in range(13, 18):
        (broken / BROKEN.replace("12", str(day))).write_text("kind: inspection\n\tengine: e-1\n")
    short, whole = (" ".join(call("check", *more, at=broken).out.split()) for more in ([], ["--all"]))
    assert "2026-01-14-e-1-shop.yaml:2; and 3 more files. " in short
    assert "2026-01-17-e-1-shop.yaml:2. " in whole


def test_a_part_of_a_record_that_is_not_used_is_named_too(broken: Path) -> None:
    (broken / BROKEN).write_text(THIN.replace("15/16 in", "1-Aug"))
    assert f"{BROKEN}:12." in " ".join(call("status", at=broken).out.split())


def test_the_annual_summary_begins_with_what_could_not_be_read(broken: Path) -> None:
    told = call("annual", "e-1", "2026", "--format", "markdown", at=broken).out
    assert told.index("## Could not be read") < told.index(f"{BROKEN}:3") < told.index("## Not within")


def test_the_pages_say_what_could_not_be_read_on_their_first_page_the_engine_s_and_what_falls_due(
    broken: Path, tmp_path: Path
) -> None:
    assert call("pages", str(tmp_path / "site"), at=broken).code == 0
    for page in ("index.html", "engines/e-1.html", "due.html", "findings.html"):
        text = (tmp_path / "site" / page).read_text(encoding="utf-8")
        assert "so missing from every answer" in text, page
        assert "2026-01-12-e-1-shop.yaml" in text, page


@pytest.mark.parametrize("shape", ["csv", "ics"])
def test_a_file_of_what_falls_due_holds_dates_alone_and_what_could_not_be_read_goes_to_standard_error(
    broken: Path, shape: str
) -> None:
    called = call("due", "--format", shape, at=broken)
    assert called.code == 1
    assert called.err == f"{TOLD}\n"
    assert "2026-01-12" not in called.out
    (broken / BROKEN).unlink()
    whole = call("due", "--format", shape, at=broken)
    assert (whole.out, whole.err) == (called.out, "")


@pytest.mark.parametrize("command", ["braking", "turning"])
def test_where_nothing_is_left_to_work_with_the_refusal_names_what_could_not_be_read(
    broken: Path, command: str
) -> None:
    for path in sorted((broken / "drivers").iterdir()):
        path.write_text("kind: driver\n\taxle: none\n", encoding="utf-8")
    called = call(command, "e-1", at=broken)
    assert (called.code, called.out) == (2, "")
    assert "Not read, so missing from every answer: drivers/" in " ".join(called.err.split())
