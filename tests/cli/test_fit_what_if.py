"""`fit` as a what-if: figures worked by hand, the slips of the physics, and every impossible flag by its name."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from hypothesis import given as drawn
from hypothesis import settings
from hypothesis import strategies as st
from tests.cli.commands import call, promised
from tests.cli.fit_ledger import FLAGS, given

from axlebook.engineering.fitting import FitGiven, Metal, Spokes, Triple, fit_sums
from axlebook.engineering.fitting_heat import fitting_heat

# A round figure for each: b 0.5 m, c 0.55 m, interference 1 mm, 200 GPa, Poisson ratio 0.3, a solid center.
ROUND: dict[str, str | None] = {
    "--center-od": "1000 mm", "--bore": "999 mm", "--tire-od": "1100 mm", "--tire-width": "100 mm",
    "--seat-width": "100 mm", "--at-68": None, "--solid": None, "--plain": None, "--modulus": "200 GPa",
    "--poisson": "0.3", "--expansion": "12e-6 /K", "--fitting-temperature": "20 degC",
}  # fmt: skip


def figures(flags: dict[str, str | None], at: Path) -> dict[str, float]:
    """The computed figures of a what-if."""
    called = call("fit", *given(flags), "--format", "json", at=at)
    assert called.code in (0, 1), called.err
    return {f["name"]: float(f["value"]) for f in promised(called.out)["result"]["figures"] if f["from"] == "computed"}


def test_the_figures_of_a_round_example_are_those_worked_by_hand(tmp_path: Path) -> None:
    found = figures(ROUND, tmp_path)
    # C_t = 2.5e-12 (0.5525 / 0.0525 + 0.3), C_c = 2.5e-12 x 0.7, p = 0.5 mm / (C_t + C_c)
    assert found["pressure_solid"] == pytest.approx(17.35537e6, rel=1e-6)
    assert found["bore_hoop_solid"] == pytest.approx(17.35537e6 * 0.5525 / 0.0525, rel=1e-6)
    assert found["tread_hoop_solid"] == pytest.approx(17.35537e6 * 0.5 / 0.0525, rel=1e-6)
    assert found["tread_growth_solid"] == pytest.approx(0.909091e-3, rel=1e-6)  # 4 p b2 c / [E (c2 - b2)]
    assert found["slip_torque_likely"] == pytest.approx(0.15 * 17.35537e6 * 2 * math.pi * 0.25 * 0.1, rel=1e-6)
    assert found["axial_hold_low"] == pytest.approx(0.10 * 17.35537e6 * 2 * math.pi * 0.5 * 0.1, rel=1e-6)
    assert found["rise_least"] == pytest.approx(1.5e-3 / (12e-6 * 0.999), rel=1e-9)
    assert found["rise_most"] == pytest.approx(2.0e-3 / (12e-6 * 0.999), rel=1e-9)
    assert found["loosening_rise"] == pytest.approx(1e-3 / 12e-6, rel=1e-9)
    # 7850 pi (0.55^2 - 0.4995^2) 0.1
    assert found["tire_mass"] == pytest.approx(7850 * math.pi * (0.3025 - 0.24950025) * 0.1, rel=1e-9)


def test_a_difference_in_fahrenheit_takes_no_zero_point_off(tmp_path: Path) -> None:
    called = call("fit", *given(ROUND), "--all", at=tmp_path)
    # 125.1 and 166.8 K are differences of 225 and 300 degF; the temperature 145 degC is 293 degF
    assert "125 degC (225 degF) to 167 degC (300 degF) above the center" in " ".join(called.out.split())
    assert "145 degC (293 degF)" in called.out


def test_a_spoked_center_is_never_given_the_solid_disc_s_pressure_alone(tmp_path: Path) -> None:
    found = figures(dict(FLAGS), tmp_path)
    assert found["pressure_rim_only"] < found["pressure_spoked"] < found["pressure_solid"]
    called = " ".join(call("fit", *given(dict(FLAGS)), at=tmp_path).out.split())
    assert "(rim alone)" in called
    assert "(solid disc)" in called


def test_the_loosening_rise_does_not_change_with_thickness_and_a_thin_tire_needs_half_the_heat(tmp_path: Path) -> None:
    thick, thin = figures(ROUND, tmp_path), figures({**ROUND, "--tire-od": "1049.5 mm"}, tmp_path)
    assert thick["loosening_rise"] == thin["loosening_rise"]
    assert thin["pressure_solid"] < thick["pressure_solid"]
    assert thin["bore_hoop_solid"] > thick["bore_hoop_solid"]
    worn = figures({**ROUND, "--condemning-thickness": "25.25 mm"}, tmp_path)  # half of 50.5 mm
    assert worn["loosening_heat_new"] / worn["loosening_heat_worn"] == pytest.approx(2.0, rel=0.03)


def test_a_thin_tire_is_said_to_get_there_twice_as_fast_beside_the_rise(tmp_path: Path) -> None:
    told = " ".join(call("fit", *given(ROUND), "--all", at=tmp_path).out.split())
    assert "new or worn alike; a thin tire gets there about twice as fast" in told
    assert "no operating instruction, and no leave to hold a brake" in told


def test_inches_and_millimetres_give_the_same_figures(tmp_path: Path) -> None:
    inches = dict(FLAGS)
    metric = {
        **FLAGS, "--center-od": "1117.9048 mm", "--bore": "1116.711 mm", "--tire-od": "1295.4 mm",
        "--tire-width": "146.05 mm", "--seat-width": "139.7 mm", "--rim-inside": "927.1 mm",
        "--spoke-section": "76.2 x 50.8 mm", "--hub": "381 mm", "--condemning-thickness": "38.1 mm",
    }  # fmt: skip
    first, second = figures(inches, tmp_path), figures(metric, tmp_path)
    assert first == pytest.approx(second, rel=1e-12)


def test_unlike_temperatures_of_center_and_tire_are_both_taken_to_68(tmp_path: Path) -> None:
    warm = {
        **FLAGS, "--center-temperature": "88 degF", "--bore-temperature": "48 degF",
        "--center-expansion": "6.5e-6 /degF",
    }  # fmt: skip
    found = figures(warm, tmp_path)
    by_hand = (44.012 / (1 + 6.5e-6 * 20) - 43.965 / (1 - 6.5e-6 * 20)) * 0.0254
    assert found["interference"] == pytest.approx(by_hand, rel=1e-9)


def test_a_steel_instrument_as_warm_as_the_parts_corrects_itself(tmp_path: Path) -> None:
    own = {
        **FLAGS, "--center-temperature": "50 degF", "--bore-temperature": "50 degF",
        "--center-expansion": "6.5e-6 /degF", "--instrument-expansion": "6.5e-6 /degF",
        "--instrument-temperature": "50 degF",
    }  # fmt: skip
    assert figures(own, tmp_path)["interference"] == pytest.approx(0.047 * 0.0254, rel=1e-9)


def test_a_shim_counts_twice_on_the_diameter(tmp_path: Path) -> None:
    found = figures({**ROUND, "--shim": "0.25 mm"}, tmp_path)
    assert found["interference"] == pytest.approx(1.5e-3, rel=1e-9)


def test_the_interference_left_is_from_the_measured_one_less_band_ridges_and_speed(tmp_path: Path) -> None:
    less = {**ROUND, "--uncertainty": "0.02 mm", "--ridge-loss": "0.03 mm", "--speed": "0 mph"}
    found = figures(less, tmp_path)
    assert found["interference_left_lowest"] == pytest.approx(1e-3 - 1.645 * 0.02e-3 - 0.03e-3, rel=1e-9)
    assert found["loosening_rise_lowest"] == pytest.approx(found["interference_left_lowest"] / 12e-6, rel=1e-9)
    assert figures({**less, "--speed": "60 mph"}, tmp_path)["interference_lost_at_speed"] > 0


def test_every_default_is_told_as_assumed(tmp_path: Path) -> None:
    few = {k: v for k, v in ROUND.items() if k not in ("--modulus", "--poisson", "--expansion", "--plain")}
    told = promised(call("fit", *given(few), "--format", "json", at=tmp_path).out)["result"]["assumed"]
    for flag in ("--modulus", "--poisson", "--expansion", "--center-modulus", "--center-poisson", "--center-expansion"):
        assert any(text.startswith(f"{flag}: assumed") for text in told), flag
    assert any("--plain" in text for text in told)


IMPOSSIBLE: list[tuple[dict[str, str | None], list[str]]] = [
    ({"--bore": "45 in"}, ["--bore", "--center-od", "no interference"]),
    ({"--bore": "44.05 in"}, ["--bore", "--center-od", "no interference"]),
    ({"--rim-inside": "45 in"}, ["--rim-inside", "--center-od", "thicker than its radius"]),
    ({"--hub": "40 in"}, ["--hub", "--rim-inside"]),
    ({"--tire-od": "43 in"}, ["--bore", "--tire-od"]),
    ({"--tire-od": "43.99 in"}, ["--center-od", "--tire-od"]),
    ({"--tire-width": "0 in"}, ["--tire-width", "more than zero"]),
    ({"--seat-width": "-5 in"}, ["--seat-width", "more than zero"]),
    ({"--expansion": "-6.5e-6 /degF"}, ["--expansion", "more than zero"]),
    ({"--center-expansion": "0 /degF"}, ["--center-expansion", "more than zero"]),
    ({"--poisson": "0.5"}, ["--poisson", "Poisson"]),
    ({"--poisson": "a lot"}, ["--poisson", "plain number"]),
    ({"--friction": "3"}, ["--friction"]),
    ({"--spokes": "2"}, ["--spokes", "3 or more"]),
    ({"--spokes": "14.5"}, ["--spokes", "whole number"]),
    ({"--spoke-section": "3 in"}, ["--spoke-section", "3 x 2 in"]),
    ({"--spoke-section": "0 x 2 in"}, ["--spoke-section", "more than zero"]),
    ({"--spoke-section": "3 degF x 2 in"}, ["--spoke-section", "length"]),
    ({"--shim": "-0.01 in"}, ["--shim", "negative"]),
    ({"--bore": "44 psi"}, ["--bore", "a length is asked for, and this is a pressure"]),
    ({"--bore": "44"}, ["--bore"]),
    ({"--bore": "under 44 in"}, ["--bore", "not an interval"]),
    ({"--bore": "nan in"}, ["--bore"]),
    ({"--bore": "1e30 in"}, ["--bore"]),
    ({"--center-temperature": "60 in"}, ["--center-temperature", "a temperature is asked for"]),
    ({"--center-temperature": "-500 degF"}, ["--center-temperature"]),
    ({"--bore-temperature": "-300 degC"}, ["--bore-temperature"]),
    ({"--heat-ceiling": "-1 K"}, ["--heat-ceiling"]),
    ({"--modulus": "0 psi"}, ["--modulus", "more than zero"]),
    ({"--modulus": "29 in"}, ["--modulus", "a pressure is asked for"]),
    ({"--condemning-thickness": "60 in"}, ["--condemning-thickness", "--tire-od"]),
    ({"--condemning-thickness": "0.02 in"}, ["--condemning-thickness", "nothing would be left around the center"]),
    ({"--instrument-expansion": "6.5e-6 /degF"}, ["--instrument-temperature"]),
    ({"--at-68": None}, ["--center-temperature", "--at-68", "contradict"]),
    ({"--solid": None}, ["--rim-inside", "--solid"]),
]


@pytest.mark.parametrize(("changed", "says"), IMPOSSIBLE, ids=[" ".join(map(str, *c.items())) for c, _ in IMPOSSIBLE])
def test_what_cannot_be_is_refused_in_one_sentence_that_names_the_flag(
    tmp_path: Path, changed: dict[str, str | None], says: list[str]
) -> None:
    called = call("fit", *given({**FLAGS, **changed}), at=tmp_path)
    assert (called.code, called.out) == (2, "")
    assert "fault of axlebook" not in called.err
    assert len(called.err.splitlines()) == 1, called.err
    for words in says:
        assert words in called.err


NEEDED = ["--center-od", "--bore", "--tire-od", "--tire-width", "--seat-width", "--spokes", "--spoke-section", "--hub"]


@pytest.mark.parametrize("gone", NEEDED)
def test_a_flag_that_cannot_be_done_without_is_asked_for_by_name(tmp_path: Path, gone: str) -> None:
    called = call("fit", *given({k: v for k, v in FLAGS.items() if k != gone}), at=tmp_path)
    assert (called.code, called.out) == (2, "")
    assert f"{gone} is missing" in called.err


@pytest.mark.parametrize("gone", ["--center-temperature", "--bore-temperature"])
def test_a_missing_temperature_is_never_68_degrees_unless_it_is_said(tmp_path: Path, gone: str) -> None:
    called = call("fit", *given({k: v for k, v in FLAGS.items() if k != gone}), at=tmp_path)
    assert (called.code, called.out) == (2, "")
    assert f"{gone} is missing: no temperature is taken for granted; give it, or say --at-68." in called.err


def test_without_the_center_s_temperature_there_is_no_heat(tmp_path: Path) -> None:
    flags = {k: v for k, v in ROUND.items() if k != "--fitting-temperature"}
    found = promised(call("fit", *given(flags), "--format", "json", at=tmp_path).out)["result"]
    assert not any(f["name"].startswith("temperature") for f in found["figures"])
    assert any("--fitting-temperature" in gap["next"] for gap in found["missing"])


STEEL = st.builds(
    Metal, st.floats(90e9, 220e9), st.floats(0.2, 0.35), st.floats(9e-6, 14e-6)
)


@settings(max_examples=60, deadline=None)
@drawn(
    center=st.floats(0.3, 2.0), tight=st.floats(1e-6, 1.9e-3), thick=st.floats(0.01, 0.12), width=st.floats(0.05, 0.2),
    share=st.floats(0.3, 1.5), rim=st.floats(0.5, 0.95), tire=STEEL, own=STEEL, count=st.integers(3, 24),
    area=st.floats(5e-4, 2e-2), worn=st.floats(0.1, 1.0), cold=st.floats(250.0, 320.0),
)  # fmt: skip
def test_whatever_the_fit_every_figure_is_finite_and_in_its_order(
    center: float, tight: float, thick: float, width: float, share: float, rim: float, tire: Metal, own: Metal,
    count: int, area: float, worn: float, cold: float,
) -> None:  # fmt: skip
    fit = FitGiven(
        center, center - tight, center + 2 * thick, width, share * width, tire, own, rim_inside=rim * center,
        spokes=Spokes(count, area, 0.3 * center, width), condemning_thickness=worn * thick,
    )  # fmt: skip
    sums = fit_sums(fit)
    assert sums.worn is not None
    for grip in (sums.new, sums.worn):
        for found in (grip.pressure, grip.bore_hoop, grip.tread_hoop, grip.growth, grip.axial_hold, grip.slip_torque):
            assert isinstance(found, Triple)
            assert 0.0 < found.low <= found.likely <= found.high < math.inf  # type: ignore[operator]
    heat = fitting_heat(sums, cold)
    assert heat.grip < heat.least < heat.most < math.inf
    if heat.grip <= cold:  # metals unlike: away from 68 degF the tire comes free of the center
        assert (tire.expansion - own.expansion) * (cold - 293.15) > 0.0
        assert heat.hanging is None
    else:
        assert heat.hanging is not None
        assert heat.over_center is not None
        assert 0.0 < heat.over_center[0] < heat.hanging[0] < heat.hanging[1]
