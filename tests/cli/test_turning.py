"""`turning`: figures by hand, the cases of the match, what it will not guess, what it refuses, what it keeps."""

from __future__ import annotations

import re
import shutil
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from tests.cli.commands import TOP, call, promised, unweighed
from tests.cli.turning_ledger import AT, FLAGS, FLAT, READ, inspection, turning_ledger

from axlebook.reports.turning_words import seasons

INCH = 0.0254
GOLDEN = Path(__file__).parent / "golden" / "turning-e-12.txt"


def result(root: Path, *flags: str) -> dict[str, Any]:
    return dict(promised(call("turning", "e-1", *flags, "--format", "json", at=root).out)["result"])


def way(told: dict[str, Any], name: str) -> dict[str, Any]:
    return next(row for row in told["rows"] if row["way"] == name and not row["place"])


def wheel(told: dict[str, Any], name: str, place: str) -> dict[str, float]:
    row = next(row for row in told["rows"] if row["way"] == name and row["place"] == place)
    return {f["name"]: float(f["value"]) * (1 if f["unit"] == "in" else 1 / INCH) for f in row["figures"]}


def words(called_out: str) -> str:
    return re.sub(r"\s+", " ", called_out)


def test_a_limit_on_the_tire_that_lacks_a_fact_is_missing_and_never_told_as_none(tmp_path: Path) -> None:
    root = unweighed(turning_ledger(tmp_path))
    told = words(call("turning", "e-1", *FLAGS, at=root).out)
    assert "MISSING: every wheel: how thin the tire may become, not on record: axle load." in told
    assert "Write `weight_on_drivers` in the engine's record" in told
    told = words(call("turning", "e-1", *FLAGS, "--all", at=root).out)
    assert "limit NOT KNOWN" in told
    assert "no limit on file" not in told.partition("AFTER")[2].partition("MATCH")[0]


# -- new tires larger or smaller than what was on ---------------------------------------------------------------------


def test_larger_new_tires_are_told_as_a_rise_and_under_no_old_tire_s_name(tmp_path: Path) -> None:
    # All at 50 in; two come to 50 3/16, the most that a limit of 3/16 in the set leaves: their axle rises 3/32, the
    # mean of both axles 3/64 in; 3/32 in of mean diameter in 50 are 0.19 percent.
    flags = ("turning", "e-1", *FLAGS, "--re-tire", "driver-1", "--new-diameter", "52 1/32 in", "--clean-up", "1/64 in")
    root = turning_ledger(tmp_path, {"tread_diameter": ("50 in",) * 4})
    told = words(call(*flags, "--all", at=root).out)
    assert "Engine higher by: about 0.047 in, half of what goes onto the diameters (axle by axle 0.000 in" in told
    assert "it reads 0.2 percent lower than before" in told
    assert "stand that much closer to a tread that has grown: slack off" in told
    assert "farther" not in told
    assert "-0." not in told.partition("WHAT THE NEW DIAMETER MOVES")[2].partition("BEFOREHAND")[0]
    # .016 in kept free each way of a limit of 3/32 in from the average, to which a pair counts half: 50.1875 - .064
    smaller = "NO TOLERANCE left by the limits: 50.1235 in would leave +0, -0.032 in"
    assert f"Wheel driver-1 left; Tire new tire; Diameter 50.1875 in; Tolerance {smaller}" in told
    assert f"The lathe: 50.1875 in, {smaller} (--tolerance '0.016 in');" in told
    again = words(call(*flags, "--tolerance", "0.016 in", "--all", at=root).out)
    assert "The lathe: 50.1235 in, +0, -0.032 in;" in again
    assert "-0.000" not in told


