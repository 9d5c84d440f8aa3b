"""`wear`: rates and days worked out by hand, on a screen, in full, as JSON, Markdown, SVG and one HTML page."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from tests.cli.commands import TOP, call, promised, unweighed
from tests.cli.wear_ledger import wear_ledger

from axlebook.cli import terminal

DEMO = str(TOP / "demo-ledger")
WEEK = 7


@pytest.fixture
def ledger(tmp_path: Path) -> Path:
    return wear_ledger(tmp_path)


def rows(root: Path, *arguments: str) -> dict[str, dict[str, Any]]:
    """The rows of a call by quantity."""
    told = promised(call("wear", *arguments, "--format", "json", at=root).out)
    return {row["quantity"]: row for row in told["result"]["rows"]}


def figures(of: dict[str, Any]) -> dict[str, float]:
    """Named figures as numbers."""
    return {f["name"]: float(f["value"]) for f in of["figures"] if f["from"] == "computed"}


def test_a_limit_whose_figure_lacks_a_fact_is_told_with_what_it_lacks_and_never_as_none(ledger: Path) -> None:
    short = call("wear", at=unweighed(ledger)).out
    assert "fact untold" in next(line for line in short.splitlines() if "tire thickness" in line)
    told = " ".join(call("wear", "--all", at=ledger).out.split())
    assert "230.112(d): not applied; not on record: axle load. Write `weight_on_drivers`" in told


def test_three_clocks_tell_the_rate_that_was_put_into_the_records(ledger: Path) -> None:
    told = figures(rows(ledger)["flange_thickness"])
    # 1/64 in each half year, 50 service days and 2000 miles a year; 1/64 in is 0.396875 mm
    assert told["wear per year"] == pytest.approx(2 * 0.396875, rel=0.01)
    assert told["wear per service day"] == pytest.approx(2 * 0.396875 / 50, rel=0.01)
    assert told["wear per mile"] == pytest.approx(2 * 0.396875 / 2000, rel=0.01)
    assert told["wear per year, low"] <= told["wear per year"] <= told["wear per year, high"]
    # 1 15/64 in on 1 September 2025 and half a year's wear on: 1 7/32 in
    assert told["now"] == pytest.approx(1.21875 * 25.4, abs=0.02)


def test_every_limit_is_told_by_name_the_soonest_first_with_the_day_worked_out_by_hand(ledger: Path) -> None:
    shop, condemning = rows(ledger)["flange_thickness"]["limits"]
    assert (shop["limit"], shop["stage"]) == ("ours/flange", "shop")
    assert (condemning["limit"], condemning["stage"]) == ("us-49-cfr-230/flange-thin", "condemning")
    # 7/32 in left at 1/32 in a year: 7 years from the end of February 2026; 9 years to 15/16 in
    for one, day in ((shop, date(2033, 2, 28)), (condemning, date(2035, 2, 28))):
        assert abs((date.fromisoformat(one["middle"]) - day).days) <= 3 * WEEK
        assert one["early"] <= one["middle"] <= one["late"]
        assert not one["out_now"]


def test_the_lathe_is_to_be_booked_its_lead_time_ahead_of_the_early_end(ledger: Path) -> None:
    row = rows(ledger)["flange_thickness"]
    early = date.fromisoformat(row["limits"][0]["early"])
    assert row["order"] == {
        "what": "lathe",
        "by": date.fromordinal(early.toordinal() - 90).isoformat(),
        "lead_days": 90,
        "limit": "ours/flange",
    }


def test_height_rises_to_its_limit_and_what_does_not_wear_is_said(ledger: Path) -> None:
    told = rows(ledger)
    assert figures(told["flange_height"])["wear per year"] == pytest.approx(2 * 0.396875, rel=0.01)
    # 1 1/2 in less 1 5/32 in is 11/32 in: 11 years
    assert told["flange_height"]["limits"][0]["middle"][:4] == "2037"
    assert told["tire_thickness"]["state"] == "no wear seen"
    assert told["tire_thickness"]["order"] is None
    assert {limit["middle"] for limit in told["tire_thickness"]["limits"]} == {"never"}


def test_readings_in_mm_give_the_same_figures(tmp_path: Path) -> None:
    inch = rows(wear_ledger(tmp_path / "a"))["flange_thickness"]
    mm = rows(wear_ledger(tmp_path / "b", "mm"))["flange_thickness"]
    assert figures(inch) == pytest.approx(figures(mm), rel=1e-3)
    assert [limit["middle"] for limit in inch["limits"]] == [limit["middle"] for limit in mm["limits"]]
    assert " mm per year" in call("wear", "t-2-right", "--all", at=tmp_path / "b" / "ledger").out


def test_two_readings_are_too_few_and_four_give_no_interval(ledger: Path) -> None:
    two = rows(ledger, "--as-of", "2020-10-01")["flange_thickness"]
    assert (two["state"], two["figures"], two["limits"]) == ("too few readings", [], [])
    four = rows(ledger, "--as-of", "2021-10-01")["flange_thickness"]
    assert "wear per year" in figures(four)
    assert "wear per year, low" not in figures(four)
    assert (four["limits"][0]["early"], four["limits"][0]["late"]) == (None, None)
    assert "too few (2)" in call("wear", "--as-of", "2020-10-01", at=ledger).out


def test_after_a_turning_nobody_knows_the_level_until_it_is_read(ledger: Path) -> None:
    row = rows(ledger, "--as-of", "2023-02-01")["flange_thickness"]
    assert (row["state"], row["limits"], row["order"]) == ("not measured since work", [], None)
    out = " ".join(call("wear", "t-2-right", "--as-of", "2023-02-01", at=ledger).out.split())
    assert "not measured since 2023-01-14" in out


def _told_at(root: Path, plane: str, since: str) -> None:
    """Write the plane of every flange reading from a day on; '' takes its gauge away and tells none."""
    for path in sorted((root / "inspections").rglob("*-e-1.yaml")):
        if path.name >= since:
            text = path.read_text(encoding="utf-8")
            told = f"    where: {plane}\n" if plane else ""
            place = "  - quantity: flange_thickness\n    place: driver-2 right\n"
            path.write_text(text.replace(f"{place}    with: gauge-1\n", f"{place}{told}"), encoding="utf-8")


def test_limits_that_no_told_plane_lets_be_applied_are_named_with_what_to_write(ledger: Path) -> None:
    _told_at(ledger, "", "2000")
    limits = ledger / "limits" / "ours.yaml"
    text = limits.read_text(encoding="utf-8").replace("stage: shop", "stage: shop, where: 3/8 in above tread")
    limits.write_text(text, encoding="utf-8")
    row = rows(ledger)["flange_thickness"]
    assert (row["no_limit"], row["limits"]) == (False, [])
    kept = [(one["stage"], one["because"]) for one in row["limits_not_applied"]]
    told = "it judges flange thickness 3/8 in above tread, and the readings do not say where they were taken"
    assert kept == [("condemning", told), ("shop", told)]
    called = call("wear", "t-2-right", "--quantity", "flange_thickness", at=ledger)
    assert called.lines[3].endswith("plane untold")
    out = " ".join(called.out.split())
    assert f"not applied; {told}. Write where it was read, or with which gauge, in the record." in out
    assert "no limit on file" not in out


def test_two_readings_of_no_told_plane_leave_the_limits_of_the_plane_read_before(ledger: Path) -> None:
    before = rows(ledger, "--as-of", "2025-02-28")["flange_thickness"]
    _told_at(ledger, "", "2025")
    row = rows(ledger)["flange_thickness"]
    assert [one["limit"] for one in row["limits"]] == [one["limit"] for one in before["limits"]]
    assert row["limits_not_applied"] == []
    out = " ".join(call("wear", "t-2-right", "--quantity", "flange_thickness", at=ledger).out.split())
    assert "the line is that of the readings 3/8 in above tread; 2 readings do not say their plane." in out


def test_a_limit_for_want_of_a_fact_is_not_called_missing(ledger: Path) -> None:
    _taped(ledger)
    _add_limit(ledger, "under: 1 in, clause: page 2, applies_to: {traffic: inland}")
    row = rows(ledger)["tread_diameter"]
    assert (row["no_limit"], [one["because"] for one in row["limits_not_applied"]]) == (
        False, ["not on record: traffic"],
    )  # fmt: skip


def _add_limit(root: Path, words: str) -> None:
    """Add a shop limit on the tread diameter to the railway's own."""
    limits = root / "limits" / "ours.yaml"
    bound, _, rest = words.partition(", ")
    more = f"  - {{id: small, quantity: tread_diameter, stage: shop, out_when: {{{bound}}}, {rest}}}\n"
    limits.write_text(limits.read_text(encoding="utf-8") + more, encoding="utf-8")


