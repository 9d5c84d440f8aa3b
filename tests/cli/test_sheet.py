"""`sheet`: what the plans ask, with what is known beforehand; a new book, a wrong name, hostile text."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
from tests.cli.commands import TOP, call, promised, small_ledger, unweighed
from tests.cli.fit_ledger import BACK_AT, BACK_ON, fit_ledger
from tests.cli.sheet_ledger import FIRST_HOUR, PLAN, READ, sheet_ledger

DEMO = ("--ledger", str(TOP / "demo-ledger"))
YEARLY = ("sheet", "e-1", "--purpose", "yearly")
METRIC = "kind: ledger\nrailway: Test railway (invented)\ndefaults: {display_units: mm}\nclosed_on: 2026-02-28\n"
NEXT = "inspections/2026/2026-02-20-e-1-yearly.yaml"


def rows(root: Path, *arguments: str) -> list[dict[str, Any]]:
    """The boxes of a sheet."""
    found = promised(call(*arguments, "--format", "json", at=root).out)["result"]["rows"]
    assert isinstance(found, list)
    return found


def box(root: Path, what: str, where: str, position: str) -> dict[str, Any]:
    """One box."""
    return next(
        r for r in rows(root, *YEARLY) if (r["what"], r["where"], r["position"]) == (what, where, position)
    )  # fmt: skip


def test_boxes_are_what_the_plan_asks_in_walking_order_and_nothing_else(tmp_path: Path) -> None:
    found = [(r["where"], r["what"], r["position"]) for r in rows(sheet_ledger(tmp_path), *YEARLY)]
    of_a_wheel = [
        ("tire_thickness", "0 deg"),
        ("tire_thickness", "180 deg"),
        ("flange_thickness", "worst"),
        ("crack", ""),
    ]
    of_a_pair = [("back_to_back", "0 deg"), ("back_to_back", "120 deg"), ("back_to_back", "240 deg")]
    expected = []
    for driver in ("driver-1", "driver-2"):
        expected += [(f"{driver} left", *one) for one in of_a_wheel]
        expected += [(driver, *one) for one in of_a_pair]
        expected += [(f"{driver} right", *one) for one in of_a_wheel]
    assert found == [*expected, ("engine", "coupler_height", "worst")]


def test_a_box_tells_the_last_reading_its_day_and_instrument_and_the_limit_with_its_clause(tmp_path: Path) -> None:
    told = box(sheet_ledger(tmp_path), "tire_thickness", "driver-2 left", "0 deg")
    assert (told["last"], told["last_on"], told["instrument"]) == ("2 7/8 in", "2026-01-10", "rule-1")
    assert (told["unit"], told["least_count"], told["last_before"]) == ("in", "1/32 in", "")
    (limit,) = told["limits"]
    assert (limit["words"], limit["stage"]) == ("under 1 3/8 in", "condemning")
    assert limit["source"].endswith("230.112(d)")


def test_a_railway_that_shows_millimetres_is_asked_for_them_also_by_a_plan_written_in_inches(tmp_path: Path) -> None:
    root = sheet_ledger(tmp_path, {"ledger.yaml": METRIC})
    asked = {r["what"]: (r["unit"], r["least_count"]) for r in rows(root, *YEARLY) if r["where"].startswith("driver-1")}
    assert asked == {
        "tire_thickness": ("mm", "0.8 mm"), "flange_thickness": ("mm", "0.4 mm"), "back_to_back": ("mm", "0.025 mm"),
        "crack": ("", ""),
    }  # fmt: skip
    assert box(root, "tire_thickness", "driver-2 left", "0 deg")["unit"] == "in"  # as it was read last


def test_what_was_never_read_is_said_and_nothing_is_expected_of_it(tmp_path: Path) -> None:
    told = box(sheet_ledger(tmp_path), "tire_thickness", "driver-2 right", "0 deg")
    assert (told["last"], told["expected"]) == ("", "")
    assert "no reading here" in call(*YEARLY, at=tmp_path / "ledger").out


def test_no_limit_on_file_is_said_aloud(tmp_path: Path) -> None:
    bare = "kind: ledger\nrailway: Bare (invented)\nclosed_on: 2026-02-28\n"
    root = sheet_ledger(tmp_path, {"ledger.yaml": bare})
    assert box(root, "tire_thickness", "driver-2 left", "0 deg")["no_limit"] == "no limit on file"


def test_a_limit_whose_figure_lacks_a_fact_is_not_told_as_none(tmp_path: Path) -> None:
    root = unweighed(sheet_ledger(tmp_path))
    told = box(root, "tire_thickness", "driver-2 left", "0 deg")
    assert told["no_limit"].startswith("figure of 230.112(d) not known; not on record: axle load")


def test_a_limit_on_wear_of_which_nobody_knows_whether_it_is_for_this_axle_is_not_told_as_none(tmp_path: Path) -> None:
    root = sheet_ledger(tmp_path, {"plans/own-yearly.yaml": PLAN.replace("tire_thickness", "journal_diameter")})
    driver = root / "drivers" / "d-2.yaml"
    driver.write_text(driver.read_text(encoding="utf-8").replace("  main: yes\n", ""), encoding="utf-8")
    told = box(root, "journal_diameter", "driver-2 left", "0 deg")
    assert told["no_limit"].startswith("not known which limit is for it; not on record: main driver")


@pytest.mark.parametrize(
    ("read", "is_asked_about"),
    [("2 27/32 in", False), ("2 29/32 in", False), ("2 25/32 in", True), ("2 31/32 in", True)],
)
def test_what_is_expected_is_what_check_does_not_ask_about(tmp_path: Path, read: str, is_asked_about: bool) -> None:
    root = sheet_ledger(tmp_path)
    assert box(root, "tire_thickness", "driver-2 left", "0 deg")["expected"] == "2 27/32 to 2 29/32 in"
    text = READ.format(day="2026-02-20", thick=read, back="53.201 in")
    (root / NEXT).write_text(text, encoding="utf-8")
    told = promised(call("check", "--format", "json", at=root).out)
    asked = [f for f in told["findings"] if f["verdict"] == "suspect" and f["path"] == NEXT]
    assert bool(asked) is is_asked_about


def test_a_reading_before_a_turning_is_told_as_such_and_nothing_is_expected(tmp_path: Path) -> None:
    turned = "kind: turning\nturned_on: 2026-02-01\nby: lead\ntires: [t-2-left, t-2-right]\n"
    root = sheet_ledger(tmp_path, {"turnings/2026/2026-02-01-d-2.yaml": turned})
    told = box(root, "tire_thickness", "driver-2 left", "0 deg")
    assert (told["last"], told["last_before"], told["expected"]) == ("2 7/8 in", "2026-02-01-d-2", "")
    assert "before the turning of 2026-02-01" in call(*YEARLY, at=root).out


def test_another_hold_is_named_and_not_compared_with(tmp_path: Path) -> None:
    on_blocks = READ.format(day="2026-01-10", thick="2 7/8 in", back="53.201 in").replace(
        "under the engine", "on blocks"
    )
    root = small_ledger(tmp_path, {
        "plans/own-yearly.yaml": (sheet_ledger(tmp_path / "other") / "plans/own-yearly.yaml").read_text("utf-8"),
        "inspections/2026/2026-01-10-e-1-yearly.yaml": on_blocks,
    })  # fmt: skip
    assert box(root, "back_to_back", "driver-2", "0 deg")["expected"] == ""
    assert "held on blocks" in call(*YEARLY, at=root).out


def test_a_reading_in_doubt_is_marked_on_the_demo_s_sheet(tmp_path: Path) -> None:
    called = call("sheet", "d-2", *DEMO, "--format", "markdown", at=tmp_path)
    assert called.code == 0
    (line,) = [one for one in called.out.splitlines() if "| 270 deg | LEFT |" in one]
    assert "3-1/16 in, 2026-02-14 (IN DOUBT)" in line


def test_a_page_names_engine_axle_wheelset_front_sides_and_datum(tmp_path: Path) -> None:
    out = call("sheet", "d-2", *DEMO, at=tmp_path).out
    for words in (
        "ENGINE 12",
        "DRIVER 2",
        "<b>d-2</b>",
        "FRONT",
        ">LEFT<",
        ">RIGHT<",
        "DATUM 0",
        "punch mark on the left",
    ):
        assert words in out
    for words in ("Measured by", "Second person", "Part temperature", "Air temperature", "loose on the rail",
                  "Clock position", "Not measured:", "Instruments used", "CAUTION"):  # fmt: skip
        assert words in out


# -- tires -----------------------------------------------------------------------------------------------------------


def test_a_receiving_sheet_has_the_order_three_angles_and_planes_and_both_temperatures(tmp_path: Path) -> None:
    out = call("sheet", "t-2603", "--purpose", "receiving", *DEMO, "--format", "markdown", at=tmp_path).out
    assert "**ORDERED FOR CENTER d-1-left ONLY**" in out
    assert "43.962 in to 43.968 in at 68 degF" in out
    assert re.search(r"\| At \| inner \| middle \| outer \|\n.*\n\| 0 deg .*\n\| 60 deg .*\n\| 120 deg ", out)
    assert "Temperature of the tire" in out
    assert "4480" in out  # the serial to read against the stamp


def test_the_day_a_tire_goes_on_has_its_figures_and_hold_points_in_order(tmp_path: Path) -> None:
    out = call("sheet", "d-1", "--purpose", "apply", *DEMO, at=tmp_path).out
    held = [out.index(f"HOLD POINT {number}") for number in range(1, 5)]
    assert held == sorted(held)
    assert out.index("Cautions") < held[0]
    for words in ("Heat the tire to", "Tread must grow", "Bright metal all round: center", "How many thick",
                  "inside 270 deg", "Feelers at the register", "Back-to-back of d-1", "TIRE t-2603",
                  "CENTER d-1-left"):  # fmt: skip
        assert words in out
    assert "the center was last measured 2014-01-11, and t-1211 has been on it since." in out


def test_a_tire_gets_its_receiving_sheet_first_and_once_read_the_sheet_of_the_day_it_goes_on(tmp_path: Path) -> None:
    root = fit_ledger(tmp_path)
    assert "The day a tire goes on: t-new on d-2-left" in call("sheet", "t-new", at=root).out
    assert "The day a tire goes on" in call("sheet", "t-new", "--purpose", "apply", at=root).out
    unread = next(root.rglob("*t-new*receiving*"), None)
    for path in root.rglob("inspections/**/*.yaml"):
        if "tire_bore" in path.read_text(encoding="utf-8"):
            path.unlink()
            unread = path
    assert unread is not None
    assert "Receiving sheet for tire t-new" in call("sheet", "t-new", at=root).out


def test_a_sheet_for_the_day_says_that_the_old_tire_went_on_after_the_center_was_measured(tmp_path: Path) -> None:
    asked, words = ("sheet", "t-new", "--purpose", "apply"), "2025-11-23, and t-2-left has been on it since"
    assert words not in call(*asked, at=fit_ledger(tmp_path / "off")).out
    out = " ".join(call(*asked, at=fit_ledger(tmp_path / "on", **{BACK_AT: BACK_ON})).out.split())
    assert words in out
    assert "before any heat: every figure here rests on it" in out


def test_lines_to_write_stand_one_below_the_other_on_paper_too(tmp_path: Path) -> None:
    out = call("sheet", "d-1", "--purpose", "apply", *DEMO, at=tmp_path).out
    assert "<pre>readings:\n  - quantity: tire_bore\n    part: t-2604\n    with: INSTRUMENT\n" in out


def test_a_fit_that_cannot_be_worked_out_still_gives_the_sheet_and_says_so(tmp_path: Path) -> None:
    root = small_ledger(tmp_path, FIRST_HOUR)
    called = call("sheet", "d-9", "--purpose", "apply", at=root)
    assert called.code == 0
    assert "no tire on record is ordered for this center" in called.out
    assert "Heat the tire to" not in called.out


# -- edges -----------------------------------------------------------------------------------------------------------


def test_the_first_hour_gives_a_usable_sheet(tmp_path: Path) -> None:
    root = small_ledger(tmp_path, FIRST_HOUR)
    called = call("sheet", "d-9", at=root)
    assert (called.code, called.err) == (0, "")
    assert "center outside diameter" in called.out
    assert "stands on no engine" in called.out
    assert "NOT on record: say what 0 deg is counted from" in called.out
    assert rows(root, "sheet", "d-9")


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("sheet", "d-22"), "there is no engine, wheelset, tire or center 'd-22'. Did you mean d-2?"),
        (("sheet", "e-1", "--purpose", "weekly"), "no plan is for 'weekly'. There are plans for: "),
        (("sheet", "e-1", "--purpose", "apply"), "name the tire or the wheelset"),
        (("sheet", "tw-1", "--purpose", "apply"), "tw-1 has no wheel center on record"),
        (("sheet", "t-1-left", "--purpose", "apply"), "no center on record is the one t-1-left is for"),
        (("sheet", "e-1", "-o", "ledger.yaml"), "nothing is overwritten"),
        (("sheet", "e-1", "--as-of", "soon"), "--as-of 'soon' is no day"),
    ],
)
def test_what_cannot_be_made_is_one_sentence_and_exit_2(tmp_path: Path, arguments: tuple[str, ...], said: str) -> None:
    called = call(*arguments, at=sheet_ledger(tmp_path))
    assert (called.code, called.out) == (2, "")
    assert said in called.err


def test_it_is_written_to_a_new_file(tmp_path: Path) -> None:
    root = sheet_ledger(tmp_path)
    called = call(*YEARLY, "-o", "sheet.html", at=root)
    assert (called.code, called.out, called.err) == (0, "", "Written: sheet.html\n")
    assert (root / "sheet.html").read_bytes() == call(*YEARLY, at=root).out.encode()


def test_the_same_boxes_give_the_same_id_and_one_reading_more_another(tmp_path: Path) -> None:
    root = sheet_ledger(tmp_path)
    ids = [promised(call(*YEARLY, "--format", "json", at=root).out)["result"]["sheet"] for _ in range(2)]
    (root / NEXT).write_text(READ.format(day="2026-02-20", thick="2 7/8 in", back="53.201 in"), encoding="utf-8")
    ids.append(promised(call(*YEARLY, "--format", "json", at=root).out)["result"]["sheet"])
    assert ids[0] == ids[1] != ids[2]
    assert re.fullmatch(r"e-1-yearly-2026-02-28-[0-9a-f]{8}", ids[0])


@pytest.mark.parametrize("arguments", [("e-12",), ("t-2603", "--purpose", "receiving"), ("d-1", "--purpose", "apply")])
@pytest.mark.parametrize("shape", ["html", "markdown"])
def test_a_sheet_is_the_same_to_the_byte_and_never_says_that_all_is_well(
    tmp_path: Path, arguments: tuple[str, ...], shape: str
) -> None:
    one, other = (call("sheet", *arguments, *DEMO, "--format", shape, at=tmp_path).out for _ in range(2))
    assert one == other
    assert not re.search(r"\b(safe|OK|fit to run)\b", one)
    assert "the authority having jurisdiction decide" in one


class Tags(HTMLParser):
    """The tags of a page, and whether any attribute acts."""

    def __init__(self) -> None:
        super().__init__()
        self.seen: set[str] = set()
        self.acts = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.add(tag)
        self.acts |= any(name.startswith("on") or name in ("href", "src") for name, _ in attrs)


EVIL = "<script>alert(1)</script><img src=x onerror=alert(2)> | `x` [y](javascript:z)"


@pytest.mark.parametrize("shape", ["html", "markdown"])
def test_text_of_a_record_acts_on_no_page(tmp_path: Path, shape: str) -> None:
    driver = (sheet_ledger(tmp_path / "a") / "drivers/d-2.yaml").read_text(encoding="utf-8")
    evil = re.sub(r"datum: .*", lambda _: f'datum: "{EVIL}"', driver)
    number = f'kind: engine\nnumber: "{EVIL}"\nwheelsets:\n  - {{at: driver-2, wheelset: d-2, from: 2020-01-01}}\n'
    root = sheet_ledger(tmp_path / "b", {"drivers/d-2.yaml": evil, "engines/e-1.yaml": number})
    called = call("sheet", "d-2", "--purpose", "yearly", "--format", shape, at=root)
    assert called.code == 0
    assert "\x1b" not in called.out
    assert "\u202e" not in called.out
    if shape == "html":
        tags = Tags()
        tags.feed(called.out)
        assert not tags.seen & {"script", "img", "a"}
        assert not tags.acts
    else:
        assert "<script" not in called.out.replace("\\<", "")


def test_a_center_on_the_bench_is_named_and_is_not_headed_the_engine(tmp_path: Path) -> None:
    out = call("sheet", "d-1-left", "--purpose", "shop", at=small_ledger(tmp_path)).out
    assert "CENTER d-1-left" in out
    assert "THE ENGINE" not in out


def test_two_readers_figures_may_take_a_second_line_in_their_cell_and_never_run_into_the_box(tmp_path: Path) -> None:
    page = call("sheet", "e-1", "--purpose", "annual", at=small_ledger(tmp_path)).out
    style = page[page.index("<style>") : page.index("</style>")]
    assert not re.search(r"td\.known[^}]*nowrap", style)


def test_a_dash_for_the_file_prints_the_sheet_and_writes_none(tmp_path: Path) -> None:
    root = sheet_ledger(tmp_path)
    said = call(*YEARLY, "--format", "markdown", "-o", "-", at=root)
    assert said.out == call(*YEARLY, "--format", "markdown", at=root).out
    assert not (root / "-").exists()