def test_a_tire_cut_to_its_limit_is_told_that_no_smaller_size_leaves_a_tolerance(tmp_path: Path) -> None:
    # 1.7185 in less the cut of .3435 is 1 3/8 in, the limit of the table; a smaller size would go past it
    root = turning_ledger(tmp_path, {"tire_thickness": ("1.7185 in", "2 1/2 in", "2 1/2 in", "2 1/2 in")})
    told = words(call("turning", "e-1", *FLAGS, "--all", at=root).out)
    none = "NO TOLERANCE left by the limits, and no smaller size leaves one"
    assert f"Wheel driver-1 left; Tire t-1-left; Diameter 49.313 in; Tolerance {none}" in told
    assert "ask for a smaller size" not in told


# -- figures by hand --------------------------------------------------------------------------------------------------


def test_a_flange_costs_its_gain_times_the_tangent_once_on_the_tire_and_twice_on_the_diameter(tmp_path: Path) -> None:
    told = wheel(result(turning_ledger(tmp_path), *FLAGS), "turn all, one size", "driver-1 left")
    assert told["least_depth"] == pytest.approx(0.3435, abs=1e-9)
    assert told["off_the_diameter"] == pytest.approx(0.687, abs=1e-9)
    assert told["finished_diameter"] == pytest.approx(49.313, abs=1e-9)
    # 38,000 lb an axle on 44 in: 1 3/8 in by the table; 2.5 - .3435 - 1.375
    assert told["left_to_limit"] == pytest.approx(0.7815, abs=1e-9)
    assert told["turnings_left"] * INCH == pytest.approx(2)


def test_without_a_flange_in_need_the_hollow_rules(tmp_path: Path) -> None:
    root = turning_ledger(tmp_path, {"flange_thickness": ("1 1/8 in",) * 4})
    assert wheel(result(root, *FLAGS), "turn all, one size", "driver-2 left")["finished_diameter"] == 49.75


def test_clean_up_comes_once_on_top(tmp_path: Path) -> None:
    root = turning_ledger(tmp_path, {"flange_thickness": ("1 1/8 in",) * 4})
    told = wheel(result(root, *FLAGS, "--clean-up", "1/64 in"), "turn all, least metal", "driver-1 left")
    assert told["least_depth"] == pytest.approx(9 / 64, abs=1e-12)


def test_a_flat_asks_for_its_depth(tmp_path: Path) -> None:
    # 8 in long on 50 1/32: 64 / (4 x 50.03125) = .3198, told as .3200
    told = result(turning_ledger(tmp_path, more=FLAT.replace("2 in", "8 in")), *FLAGS)
    assert wheel(told, "turn all, one size", "driver-2 left")["least_depth"] == pytest.approx(0.32, abs=1e-9)


def test_a_template_s_own_cut_wins_the_smaller_too(tmp_path: Path) -> None:
    told = result(turning_ledger(tmp_path), *FLAGS, "--cut", "driver-1 left=0.2 in")
    assert wheel(told, "turn all, one size", "driver-1 left")["finished_diameter"] == pytest.approx(49.6, abs=1e-9)


def test_inch_and_millimetre_give_one_answer(tmp_path: Path) -> None:
    in_mm = {"tread_diameter": ("1270 mm", "1270 mm", "1270.79375 mm", "1270.79375 mm")}
    inch, metric = (result(turning_ledger(tmp_path / n, r), *FLAGS) for n, r in (("a", {}), ("b", in_mm)))
    assert inch["rows"] == metric["rows"]


# -- the match --------------------------------------------------------------------------------------------------------


def test_the_least_metal_plan_lands_on_the_limit_and_is_within(tmp_path: Path) -> None:
    told = result(turning_ledger(tmp_path), *FLAGS)
    assert way(told, "turn all, least metal")["possible"]
    low = wheel(told, "turn all, least metal", "driver-1 left")["finished_diameter"]
    high = wheel(told, "turn all, least metal", "driver-2 left")
    assert high["finished_diameter"] == low + 3 / 32
    assert high["may_be_less_by"] == 0