def _taped(root: Path) -> None:
    """Five tapes round a tread, 3 mm apart, half a year each."""
    for index, day in enumerate(("2024-01-05", "2024-07-05", "2025-01-05", "2025-07-05", "2026-01-05")):
        path = root / "inspections" / day[:4] / f"{day}-e-1-taped.yaml"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(TAPED.format(day=day, size=f"{1219 - 3 * index}.25 mm"), encoding="utf-8")


TAPED = """kind: inspection
measured_on: {day}
engine: e-1
purpose: periodic
by: [lead]
readings:
  - {{quantity: tread_diameter, place: driver-2 right, with: rule-1, values: {{all round: {size}}}}}
"""
FITTED = """kind: tire-applied
applied_on: 2025-01-20
tire: t-2-right
center: d-2-right
by: [lead]
shims: none
"""


def test_a_tire_that_grew_as_it_was_shrunk_on_did_not_wear_backwards(ledger: Path) -> None:
    received = TAPED.format(day="2025-01-10", size="51.000 in").replace(
        "engine: e-1\npurpose: periodic", "purpose: receiving"
    )
    files = {
        "inspections/2025/2025-01-10-t-2-right-receiving.yaml": received.replace(
            "place: driver-2 right", "part: t-2-right"
        ),
        "tire-work/2025/2025-01-20-t-2-right-applied.yaml": FITTED,
    }
    for day, size in (("2025-02-01", "51.040 in"), ("2025-06-01", "51.030 in"), ("2025-10-01", "51.020 in")):
        files[f"inspections/2025/{day}-e-1-taped.yaml"] = TAPED.format(day=day, size=size)
    for path, text in files.items():
        (ledger / path).parent.mkdir(parents=True, exist_ok=True)
        (ledger / path).write_text(text, encoding="utf-8")
    row = rows(ledger)["tread_diameter"]
    assert (row["segments"], row["readings"]) == (2, 4)
    # .020 in in the 242 days from February to October; the step of .040 in from the shop floor is no part of it.
    assert figures(row)["wear per year"] == pytest.approx(0.508 / 242 * 365.25, rel=1e-2)


