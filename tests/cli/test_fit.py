"""`fit` from records: the same digits as a what-if, every figure named, and what is missing said aloud."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from tests.cli.commands import TOP, call, promised
from tests.cli.fit_ledger import (
    BACK_AT,
    BACK_ON,
    BORE_AT,
    BORE_READ,
    CENTER_AT,
    CENTER_READ,
    FLAGS,
    LEDGER,
    NO_TOLERANCE,
    OURS,
    TIRE,
    TRUE,
    fit_ledger,
    given,
)

FIT = ("fit", "t-new", "d-2-left")


def figures(out: str) -> dict[str, str]:
    """The computed figures by name."""
    return {f["name"]: f["value"] for f in promised(out)["result"]["figures"] if f["from"] == "computed"}


def result(root: Path) -> Any:
    """The result of the fit as JSON."""
    return promised(call(*FIT, "--format", "json", at=root).out)["result"]


def lines(root: Path) -> dict[str, str]:
    """What is said, by what it is about."""
    return {line["about"]: line["says"] for line in result(root)["lines"]}


def test_records_and_flags_of_the_same_numbers_give_the_same_digits(tmp_path: Path) -> None:
    from_records = figures(call(*FIT, "--format", "json", at=fit_ledger(tmp_path)).out)
    from_flags = figures(call("fit", *given(FLAGS), "--format", "json", at=tmp_path).out)
    same = from_records.keys() & from_flags.keys()
    assert {name: from_records[name] for name in same} == {name: from_flags[name] for name in same}
    assert from_flags.keys() <= from_records.keys()
    assert from_records.keys() - from_flags.keys() <= {
        "standard_uncertainty", "back_to_back", "pull_off_register",
        *(name for name in from_records if name.startswith("uncertainty ")),
    }  # fmt: skip


def test_every_figure_has_a_name_of_its_own_a_unit_and_a_source(tmp_path: Path) -> None:
    found = result(fit_ledger(tmp_path))["figures"]
    assert len({f["name"] for f in found}) == len(found)
    assert all(f["unit"] and f["from"] and f["value"] for f in found)


def test_a_reading_stands_as_it_was_written_with_its_record(tmp_path: Path) -> None:
    found = result(fit_ledger(tmp_path))["figures"]
    assert {"name": "bore 0 deg", "value": "43.965 in", "unit": "in", "from": "2026-01-10-t-new-receiving"} in found


def test_the_readings_are_told_with_where_when_by_whom_and_with_what(tmp_path: Path) -> None:
    told = " ".join(call(*FIT, "--all", at=fit_ledger(tmp_path)).out.split())
    assert "2026-01-10-t-new-receiving, 2026-01-10" in told
    assert "v1, lead" in told
    assert "true-1" in told
    assert "58 1/2 degF" in told


def test_the_interference_is_taken_to_68_degrees_part_by_part(tmp_path: Path) -> None:
    # by hand: 44.012 / (1 + 6.4e-6 x -7.5) - 43.965 / (1 + 6.5e-6 x -9.5)
    by_hand = (44.012 / (1 - 6.4e-6 * 7.5) - 43.965 / (1 - 6.5e-6 * 9.5)) * 0.0254
    found = figures(call(*FIT, "--format", "json", at=fit_ledger(tmp_path)).out)
    assert float(found["interference"]) == pytest.approx(by_hand, rel=1e-12)


def test_an_interference_in_the_practice_is_said_to_be_within_and_exits_0(tmp_path: Path) -> None:
    root = fit_ledger(tmp_path)
    assert lines(root)["Adopted practice"].startswith("within the practice on file: 0.0420 in")
    assert call(*FIT, at=root).code == 0


def test_a_reading_that_its_card_is_not_sure_of_is_said_first_and_decides_nothing(tmp_path: Path) -> None:
    root = fit_ledger(tmp_path, **{BORE_AT: BORE_READ.replace("tire_bore, ", "tire_bore, sure: uncertain, ")})
    told = lines(root)
    assert told["Uncertain reading"].startswith("t-new, 2026-01-10: marked uncertain in 2026-01-10-t-new-receiving")
    assert told["Adopted practice"].startswith("undecided, a reading is marked uncertain: 0.0420 in")


def test_an_interference_over_the_practice_is_an_alarm_and_exits_1(tmp_path: Path) -> None:
    root = fit_ledger(tmp_path, **{BORE_AT: BORE_READ.replace("43.965", "43.955")})
    called = call(*FIT, at=root)
    assert called.code == 1
    assert any(line.startswith("Adopted practice: OUTSIDE, OVER") for line in called.lines[:8])


def test_a_finding_on_the_parts_that_turns_the_exit_code_stands_first(tmp_path: Path) -> None:
    root = fit_ledger(tmp_path, **{BORE_AT: BORE_READ.replace("43.965", "43.955")})
    called = call(*FIT, at=root)
    assert called.lines[1].startswith("Finding, outside: t-new")
    assert "bore-outside-order" in call(*FIT, "--all", at=root).out
    told = promised(call(*FIT, "--format", "json", at=root).out)["findings"]
    assert "bore-outside-order" in {f["check"] for f in told}


def test_another_center_s_tire_is_an_alarm(tmp_path: Path) -> None:
    root = fit_ledger(tmp_path, **{"tires/t-new.yaml": TIRE.replace("d-2-left", "d-2-right")})
    assert lines(root)["Another center's tire"] == (
        "t-new was ordered for d-2-right, not for d-2-left: they are not interchangeable"
    )
    assert call(*FIT, at=root).code == 1


def test_the_least_clearance_on_file_is_told_with_its_heat(tmp_path: Path) -> None:
    own = OURS.replace(
        "limits:\n",
        "limits:\n"
        "  - {id: room, quantity: fitting_clearance, stage: shop, out_when: {under: 0.015 in}, clause: page 3}\n",
    )
    root = fit_ledger(tmp_path, **{"limits/ours.yaml": own})
    found = figures(call(*FIT, "--format", "json", at=root).out)
    # by hand: bore (1 + a_t dT) = (bore + interference + .015 in) (1 + a_c x -7.5 degF)
    tight, bore = float(found["interference"]) + 0.015 * 0.0254, float(found["bore"])
    rise = ((bore + tight) / bore * (1 - 6.4e-6 * 7.5) - 1) / 6.5e-6  # degF above 68 degF
    assert float(found["temperature_on_file"]) == pytest.approx(293.15 + rise / 1.8, rel=1e-9)


def test_a_practice_without_tolerance_judges_nothing_and_says_so(tmp_path: Path) -> None:
    root = fit_ledger(tmp_path, **{"limits/ours.yaml": NO_TOLERANCE})
    assert "NOT JUDGED: the adopted practice has no tolerance" in lines(root)["Adopted practice"]


def test_no_practice_on_file_is_said(tmp_path: Path) -> None:
    root = fit_ledger(tmp_path, **{"limits/ours.yaml": OURS[: OURS.index("practices:")]})
    assert "NOT JUDGED: no practice on file" in lines(root)["Adopted practice"]


def test_a_practice_whose_table_ends_before_the_center_is_not_told_as_none_on_file(tmp_path: Path) -> None:
    table = "table: {columns: [center_diameter, interference], each: at, between_rows: straight line, "
    table += "rows: [[50 in, 0.053 in], [56 in, 0.060 in]]}"
    root = fit_ledger(tmp_path, **{"limits/ours.yaml": OURS.replace("value: 0.047 in", table)})
    told = lines(root)["Adopted practice"]
    assert "no practice on file" not in told
    assert "does not apply to this center of 44" in told
    assert "its table" in told


def test_a_temperature_nobody_read_is_never_taken_for_68_degrees(tmp_path: Path) -> None:
    without = BORE_READ.replace("part_temperature: 58 1/2 degF, ", "")
    called = call(*FIT, at=fit_ledger(tmp_path, **{BORE_AT: without}))
    assert (called.code, called.out) == (2, "")
    assert "the temperature of the part was not read" in called.err
    assert "inspections/2026/2026-01-10-t-new-receiving.yaml" in called.err


def test_where_the_shop_s_temperatures_are_known_a_missing_one_makes_it_undecided(tmp_path: Path) -> None:
    without = BORE_READ.replace("part_temperature: 58 1/2 degF, ", "")
    shop = LEDGER + "shop_temperatures: {at_least: 35 degF, at_most: 95 degF}\n"
    root = fit_ledger(tmp_path, **{BORE_AT: without, "ledger.yaml": shop})
    assert lines(root)["Adopted practice"].startswith("undecided")
    assert any("not taken for 68 degF" in gap["cause"] for gap in result(root)["missing"])


def test_a_temperature_of_the_instrument_that_nobody_read_is_missing_where_it_matters(tmp_path: Path) -> None:
    shop = LEDGER + "shop_temperatures: {at_least: 35 degF, at_most: 95 degF}\n"
    grows = TRUE.replace("reads true length", "6.4e-6 /degF")
    bore = BORE_READ.replace("with: true-1, part", "with: steel-1, part")
    root = fit_ledger(tmp_path, **{BORE_AT: bore, "ledger.yaml": shop, "instruments/steel-1.yaml": grows})
    told = [gap["cause"] for gap in result(root)["missing"] if "not taken for 68 degF" in gap["cause"]]
    assert told == [
        "the temperature of the instrument was not read in 2026-01-10-t-new-receiving: not taken for 68 degF"
    ]


def test_a_center_that_was_measured_before_a_tire_went_on_is_told_before_the_next(tmp_path: Path) -> None:
    words = "the center was last measured 2025-11-23, and t-2-left has been on it since"
    assert words not in [gap["cause"] for gap in result(fit_ledger(tmp_path / "off"))["missing"]]
    on = result(fit_ledger(tmp_path / "on", **{BACK_AT: BACK_ON}))["missing"]
    assert [gap["next"] for gap in on if gap["cause"] == words] == [
        "Measure it again when that tire is off, before any heat: every figure here rests on it."
    ]


def test_what_is_missing_is_counted_where_the_short_page_has_no_room_for_it(tmp_path: Path) -> None:
    short = call("fit", "t-2603", "d-1-left", "--ledger", str(TOP / "demo-ledger"), at=tmp_path).out
    assert "Not shown here: 1 more line, 2 things MISSING. See all with --all." in short


def test_that_a_fit_to_come_counts_with_no_shim_is_told(tmp_path: Path) -> None:
    assert "no shim goes between tire and center" in result(fit_ledger(tmp_path))["assumed"]
    demo = TOP / "demo-ledger"
    done = promised(call("fit", "t-2601", "d-3-left", "--format", "json", at=demo).out)["result"]
    assert not any("shim" in text for text in done["assumed"])


def test_without_spokes_on_record_there_are_bounds_and_no_estimate(tmp_path: Path) -> None:
    root = fit_ledger(tmp_path, **{CENTER_AT: CENTER_READ.replace("d-2-left", "d-2-right")})
    called = promised(call("fit", "t-new", "d-2-right", "--format", "json", at=root).out)["result"]
    names = {f["name"] for f in called["figures"]}
    assert "pressure_solid" in names
    assert not {"pressure_rim_only", "pressure_spoked"} & names
    assert any("no lower bound" in gap["cause"] for gap in called["missing"])
    pressure = next(line["says"] for line in called["lines"] if line["about"] == "Contact pressure")
    assert pressure.startswith("at most")


def test_what_the_certificate_does_not_say_is_missing_with_its_next_step(tmp_path: Path) -> None:
    silent = TIRE.replace(", yield_strength: 75000 psi, heat_ceiling: 500 degF", "")
    root = fit_ledger(tmp_path, **{"tires/t-new.yaml": silent})
    causes = {gap["cause"]: gap["next"] for gap in result(root)["missing"]}
    assert causes["the tire's heat ceiling is not on record"].startswith("Ask the tire's maker")
    assert "the tire's yield strength is not on record" in causes
    assert "Heat ceiling NOT on record" in lines(root)["Heat the tire to"]


def test_a_band_beyond_the_tire_s_ceiling_is_an_alarm(tmp_path: Path) -> None:
    root = fit_ledger(tmp_path, **{"tires/t-new.yaml": TIRE.replace("500 degF", "340 degF")})
    assert "the tire's ceiling: the full clearance would ask for" in lines(root)["Heat the tire to"]
    assert call(*FIT, at=root).code == 1
    cold = TIRE.replace("500 degF", "250 degF")
    (root / "tires" / "t-new.yaml").write_text(cold)
    assert lines(root)["Heat the tire to"].startswith("NONE")
    assert "Clearance at that heat" not in lines(root)


def test_a_bore_as_large_as_the_center_is_refused_in_a_sentence(tmp_path: Path) -> None:
    root = fit_ledger(tmp_path, **{BORE_AT: BORE_READ.replace("43.965", "44.050")})
    called = call(*FIT, at=root)
    assert (called.code, called.out) == (2, "")
    assert called.err.startswith("axlebook: there is no interference: at 68 degF the bore of t-new is not less than")


@pytest.mark.parametrize(
    ("parts", "says"),
    [
        (("t-nwe", "d-2-left"), "there is no tire 't-nwe' in the ledger. Did you mean t-new?"),
        (("t-new", "d-2-lef"), "there is no center 'd-2-lef' in the ledger. Did you mean d-2-left?"),
        (("t-new",), "fit needs two parts, TIRE and CENTER"),
        (("t-new", "d-2-left", "--bore", "43 in"), "the figures of t-new d-2-left are those on record"),
        ((), "fit needs TIRE and CENTER, or for a what-if --center-od"),
    ],
)
def test_a_wrong_call_is_answered_in_a_sentence(tmp_path: Path, parts: tuple[str, ...], says: str) -> None:
    called = call("fit", *parts, at=fit_ledger(tmp_path))
    assert (called.code, called.out) == (2, "")
    assert says in called.err
    assert len(called.err.splitlines()) == 1


def test_the_short_page_is_at_most_24_lines_and_ends_with_who_decides(tmp_path: Path) -> None:
    called = call(*FIT, at=fit_ledger(tmp_path))
    assert len(called.lines) <= 24
    assert " ".join(called.lines[-2:]).endswith("the authority having jurisdiction decide.")
    assert max(map(len, called.lines)) <= 80


@pytest.mark.parametrize("shape", ["text", "markdown", "html"])
def test_no_page_says_safe_or_ok_and_every_page_has_the_cautions(tmp_path: Path, shape: str) -> None:
    out = call(*FIT, "--all", "--format", shape, at=fit_ledger(tmp_path)).out.lower()
    for word in (" safe", " ok ", "fit to run", "nan", "inf "):
        assert word not in out
    for word in ("suspended load", "hot metal", "propane", "pinch points", "jurisdiction decide", "estimate"):
        assert word in " ".join(out.split())


def test_the_back_to_back_is_the_register_less_both_flange_backs(tmp_path: Path) -> None:
    back = "flange_back_to_register: 5"
    other = TIRE.replace("d-2-left", "d-2-right").replace(f"{back} 1/2", f"{back} 5/8")
    root = fit_ledger(tmp_path, **{"tires/t-other.yaml": other})
    found = figures(call(*FIT, "--format", "json", at=root).out)
    assert float(found["back_to_back"]) / 0.0254 == pytest.approx(64.25 - 5.5 - 5.625, rel=1e-12)  # by hand
    assert "its tolerance is NOT known" in lines(root)["Back-to-back foretold"]


@pytest.mark.parametrize("shape", ["markdown", "html"])
def test_what_becomes_a_file_is_utf_8_on_any_terminal(tmp_path: Path, shape: str) -> None:
    root = fit_ledger(tmp_path)
    plain = call(*FIT, "--format", shape, at=root)
    elsewhere = call(*FIT, "--format", shape, at=root, encoding="latin-1")
    assert (plain.code, elsewhere.code) == (0, 0)
    assert elsewhere.out.encode("latin-1") == plain.out.encode("utf-8")


def test_a_terminal_without_the_signs_gets_plain_ones(tmp_path: Path) -> None:
    called = call(*FIT, "--all", at=fit_ledger(tmp_path), encoding="ascii")
    assert called.code == 0
    assert "o MISSING" in called.out


@pytest.mark.parametrize("parts", [("t-2601", "d-3-left"), ("t-2602", "d-3-right"), ("t-2603", "d-1-left")])
def test_the_demo_s_fits_have_their_sheets(parts: tuple[str, str]) -> None:
    called = call("fit", *parts, at=TOP / "demo-ledger")
    assert called.code in (0, 1)
    assert "Interference: 0.04" in called.out
    assert len(called.lines) <= 24


def test_the_center_read_on_the_day_shifts_the_heat_of_a_recorded_fit_and_is_said(tmp_path: Path) -> None:
    root = fit_ledger(tmp_path)
    measured = figures(call(*FIT, "--format", "json", at=root).out)
    told = promised(call(*FIT, "--fitting-temperature", "50 degF", "--format", "json", at=root).out)["result"]
    of_the_day = {f["name"]: f["value"] for f in told["figures"]}
    assert float(of_the_day["center_temperature"]) == pytest.approx(283.15)  # 50 degF is 10 degC
    # the center was measured at 60 1/2 degF: as much as it is colder on the day, the tire may be colder, too
    by_hand = (60.5 - 50.0) / 1.8
    colder = float(measured["temperature_least"]) - float(of_the_day["temperature_least"])
    assert colder == pytest.approx(by_hand, rel=0.02)  # center and tire grow nearly alike
    assert any("as told in --fitting-temperature" in text for text in told["assumed"])


def test_a_fit_that_is_on_record_takes_no_temperature_from_a_flag() -> None:
    words = ("fit", "t-2601", "d-3-left", "--fitting-temperature", "60 degF")
    called = call(*words, at=TOP / "demo-ledger")
    assert called.code == 2
    assert "stands in 2026-01-17-t-2601-applied, under `seating: center_temperature`" in called.err


def test_what_is_found_of_another_fit_of_a_tire_does_not_stand_over_the_fit_that_was_asked_for(tmp_path: Path) -> None:
    called = call("fit", "t-2601", "d-3-right", "--ledger", str(TOP / "demo-ledger"), at=tmp_path)
    assert called.lines[3].startswith("Another center's tire: t-2601 was ordered for d-3-left")
    below = called.out.index("Not free: t-2601 is on d-3-left now.")
    assert called.out.index("Finding, suspect: t-2601 on d-3-left: hot outside") > below
    own = call("fit", "t-2601", "d-3-left", "--ledger", str(TOP / "demo-ledger"), at=tmp_path)
    assert own.lines[3].startswith("Finding, suspect: t-2601 on d-3-left: hot outside")


def test_a_tread_that_was_taped_on_a_center_is_not_called_free() -> None:
    demo = TOP / "demo-ledger"
    moved, loose = (
        promised(call("fit", *parts, "--format", "json", at=demo).out)["result"]
        for parts in (("t-1232", "d-1-left"), ("t-2601", "d-3-left"))
    )
    assert "Tread diameter" in {line["about"] for line in moved["lines"]}
    assert (
        "the tread is as 2025-02-14-e-12-annual taped it on a center; off it, it is smaller by its growth"
        in moved["assumed"]
    )
    assert not any("taped it on a center" in text for text in loose["assumed"])