def test_a_single_pair_is_held_to_the_average_of_the_base(tmp_path: Path) -> None:
    # hollow 1/8: the pair may be 49.75, the others are 50 1/32: average 49.890625, .140625 above: out; a hollow of
    # 3/64 leaves 49.90625, average 49.96875, exactly 1/16 below: within
    out = result(turning_ledger(tmp_path / "a", {"flange_thickness": ("1 1/8 in",) * 4}), *FLAGS, "--only", "driver-1")
    assert way(out, "turn driver-1 only")["why"].startswith("the wheels that are left alone")
    read = {"flange_thickness": ("1 1/8 in",) * 4, "tread_hollow": ("3/64 in", "3/64 in", "0 in", "0 in")}
    within = result(turning_ledger(tmp_path / "b", read), *FLAGS, "--only", "driver-1")
    assert way(within, "turn driver-1 only")["possible"]
    assert way(within, "turn driver-1 only")["set_case"] == "single pair"


def test_a_single_tire_is_held_to_the_wheel_opposite(tmp_path: Path) -> None:
    read = {"flange_thickness": ("1 1/8 in",) * 4, "tread_hollow": ("3/64 in", "0 in", "0 in", "0 in")}
    told = way(
        result(turning_ledger(tmp_path / "a", read), *FLAGS, "--only", "driver-1 left"), "turn driver-1 left only"
    )
    assert (told["possible"], told["set_case"]) == (True, "single tire")  # 3/32 exactly
    read["tread_hollow"] = ("4/64 in", "0 in", "0 in", "0 in")
    told = way(
        result(turning_ledger(tmp_path / "b", read), *FLAGS, "--only", "driver-1 left"), "turn driver-1 left only"
    )
    assert not told["possible"]


def test_a_tolerance_is_kept_free_of_the_match_limits(tmp_path: Path) -> None:
    told = result(turning_ledger(tmp_path), *FLAGS, "--tolerance", "1/64 in")
    low, high = (wheel(told, "turn all, least metal", p) for p in ("driver-1 left", "driver-2 left"))
    assert high["finished_diameter"] - low["finished_diameter"] == pytest.approx(2 / 32, abs=1e-12)
    assert high["may_be_less_by"] == pytest.approx(1 / 32, abs=1e-12)


# -- tires that are too thin, and new ones ----------------------------------------------------------------------------


def test_a_tire_that_would_fall_under_its_limit_is_shown_for_re_tiring(tmp_path: Path) -> None:
    root = turning_ledger(tmp_path, {"tire_thickness": ("1 11/16 in", "2 1/2 in", "2 1/2 in", "2 1/2 in")})
    called = call("turning", "e-1", *FLAGS, at=root)
    assert called.code == 1
    assert "RE-TIRE driver-1 left" in words(called.out)
    assert "1.344 in; condemning: out under 1 3/8 in" in words(called.out)
    assert not way(result(root, *FLAGS), "turn all, one size")["possible"]


def test_a_figure_of_which_the_card_is_not_sure_is_said_to_be_one(tmp_path: Path) -> None:
    root = turning_ledger(tmp_path)
    sure = "place: driver-2 left, with: rule-1, values: {worst: 2 1/2 in}"
    text = (root / AT).read_text()
    assert text.count(sure) == 1
    (root / AT).write_text(text.replace(sure, f"{sure}, sure: uncertain"))
    causes = [gap["cause"] for gap in result(root, *FLAGS)["missing"]]
    assert "driver-2 left, tire thickness: the card it stands on is not sure of it" in causes
    assert sum("not sure" in cause for cause in causes) == 1


def test_a_tire_left_with_exactly_its_limit_is_within(tmp_path: Path) -> None:
    thin = {"tire_thickness": ("1 1/2 in",) * 4, "flange_thickness": ("1 1/8 in",) * 4}
    told = result(turning_ledger(tmp_path, {**thin, "tread_diameter": ("50 in",) * 4}), *FLAGS)
    assert way(told, "turn all, one size")["possible"]
    assert wheel(told, "turn all, one size", "driver-1 left")["left_to_limit"] == 0