def test_no_row_is_wider_than_the_terminal_where_figures_are_long(tmp_path: Path) -> None:
    metric = wear_ledger(tmp_path, "mm")
    _taped(metric)
    _add_limit(metric, "under: 1180 mm, clause: page 9")
    called = call("wear", "t-2-right", at=metric)
    assert max(map(len, called.lines)) <= 80
    assert "shop 20" in next(line for line in called.lines if "tread diameter" in line)


def test_at_sixty_columns_the_trend_gives_way_before_a_quantity_is_no_longer_told_from_another(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(terminal, "_width", lambda: 60)
    shutil.copytree(TOP / "demo-ledger", tmp_path / "demo")
    (tmp_path / "demo/inspections/2016/2016-07-29-e-12-periodic.yaml").unlink()  # what it says of this takes room
    lines = call("wear", "t-1212", at=tmp_path / "demo").lines
    assert "e-12 driver-1 right flange thi. 0.945 in 0.028  past shop" in lines
    assert "e-12 driver-1 right flange hei. 1.253 in 0.031  shop 2031-32" in lines
    assert max(map(len, lines)) <= 60


def test_a_part_is_named_by_its_id_its_place_its_wheelset_or_its_engine(ledger: Path) -> None:
    for part in ("t-2-right", "e-1 driver-2 right", "e-1 driver-2", "d-2", "e-1", "1"):
        assert set(rows(ledger, part)) == {"flange_thickness", "flange_height", "tire_thickness"}
    called = call("wear", "t-2-rihgt", at=ledger)
    assert (called.code, called.err) == (2, "axlebook: there is no part 't-2-rihgt'. Did you mean t-2-right?\n")
    unread = call("wear", "t-1-left", at=ledger)
    assert unread.code == 2
    assert "nothing that wears was read on 't-1-left'" in unread.err


def test_a_quantity_alone_and_one_that_does_not_wear(ledger: Path) -> None:
    assert set(rows(ledger, "--quantity", "flange_height")) == {"flange_height"}
    called = call("wear", "--quantity", "back_to_back", at=ledger)
    assert called.code == 2
    assert "there is no wearing quantity 'back_to_back'" in called.err


def test_a_path_shows_what_was_last_read_there(ledger: Path) -> None:
    assert rows(ledger, "inspections/2025")
    assert not rows(ledger, "inspections/2024")


@pytest.mark.parametrize("arguments", [(), ("t-1212",), ("e-3",), ("--as-of", "2015-01-01"), ("--as-of", "2010-01-01")])
def test_the_demo_takes_one_screen_of_80_columns(tmp_path: Path, arguments: tuple[str, ...]) -> None:
    called = call("wear", *arguments, "--ledger", DEMO, at=tmp_path)
    if arguments == ("--as-of", "2010-01-01"):
        assert "Nothing that wears has been measured yet." in called.out
    assert called.code == 0
    assert len(called.lines) <= 24
    assert max(map(len, called.lines)) <= 80


def test_what_the_demo_wears_first_stands_first_and_is_out_by_its_reading(tmp_path: Path) -> None:
    lines = call("wear", "--ledger", DEMO, at=tmp_path).lines
    assert re.match(r"e-12 driver-1 right +flange thickness .* past cond.$", lines[4])  # below what could not be read
    assert any(line.startswith("Book the lathe now: e-12 driver-1 right, flange thickness") for line in lines)


def test_the_json_of_the_demo_keeps_the_promise_and_is_the_same_twice(tmp_path: Path) -> None:
    one, two = (call("wear", "--ledger", DEMO, "--format", "json", at=tmp_path).out for _ in range(2))
    assert one == two
    assert len(promised(one)["result"]["rows"]) > 100


def test_readings_that_a_card_is_not_sure_of_are_counted_wherever_the_rate_is_told(ledger: Path) -> None:
    for day in ("2024-03-01", "2024-09-01"):
        path = ledger / "inspections" / day[:4] / f"{day}-e-1.yaml"
        told = "quantity: flange_thickness\n"
        path.write_text(path.read_text().replace(told, f"{told}    sure: uncertain\n"))
    screen = call("wear", at=ledger).out
    assert "In 1 of them some readings are marked uncertain by their cards; which: --all." in screen
    words = " ".join(call("wear", "--all", at=ledger).out.split())
    assert "in 2 stretches (parted by work or gauge), 2 of them marked uncertain; last" in words
    status = " ".join(call("status", "--all", at=ledger).out.split())
    assert "wears 0.031 in per year (2 of 12 readings marked uncertain)" in status


def test_a_terminal_without_blocks_gets_digits(ledger: Path) -> None:
    out = call("wear", at=ledger, encoding="ascii").out
    assert "851|851" in out
    assert out.isascii()


def test_without_a_lead_time_nothing_is_to_be_ordered(ledger: Path) -> None:
    text = (ledger / "ledger.yaml").read_text()
    (ledger / "ledger.yaml").write_text(re.sub(r"lead_times:\n( .*\n)+", "", text))
    assert all(row["order"] is None for row in rows(ledger).values())
    assert "ook the lathe" not in call("wear", at=ledger).out


def test_a_day_without_its_miles_leaves_the_miles_untold_and_the_days_told(ledger: Path) -> None:
    path = ledger / "service" / "2022-e-1.yaml"
    path.write_text(path.read_text().replace("    miles: 2000 mile\n", ""))
    told = figures(rows(ledger)["flange_thickness"])
    assert "wear per service day" in told
    assert "wear per mile" not in told


# -- pictures and pages ----------------------------------------------------------------------------------------------


def svg(root: Path, *arguments: str) -> str:
    return call("wear", *arguments, "--format", "svg", at=root).out


def test_the_plot_is_the_same_to_the_byte_and_says_in_words_what_it_shows(ledger: Path) -> None:
    one = svg(ledger, "t-2-right", "--quantity", "flange_thickness")
    assert one == svg(ledger, "t-2-right", "--quantity", "flange_thickness")
    assert 'role="img"' in one
    described = re.search(r"<desc[^>]*>(.*?)</desc>", one)
    assert described
    assert "12 readings from 2020-03-01 to 2025-09-01" in described[1]
    assert "condemning 15/16 in" in described[1]


def test_limits_events_and_stretches_are_named_in_the_plot_and_no_color_carries_meaning(ledger: Path) -> None:
    one = svg(ledger, "t-2-right", "--quantity", "flange_thickness")
    for words in ("shop: 1 in (25.4 mm)", "turned", "now", "gauge-1, 6", "95 percent of forecasts"):
        assert words in one
    colors = {match.lower() for match in re.findall(r"#[0-9a-fA-F]{6}", one)}
    assert all(color[1:3] == color[3:5] == color[5:7] for color in colors), colors


def test_nothing_to_draw_is_said_in_the_picture(tmp_path: Path) -> None:
    assert "Nothing that wears was read." in svg(wear_ledger(tmp_path), "--as-of", "2019-06-01")


def test_the_page_is_one_file_with_words_for_every_plot(ledger: Path) -> None:
    html = call("wear", "t-2-right", "--format", "html", at=ledger).out
    assert html.count("<img ") == html.count('alt="e-1 driver-2 right') == 3
    assert not re.search(r'(src|href)="(?!data:)', html)
    assert "<script" not in html
    assert "Notebook of the test railway (invented)" in html
    assert html == call("wear", "t-2-right", "--format", "html", at=ledger).out


@pytest.mark.parametrize("shape", ["text", "markdown", "html", "svg"])
def test_hostile_text_of_a_record_acts_nowhere(ledger: Path, shape: str) -> None:
    path = ledger / "limits" / "ours.yaml"
    path.write_text(path.read_text().replace("clause: page 1", 'clause: "<script>alert(1)</script> \\e[31m | x"'))
    out = call("wear", "t-2-right", "--all", "--format", shape, at=ledger).out
    assert "\x1b" not in out
    if shape != "text":
        assert "<script>" not in out


def test_markdown_has_a_table_with_every_row(ledger: Path) -> None:
    lines = call("wear", "--format", "markdown", at=ledger).lines
    assert lines[0] == "# Wear as of 2026-02-28"
    assert sum(line.startswith("| e-1 driver-2 right |") for line in lines) == 3


def test_no_forecast_draws_a_line_across_a_turning(ledger: Path) -> None:
    """Every stretch has a line of its own, from its own first to its own last reading."""
    from axlebook.checks._forecast import forecasts
    from axlebook.reports.wear_plot import drawing
    from axlebook.reports.wear_view import wear_rows
    from axlebook.run import run_folder

    book = run_folder(ledger, as_of=None, today=date(2026, 3, 1)).book
    for row in wear_rows(book, forecasts(book)):
        for stretch in drawing(row).stretches:
            assert stretch.line is not None
            assert [end[0] for end in stretch.line] == [stretch.marks[0].day, stretch.marks[-1].day]
            assert not stretch.marks[0].day < date(2023, 1, 14) <= stretch.marks[-1].day


@pytest.mark.filterwarnings("error")
@pytest.mark.parametrize("first", [date(1, 1, 1), date(1000, 1, 1), date(2020, 2, 29), date(9990, 1, 1)])
@pytest.mark.parametrize("days", [1, 4, 30, 100, 124, 1461, 1500, 1600, 1790, 1826, 40_000, 745_000, 3_000_000])
def test_no_span_of_days_is_too_short_or_too_long_to_be_drawn(first: date, days: int) -> None:
    from axlebook.reports.wear_plot import Drawing, Mark, Stretch, quick_svg

    until = date.fromordinal(min(first.toordinal() + days, date.max.toordinal()))
    stretch = Stretch("gauge-1, 1", (Mark(first, 1.0, None), Mark(until, 0.9, 0.01)), None)
    one = Drawing("t", "in", (stretch,), (), (), first, until, (), (), "words")
    assert quick_svg(one).startswith("<?xml")


def test_status_says_the_same_trend_and_imports_neither_scipy_nor_matplotlib(
    ledger: Path, run_apart: Callable[[str, Path], str]
) -> None:
    script = (
        "import sys; from axlebook.cli import run; run(['status', '--all'])\n"
        "print(sorted({m.split('.')[0] for m in sys.modules} & {'scipy', 'matplotlib', 'numpy'}))"
    )
    out = " ".join(run_apart(script, ledger).split())
    assert "wears 0.031 in per year, shop 1 in 2033-01 to 2033-05" in out
    assert out.endswith("[]")


@pytest.fixture
def run_apart() -> Callable[[str, Path], str]:
    import subprocess
    import sys

    def run(script: str, at: Path) -> str:
        return subprocess.run([sys.executable, "-c", script], cwd=at, capture_output=True, text=True, check=True).stdout

    return run


def test_a_trend_beside_the_limit_of_the_other_side_names_its_own(tmp_path: Path) -> None:
    told = " ".join(call("status", "e-12", "--all", "--ledger", DEMO, at=tmp_path).out.split())
    row = told[told.index("tender-1 left (tw-1): flange height") :]
    assert "out under 1 in, 230.113(i)" in row[:200]
    assert "rises 0.010 in per year, towards its other limit: shop, over 1 7/16 in, 2044" in row[:300]
