"""`bore`: the order for one measured center: band and table by hand, and nothing that could be mixed up."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.cli.commands import call, promised
from tests.cli.fit_ledger import (
    BACK_AT,
    BACK_ON,
    BORE_AT,
    BORE_READ,
    CENTER_AT,
    CENTER_READ,
    LEDGER,
    NO_TOLERANCE,
    OURS,
    TIRE,
    fit_ledger,
)

from axlebook.records.bore_order import bore_band

INCH = Fraction("0.0254")
THOU = INCH / 1000
# A micrometer that is good to .002 in with a coverage of 2: .001 in standard; read at 68 degF.
MICROMETER = """kind: instrument
type: outside micrometer
expansion: reads true length
expanded_uncertainty: 0.002 in
coverage_factor: "2"
"""
AT_68 = CENTER_READ.replace("60 1/2 degF", "68 0/1 degF").replace("44.012 in", "44.0105 in")


def ledger(folder: Path, **changed: str) -> Path:
    """A center read 44.0105 in at 68 degF, its guard band .001645 in."""
    return fit_ledger(folder, **{CENTER_AT: AT_68, "instruments/true-1.yaml": MICROMETER, **changed})


def result(root: Path) -> Any:
    """The order as JSON."""
    return promised(call("bore", "d-2-left", "--format", "json", at=root).out)["result"]


def figure(root: Path, name: str) -> str:
    """One figure of the order as text."""
    return next(str(f["value"]) for f in result(root)["figures"] if f["name"] == name)


def test_a_center_that_its_card_is_not_sure_of_is_to_be_measured_before_any_cut(tmp_path: Path) -> None:
    unsure = AT_68.replace("center_diameter, ", "center_diameter, sure: uncertain, ")
    told = " ".join(call("bore", "d-2-left", "--all", at=ledger(tmp_path, **{CENTER_AT: unsure})).out.split())
    assert "the center's reading of 2025-11-23 is marked uncertain" in told
    assert "marked uncertain" not in call("bore", "d-2-left", "--all", at=ledger(tmp_path / "sure")).out


def test_the_bore_is_center_less_practice_narrowed_by_the_guard_band_and_rounded_inward(tmp_path: Path) -> None:
    root = ledger(tmp_path)
    # 44.0105 - .052 + .001645 = 43.960145 -> 43.961; 44.0105 - .042 - .001645 = 43.966855 -> 43.966
    assert figure(root, "bore_least") == "43.961"
    assert figure(root, "bore_most") == "43.966"
    assert figure(root, "bore_aim") in ("43.963", "43.964")
    called = call("bore", "d-2-left", at=root)
    assert "Bore the tire to: 43.961 in (1116.609 mm) to 43.966 in (1116.736 mm)." in called.out


def test_a_size_to_be_worked_to_keeps_its_last_zero(tmp_path: Path) -> None:
    # 44.0095 - .052 + .001645 = 43.959145 -> 43.960; 44.0095 - .042 - .001645 = 43.965855 -> 43.965
    lowered = AT_68.replace("44.0105 in", "44.0095 in")
    called = call("bore", "d-2-left", at=ledger(tmp_path, **{CENTER_AT: lowered}))
    assert "Bore the tire to: 43.960 in (1116.584 mm) to 43.965 in (1116.711 mm)." in called.out


@settings(max_examples=60, deadline=None)
@given(
    center=st.fractions(10, 70), least=st.fractions(0, Fraction(1, 10)), width=st.fractions(0, Fraction(1, 50)),
    band=st.fractions(0, Fraction(1, 100)),
)  # fmt: skip
def test_every_bore_of_the_band_is_in_the_practice_whatever_the_center_s_reading_hides(
    center: Fraction, least: Fraction, width: Fraction, band: Fraction
) -> None:
    center, least, width, band = (value * INCH for value in (center, least, width, band))
    found = bore_band(center, least, least + width, band, THOU)
    if found is None:
        assert width < 2 * band + 2 * THOU
        return
    assert found.least <= found.aim <= found.most
    assert abs(found.aim - (found.least + found.most) / 2) <= THOU / 2
    for bore in (found.least, found.aim, found.most):
        assert (bore / THOU).denominator == 1 or (bore is found.aim and found.most - found.least == THOU)
        for true_center in (center - band, center + band):
            assert least <= true_center - bore <= least + width


def test_the_table_tells_what_to_read_at_60_degrees(tmp_path: Path) -> None:
    rows = call("bore", "d-2-left", "--all", at=ledger(tmp_path)).out.splitlines()
    at_60 = [row.split() for row in rows if row.strip().startswith("60 degF")]
    # true length: 43.961 x (1 - 6.5e-6 x 8) = 43.958714 -> 43.959; 43.966 x the same = 43.963714 -> 43.963
    assert [at_60[0][2], at_60[0][-2]] == ["43.959", "43.963"]
    # steel, 11.5e-6 /K: 43.961 x 0.999948 / 0.9999489 = 43.96096 -> 43.961; 43.96596 -> 43.965
    assert [at_60[1][2], at_60[1][-2]] == ["43.961", "43.965"]


def test_an_inside_order_is_said_to_be_inside_and_exits_0(tmp_path: Path) -> None:
    inside = TIRE.replace("43.963 in, at_most: 43.968 in", "43.962 in, at_most: 43.965 in")
    bored = BORE_READ.replace("43.965", "43.961")
    root = ledger(tmp_path, **{"tires/t-new.yaml": inside, BORE_AT: bored})
    called = call("bore", "d-2-left", at=root)
    assert "On order for t-new: 43.962 in to 43.965 in: inside the bore above." in called.out
    assert called.code == 0


def test_an_order_that_reaches_beyond_the_practice_is_an_alarm(tmp_path: Path) -> None:
    called = call("bore", "d-2-left", at=ledger(tmp_path, **{"tires/t-new.yaml": TIRE.replace("43.968", "43.970")}))
    assert "REACHES BEYOND the practice" in called.out
    assert called.code == 1


def test_an_order_wider_than_the_center_s_uncertainty_allows_is_said(tmp_path: Path) -> None:
    assert "wider than the bore above" in call("bore", "d-2-left", at=ledger(tmp_path)).out


def test_without_a_tolerance_on_file_there_is_none_on_the_sheet(tmp_path: Path) -> None:
    called = call("bore", "d-2-left", at=ledger(tmp_path, **{"limits/ours.yaml": NO_TOLERANCE}))
    assert "NO TOLERANCE: the adopted practice gives none" in " ".join(called.out.split())
    assert called.code == 1


def test_one_single_size_is_no_tolerance() -> None:
    assert bore_band(44005 * THOU, 42 * THOU, 52 * THOU, 5 * THOU, THOU) is None
    found = bore_band(44005 * THOU, 42 * THOU, 52 * THOU, 4 * THOU, THOU)
    assert found is not None
    assert (found.least, found.most) == (43957 * THOU, 43959 * THOU)


def test_a_narrow_band_keeps_its_least_below_its_most_at_every_temperature(tmp_path: Path) -> None:
    # guard band 1.645 * .0054 / 2 = .00444 in: 43.9585 + .00444 = 43.96294, up to .963; 43.9685 - .00444 down to .964
    narrow = ledger(tmp_path, **{"instruments/true-1.yaml": MICROMETER.replace("0.002 in", "0.0054 in")})
    assert (figure(narrow, "bore_least"), figure(narrow, "bore_most")) == ("43.963", "43.964")
    rows = re.findall(r"^ +\d+ degF +([\d.]+) in +([\d.]+) in +([\d.]+) in$", call("bore", "d-2-left", "--all",
                      at=narrow).out, re.MULTILINE)  # fmt: skip
    assert len(rows) > 10
    for row in rows:
        least, aim, most = map(Fraction, row)
        assert least <= aim <= most
        assert least < most


def test_readings_too_uncertain_leave_no_tolerance(tmp_path: Path) -> None:
    coarse = MICROMETER.replace("0.002 in", "0.010 in")
    called = call("bore", "d-2-left", at=ledger(tmp_path, **{"instruments/true-1.yaml": coarse}))
    assert "too uncertain to leave a tolerance" in " ".join(called.out.split())
    assert called.code == 1


# A practice of .003 in each way: .006 in in all. The center read .0005 in larger, good to 1.645 x .0029 / 2 = .002385:
# 44.011 - .050 + .002385 = 43.963385 -> 43.964, and 44.011 - .044 - .002385 = 43.964615 -> 43.964.
THREE_THOU = {
    "limits/ours.yaml": OURS.replace("minus: 0.005 in, plus: 0.005 in", "minus: 0.003 in, plus: 0.003 in"),
    "instruments/true-1.yaml": MICROMETER.replace("0.002 in", "0.0029 in"),
    CENTER_AT: AT_68.replace("44.0105 in", "44.0110 in"),
}


@pytest.mark.parametrize("shape", ["text", "html", "json"])
def test_where_one_single_size_is_left_it_is_told_how_well_the_center_must_be_measured(
    tmp_path: Path, shape: str
) -> None:
    called = call("bore", "d-2-left", "--all", "--format", shape, at=ledger(tmp_path, **THREE_THOU))
    told = " ".join(called.out.split())
    assert "NONE: the practice accepts 0.006 in (0.152 mm) in all" in told
    assert "Measure the center again, good to 0.002 in (0.051 mm) or better" in told
    assert "43.964" not in told
    assert called.code == 1


def test_a_practice_of_no_width_is_not_blamed_on_the_center_s_readings(tmp_path: Path) -> None:
    one = {"limits/ours.yaml": OURS.replace("minus: 0.005 in, plus: 0.005 in", "minus: 0.001 in, plus: 0.001 in")}
    called = call("bore", "d-2-left", "--all", at=ledger(tmp_path, **one))
    assert "which is no tolerance to cut to: settle the practice first" in " ".join(called.out.split())
    assert called.code == 1


TO_56 = (
    "table: {columns: [center_diameter, interference], each: at, between_rows: straight line, "
    "rows: [[50 in, 0.053 in], [56 in, 0.060 in]]}"
)


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"limits/ours.yaml": OURS[: OURS.index("practices:")]}, "no shrinkage practice on file"),
        ({"limits/ours.yaml": OURS.replace("value: 0.047 in", "follows: ours/shrinkag")},
         "ours/shrinkage follows ours/shrinkag, which is not on file"),
        ({"limits/ours.yaml": OURS.replace("value: 0.047 in", TO_56)}, "write a practice of your own that covers it"),
        ({CENTER_AT: AT_68.replace("part_temperature: 68 0/1 degF, ", "")}, "the temperature of the part was not read"),
        ({CENTER_AT: AT_68.replace("d-2-left", "d-2-right")}, "no center outside diameter is on record"),
        ({"ledger.yaml": LEDGER.replace("cast steel", "other steel")}, "no expansion of cast steel is adopted"),
    ],
)  # fmt: skip
def test_what_an_order_cannot_do_without_is_told_in_a_sentence(
    tmp_path: Path, changed: dict[str, str], says: str
) -> None:
    called = call("bore", "d-2-left", at=ledger(tmp_path, **changed))
    assert (called.code, called.out) == (2, "")
    assert called.err.startswith("axlebook: no bore can be ordered for d-2-left: ")
    assert says in called.err


def test_an_unknown_center_is_answered_with_the_nearest(tmp_path: Path) -> None:
    called = call("bore", "d-2-letf", at=ledger(tmp_path))
    assert called.code == 2
    assert "Did you mean d-2-left?" in called.err


@pytest.mark.parametrize("shape", ["text", "markdown", "html"])
def test_the_sheet_names_center_and_tire_so_that_they_are_not_interchanged(tmp_path: Path, shape: str) -> None:
    out = " ".join(call("bore", "d-2-left", "--all", "--format", shape, at=ledger(tmp_path)).out.split())
    for words in (
        "CENTER d-2-left: d-2, left, engine e-1", "TIRE t-new, serial 4471, heat H204: for this center ONLY",
        "Not interchangeable", "Measure and send back", "Temperature of the tire", "No finish is on file",
        "lip outside", "5 3/4 in", "5 1/2 in",
    ):  # fmt: skip
        assert words.lower() in out.replace("\\", "").lower(), words


def test_a_center_measured_before_its_tire_went_on_must_be_measured_again(tmp_path: Path) -> None:
    back = ledger(tmp_path / "back", **{BACK_AT: BACK_ON})
    assert any("has been on it since" in gap["cause"] for gap in result(back)["missing"])
    assert not any("has been on it since" in gap["cause"] for gap in result(ledger(tmp_path))["missing"])


def test_millimetres_come_first_for_a_metric_railway(tmp_path: Path) -> None:
    root = ledger(tmp_path, **{"ledger.yaml": LEDGER.replace("display_units: inch", "display_units: mm")})
    out = call("bore", "d-2-left", "--all", at=root).out
    # 1117.8667 - 1.3208 + 0.041783 = 1116.587683 -> 1116.59 mm; 1117.8667 - 1.0668 - 0.041783 -> 1116.75 mm
    assert "1116.59 mm" in out
    assert "1116.75 mm" in out
    assert "10 degC" in out
    assert "least" in out