def test_new_tires_are_sized_by_flag_and_the_old_ones_count_as_metal(tmp_path: Path) -> None:
    told = result(turning_ledger(tmp_path), *FLAGS, "--re-tire", "driver-1", "--new-thickness", "3 1/16 in")
    name = "re-tire driver-1, leave the others"
    # 44 + 6 1/8 = 50 1/8; a pair d with two of 50 1/32 may be (100 1/16 + 4 x 3/32) / 2 = 50 7/32: nothing to turn
    assert wheel(told, name, "driver-1 left")["finished_diameter"] == 50.125
    metal = {f["name"]: float(f["value"]) for f in way(told, name)["figures"]}["metal"]
    assert metal / INCH == pytest.approx(2 * (2.5 - 1.375), abs=1e-9)


def test_the_new_tire_on_record_gives_its_size_and_one_not_received_is_told(tmp_path: Path) -> None:
    tire = "kind: tire\nform: {nominal_thickness: 3 in, flange: flanged, fastened_by: nothing}\n"
    files = {
        f"tires/t-new-{side}.yaml": f"{tire}ordered: {{for_center: d-1-{side}{received}}}\n"
        for side, received in (("left", ", received_on: 2026-01-10"), ("right", ""))
    }
    told = result(turning_ledger(tmp_path, files=files), *FLAGS, "--re-tire", "driver-1")
    assert wheel(told, "re-tire driver-1, leave the others", "driver-1 left")["finished_diameter"] == 50
    assert [gap["cause"] for gap in told["missing"] if "receipt of" in gap["cause"]] == [
        "driver-1 right: receipt of t-new-right: its size is the one ordered not on record; a cut may have to be deeper"
    ]


def test_a_tire_ordered_later_than_the_day_asked_for_is_not_known_then(tmp_path: Path) -> None:
    tire = "kind: tire\nform: {nominal_thickness: 3 in, flange: flanged, fastened_by: nothing}\n"
    files = {
        f"tires/t-new-{side}.yaml": f"{tire}ordered: {{for_center: d-1-{side}, ordered_on: 2026-02-10}}\n"
        for side in ("left", "right")
    }
    root = turning_ledger(tmp_path, files=files)
    assert call("turning", "e-1", *FLAGS, "--re-tire", "driver-1", at=root).code == 0
    called = call("turning", "e-1", *FLAGS, "--re-tire", "driver-1", "--as-of", "2026-02-05", at=root)
    assert (called.code, "none on record is for it" in called.err) == (2, True)


def test_a_cut_that_leaves_nothing_says_so(tmp_path: Path) -> None:
    called = call("turning", "e-1", "--flange", "2 in", "--flange-angle", "80 deg", at=turning_ledger(tmp_path))
    assert called.code == 1
    assert "tire thickness: nothing; condemning" in words(called.out)


# -- how a railway turns ----------------------------------------------------------------------------------------------

PRACTICE = """kind: limit-set
source: {title: Our notebook (invented), edition: of 2019}
decision: as written
practices:
  - {id: flange, quantity: turning_flange_thickness, value: 1 1/8 in, stage: new, clause: page 1,
     applies_to: {contour: template-b}}
  - {id: angle, quantity: turning_flange_angle, value: 70 deg, stage: practice, clause: page 1,
     applies_to: {contour: template-b}}
  - {id: clean-up, quantity: turning_clean_up, value: 0.01 in, stage: practice, clause: page 1}
"""


def practised(folder: Path, contour: str, practice: str = PRACTICE) -> Path:
    root = turning_ledger(folder, files={"limits/ours.yaml": practice})
    adopted = "    - set: ours\n      adopted_on: 2019-01-01\n      adopted_by: lead\nreference_temperature"
    ledger = (root / "ledger.yaml").read_text(encoding="utf-8").replace("reference_temperature", adopted)
    (root / "ledger.yaml").write_text(ledger, encoding="utf-8")
    tire = root / "tires" / "t-1-left.yaml"
    tire.write_text(tire.read_text(encoding="utf-8") + f"  contour: {contour}\n", encoding="utf-8")
    return root


def test_a_practice_on_file_gives_flange_angle_and_clean_up_to_its_contour_alone(tmp_path: Path) -> None:
    told = result(practised(tmp_path / "a", "template-b"))
    assert wheel(told, "turn all, one size", "driver-1 left")["least_depth"] == pytest.approx(0.3535, abs=1e-9)
    other = result(practised(tmp_path / "b", "template-c"))
    assert any("what the flange is brought back to" in gap["cause"] for gap in other["missing"])


def test_a_flag_stands_in_place_of_the_practice(tmp_path: Path) -> None:
    told = result(practised(tmp_path, "template-b"), "--clean-up", "0 in")
    assert wheel(told, "turn all, one size", "driver-1 left")["least_depth"] == pytest.approx(0.3435, abs=1e-9)


def test_a_practice_of_the_wrong_dimension_is_found_and_not_used(tmp_path: Path) -> None:
    root = practised(tmp_path, "template-b", PRACTICE.replace("70 deg", "70 in"))
    found = promised(call("check", "--format", "json", at=root).out)["findings"]
    assert any(f["path"] == "limits/ours.yaml" and "70 in" in f["message"] for f in found)
    told = way(result(root), "turn all, one size")
    assert not told["possible"]


# -- nothing is guessed -----------------------------------------------------------------------------------------------


def test_without_an_angle_the_flange_after_it_is_not_assessed(tmp_path: Path) -> None:
    told = way(result(turning_ledger(tmp_path), "--flange", "1 1/8 in"), "turn all, one size")
    assert not told["possible"]
    called = call("turning", "e-1", "--flange", "1 1/8 in", "--all", at=turning_ledger(tmp_path / "b"))
    assert "NOT ASSESSED: the flange after it, without its angle: driver-1 left" in words(called.out)


def test_a_diameter_not_read_is_said_and_no_set_is_matched(tmp_path: Path) -> None:
    root = turning_ledger(tmp_path, {"tread_diameter": ("50 in", "50 in", "50 in", "")})
    called = call("turning", "e-1", *FLAGS, at=root)
    assert called.code == 1
    assert "turn all, one size: NOT POSSIBLE: tread diameter not on record of 1 of 4 wheels" in words(called.out)
    assert "driver-2 right: tread diameter not on record; without it no way can be worked out" in words(called.out)
    assert words(called.out).count("driver-2 right") == 1
    hollow = turning_ledger(tmp_path / "b", {"tread_hollow": ("", "1/8 in", "1/8 in", "1/8 in")})
    assert "tread worn hollow not on record; a cut may have to be deeper" in words(
        call("turning", "e-1", *FLAGS, at=hollow).out
    )


def test_diameters_that_nobody_read_are_told_once_and_the_ways_that_lack_them_once(tmp_path: Path) -> None:
    bare = turning_ledger(tmp_path, {"tread_diameter": ("", "", "", "")})
    short, whole = (words(call("turning", "e-1", *FLAGS, *more, at=bare).out) for more in ((), ("--all",)))
    assert short.count("tread diameter not on record of 4 of 4 wheels") == 1
    assert "diameter not on record: driver-1 left" not in whole
    assert "every wheel: tread diameter not on record; without it no way can be worked out" in short
    assert "turn all, least metal" not in short
    assert "turn all, least metal: NOT POSSIBLE: tread diameter not on record of 4 of 4 wheels" in whole


def test_a_star_is_explained_where_there_is_one(tmp_path: Path) -> None:
    bare = turning_ledger(tmp_path / "bare", {"tread_diameter": ("", "", "", "")})
    told = words(call("turning", "e-1", *FLAGS, at=bare).out)
    assert "NOT POSSIBLE" in told
    assert "betters it" not in told
    assert "*: no other way betters it" in words(call("turning", "e-1", *FLAGS, at=turning_ledger(tmp_path)).out)


def test_a_diameter_read_before_the_last_turning_is_not_taken(tmp_path: Path) -> None:
    turned = {"turnings/2026/2026-02-10-e-1.yaml": "kind: turning\nturned_on: 2026-02-10\ntires: [t-1-left]\n"}
    told = result(turning_ledger(tmp_path, files=turned), *FLAGS)
    assert "not read since 2026-02-10-e-1" in " ".join(gap["cause"] for gap in told["missing"])


def test_a_hollow_not_read_is_said(tmp_path: Path) -> None:
    root = turning_ledger(tmp_path, {"tread_hollow": ("", "1/8 in", "1/8 in", "1/8 in")})
    assert "driver-1 left: tread worn hollow not on record" in words(call("turning", "e-1", *FLAGS, at=root).out)


def test_what_was_not_read_at_one_wheel_is_told_together(tmp_path: Path) -> None:
    missing = ("", "1/8 in", "1/8 in", "1/8 in")
    root = turning_ledger(tmp_path, {"tread_hollow": missing, "flange_height": missing})
    told = words(call("turning", "e-1", *FLAGS, at=root).out)
    assert "MISSING: driver-1 left: tread worn hollow, flange height not on record; a cut may have to be" in told
    assert "Read them before anything is booked." in told


def test_waiting_needs_a_rate_of_wear(tmp_path: Path) -> None:
    told = result(turning_ledger(tmp_path), *FLAGS)
    assert any(gap["cause"].startswith("wait a season") for gap in told["missing"])


def test_a_season_takes_its_wear_off_the_diameter_and_not_half_of_it(tmp_path: Path) -> None:
    # 0.1 in on diameter and .05 in off the tire a year, three years running; all else stays as it is
    earlier = {
        f"inspections/{year}/{year}-02-01-e-1-annual.yaml": inspection(
            {**READ, "flange_thickness": ("1 1/8 in",) * 4, "tread_hollow": ("1/16 in",) * 4,
             "tread_diameter": (f"{50 + 0.1 * (2026 - year):.2f} in",) * 4,
             "tire_thickness": (f"{2.5 + 0.05 * (2026 - year):.2f} in",) * 4}, f"{year}-02-01")
        for year in (2023, 2024, 2025, 2026)
    }  # fmt: skip
    told = result(turning_ledger(tmp_path, files=earlier), *FLAGS)
    later = wheel(told, "wait a season, then turn all", "driver-1 left")
    assert later["finished_diameter"] == pytest.approx(50 - 0.1 - 0.125, abs=0.0015)  # told in thousandths
    assert later["left_to_limit"] == pytest.approx(2.5 - 0.05 - 0.0625 - 1.375, abs=0.0015)


# -- what is refused --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("flags", "says"),
    [
        (["e-9"], "there is no engine 'e-9'"),
        (["e-1", "--only", "driver-9"], "no place 'driver-9'"),
        (["e-1", "--re-tire", "tender-1"], "no place 'tender-1'"),
        (["e-1", "--re-tire", "driver-1"], "size of a new tire"),
        (["e-1", "--re-tire", "driver-1", "--new-diameter", "40 in"], "leaves no thickness"),
        (["e-1", "--new-thickness", "3 in"], "--re-tire is missing"),
        (["e-1", "--cut", "driver-1"], "PLACE=DEPTH"),
        (["e-1", "--cut", "driver-1=-1 in"], "must not be negative"),
        (["e-1", "--cut", "driver-1=3 in"], "driver-1 left is not that thick"),
        (["e-1", "--flange", "1.125"], "no unit"),
        (["e-1", "--flange", "0 in"], "more than zero"),
        (["e-1", "--flange-angle", "90 deg"], "less than a right angle"),
        (["e-1", "--save", "what-if"], "begin with its date"),
        (["e-1", "--as-of", "soon"], "is no day"),
    ],
)
def test_what_cannot_be_is_refused_by_its_name(tmp_path: Path, flags: list[str], says: str) -> None:
    called = call("turning", *flags, at=turning_ledger(tmp_path))
    assert (called.code, called.out) == (2, "")
    assert says in called.err


# -- what is kept -----------------------------------------------------------------------------------------------------


def test_a_draft_is_kept_and_is_not_work_that_was_done(tmp_path: Path) -> None:
    root = turning_ledger(tmp_path)
    before = promised(call("check", "--format", "json", at=root).out)["findings"]
    called = call("turning", "e-1", *FLAGS, "--save", "2026-04-01-e-1-what-if", at=root)
    assert called.code == 0
    path = root / "turnings" / "2026" / "2026-04-01-e-1-what-if.yaml"
    text = path.read_text(encoding="utf-8")
    assert 't-1-left: "0.687 in"' in text
    assert "draft: yes" in text
    assert promised(call("check", "--format", "json", at=root).out)["findings"] == before
    again = result(root, *FLAGS)
    assert wheel(again, "turn all, one size", "driver-1 left")["off_the_diameter"] == pytest.approx(0.687, abs=1e-9)


def test_a_draft_is_never_written_over_another_record(tmp_path: Path) -> None:
    root = turning_ledger(tmp_path)
    text = (root / AT).read_bytes()
    for _ in range(2):
        called = call("turning", "e-1", *FLAGS, "--save", "2026-02-01-e-1-annual", at=root)
        assert (called.code, (root / AT).read_bytes()) == (2, text)


def test_what_is_not_possible_is_not_kept(tmp_path: Path) -> None:
    called = call("turning", "e-1", *FLAGS, "--only", "driver-1", "--save", "2026-04-01-x", at=turning_ledger(tmp_path))
    assert called.code == 2
    assert "nothing was saved" in called.err


def test_what_new_tires_alone_cannot_do_names_the_call_that_turns_the_others_too(tmp_path: Path) -> None:
    flags = (*FLAGS, "--re-tire", "driver-1", "--new-thickness", "2 1/2 in", "--save", "2026-04-01-x")
    root = turning_ledger(tmp_path)
    called = call("turning", "e-1", *flags, at=root)
    assert called.code == 2
    assert "To turn the others too, add: --only driver-2" in called.err
    assert call("turning", "e-1", *flags, "--only", "driver-2", at=root).code != 2


def test_a_tire_that_nobody_measured_is_not_told_to_have_no_limit_nor_to_last(tmp_path: Path) -> None:
    root = turning_ledger(tmp_path, {"tire_thickness": ("2 1/2 in", "2 1/2 in", "2 1/2 in", "")})
    told = words(call("turning", "e-1", *FLAGS, "--all", at=root).out)
    assert "Left to the limit thickness NOT READ" in told
    assert "no limit on file" not in told


# -- how it is told ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("shape", ["text", "markdown", "html", "json"])
def test_every_shape_tells_the_common_diameter_and_never_that_it_is_safe(tmp_path: Path, shape: str) -> None:
    called = call("turning", "e-1", *FLAGS, "--format", shape, at=turning_ledger(tmp_path))
    assert called.code == 0
    assert "49.313" in called.out
    assert not re.search(r"\b(safe|OK|fit to run)\b", called.out)


def test_the_set_is_told_what_the_new_diameter_moves(tmp_path: Path) -> None:
    # all to 49.313: half of .687 on one axle and of .71825 on the other, .3513 in the mean
    out = words(call("turning", "e-1", *FLAGS, "--all", at=turning_ledger(tmp_path)).out)
    assert "Engine lower by: about 0.351 in" in out
    assert "no limit set in force says what to look at after a turning" in out


@pytest.mark.parametrize(
    ("lasts", "told"), [("1/2", "less than a season"), ("3/2", "about 1 season"), ("5/2", "about 2 seasons")]
)
def test_one_season_is_told_as_one(lasts: str, told: str) -> None:
    assert seasons(float(Fraction(lasts))) == told


def test_the_demo_s_engine_12_reads_as_it_was_looked_over(tmp_path: Path) -> None:
    shutil.copytree(TOP / "demo-ledger", tmp_path / "demo")
    called = call("turning", "e-12", at=tmp_path / "demo")
    assert called.code == 0
    assert len(called.lines) <= 24
    assert called.out == GOLDEN.read_text(encoding="utf-8")
