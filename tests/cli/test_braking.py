"""`braking`: its figures by hand, its words on every output, what it will not assess, and what it refuses."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from tests.cli.commands import TOP, call, promised, small_ledger
from tests.cli.fit_ledger import BORE_AT, BORE_READ, FILES

APPLIED = """kind: tire-applied
applied_on: 2026-01-20
tire: t-new
center: d-2-left
by: lead
shims: none
"""
READ = """kind: inspection
measured_on: 2026-02-01
engine: e-1
purpose: periodic
by: lead
readings:
  - {quantity: tire_thickness, place: driver-2 left, with: rule-1, values: {0 deg: 2 1/16 in, 90 deg: 2 in}}
"""
MORE = {
    "tire-work/2026/2026-01-20-t-new-applied.yaml": APPLIED,
    "inspections/2026/2026-02-01-e-1-periodic.yaml": READ,
}
BARE = ("--ridges", "0 in", "--share", "100 percent", "--power", "45 kW")
NOTICES = (
    "An estimate of when the model has no grip left, on the lowest assumptions",
    "no permission to hold a brake",
    "The loosening temperature does not change with wear; a thin tire gets there about twice as fast",
)


def ledger(folder: Path, **more: str) -> Path:
    return small_ledger(folder, {**FILES, **MORE, **more})


def rows(root: Path, *flags: str) -> list[dict[str, Any]]:
    return list(promised(call("braking", "e-1", *flags, "--format", "json", at=root).out)["result"]["rows"])


def figures(found: list[dict[str, Any]], case: str, thickness: str = "") -> dict[str, float]:
    row = next(row for row in found if row["case"] == case and row["thickness"] == thickness)
    return {figure["name"]: float(figure["value"]) for figure in row["figures"]}


# -- figures ----------------------------------------------------------------------------------------------------------


def test_the_rise_is_that_of_the_measured_fit(tmp_path: Path) -> None:
    # Center 44.012 in at 60.5 degF, 6.4e-6: 44.01411 at 68. Bore 43.965 at 58.5, 6.5e-6: 43.96771. Left .04640 in;
    # over 6.5e-6 x 44.01411: 162.2 degF, 90.1 K.
    found = figures(rows(ledger(tmp_path), *BARE), "fit")
    assert found["interference"] / 0.0254 == pytest.approx(0.04640, abs=5e-6)
    assert found["loosening_rise"] * 1.8 == pytest.approx(162.2, abs=0.05)
    assert found["loosening_temperature"] == pytest.approx(293.15 + found["loosening_rise"], abs=1e-9)


def test_minutes_are_the_heat_of_the_tire_over_the_power(tmp_path: Path) -> None:
    # 2 in on 44.014 in, 5 3/4 in wide: 0.027242 m3, 213.85 kg, 98 371 J/K; times 90.10 K over 45 kW: 197.0 s.
    found = rows(ledger(tmp_path), *BARE)
    assert figures(found, "drag", "today")["seconds_tire_alone"] == pytest.approx(197.0, abs=0.2)
    # 1 1/2 in, the limit: 2 x 22.007 + 1.5 = 45.514; 45.514 x 1.5 against 46.014 x 2
    ratio = 45.514 * 1.5 / (46.014 * 2.0)
    assert figures(found, "drag", "at the limit")["seconds_tire_alone"] == pytest.approx(197.0 * ratio, abs=0.2)


def test_the_thinnest_place_read_last_is_today(tmp_path: Path) -> None:
    assert figures(rows(ledger(tmp_path), *BARE), "drag", "today")["thickness"] == pytest.approx(0.0508, abs=1e-12)


def test_a_stop_is_the_energy_of_the_mass_over_wheels_and_tire(tmp_path: Path) -> None:
    # 100 000 lb at 15 mph, ten percent on top for what turns: 1.1218 MJ; a quarter of it over 98 371 J/K: 2.851 K.
    found = rows(ledger(tmp_path), *BARE, "--speed", "15 mph", "--train", "100000 lb")
    assert figures(found, "stop", "today")["rise_of_a_stop"] == pytest.approx(2.851, abs=0.002)


def test_a_grade_is_weight_times_fall_less_resistance(tmp_path: Path) -> None:
    # 45 359.237 kg x 9.80665 x 0.02 - 1000 N = 7896.4 N; x 6.7056 m/s / 4 = 13.238 kW
    flags = ("--speed", "15 mph", "--train", "100000 lb", "--grade", "1 in 50", "--resistance", "1000 N")
    found = figures(rows(ledger(tmp_path), *flags), "drag", "today")
    assert found["power_at_wheel"] == pytest.approx(13238.0, abs=1.0)


@pytest.mark.parametrize("grade", ["2 percent", "1 in 50", "20 per mille"])
def test_a_grade_reads_alike_in_its_three_ways(tmp_path: Path, grade: str) -> None:
    found = rows(ledger(tmp_path), "--speed", "24.14016 km/h", "--train", "45.359237 t", "--grade", grade)
    assert figures(found, "drag", "today")["power_at_wheel"] == pytest.approx(14914.0, abs=1.0)


def test_the_rise_is_the_same_new_and_worn(tmp_path: Path) -> None:
    found = rows(ledger(tmp_path), *BARE, "--new", "3 in")
    assert [row["case"] for row in found].count("fit") == 1
    times = [figures(found, "drag", word)["seconds_tire_alone"] for word in ("new", "today", "at the limit")]
    assert times == sorted(times, reverse=True)


def test_losses_asked_for_come_off(tmp_path: Path) -> None:
    root = ledger(tmp_path)
    plain = figures(rows(root, *BARE), "fit")["interference_counted"]
    less = figures(rows(root, *BARE[2:], "--ridges", "0.001 in", "--growth", "0.002 in"), "fit")["interference_counted"]
    assert (plain - less) / 0.0254 == pytest.approx(0.003, abs=1e-9)


def test_a_hot_day_moves_the_temperature_and_hardly_the_rise(tmp_path: Path) -> None:
    root = ledger(tmp_path)
    cool, hot = (figures(rows(root, *BARE, "--air", air), "fit") for air in ("68 degF", "104 degF"))
    # center 6.4e-6, tire 6.5e-6: over 36 degF the fit loses 36 x 0.1e-6 / 6.5e-6 = 0.55 degF of its rise
    assert (cool["loosening_rise"] - hot["loosening_rise"]) * 1.8 == pytest.approx(0.55, abs=0.01)


# -- words ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("shape", ["text", "json", "markdown", "html", "svg"])
def test_every_output_says_what_it_is_and_that_a_thin_tire_is_faster(tmp_path: Path, shape: str) -> None:
    called = call("braking", "e-1", "--format", shape, at=ledger(tmp_path))
    assert called.code == 0
    told = re.sub(r"\s+", " ", called.out)
    for words in NOTICES:
        assert words in told
    assert not re.search(r"\b(safe|OK|fit to run)\b", told)


def test_the_short_page_fits_a_screen_and_names_the_temperature(tmp_path: Path) -> None:
    called = call("braking", "e-1", at=ledger(tmp_path))
    assert len(called.lines) <= 24
    assert "above a cold center" in re.sub(r"\s+", " ", called.out)


def test_no_time_is_rounded_up(tmp_path: Path) -> None:
    called = call("braking", "e-1", *BARE, at=ledger(tmp_path))
    assert "today 3 min" in re.sub(r"\s+", " ", called.out)  # 197.0 s are 3.28 min


def test_what_is_taken_for_granted_has_its_source_and_its_flag(tmp_path: Path) -> None:
    told = promised(call("braking", "e-1", "--format", "json", at=ledger(tmp_path)).out)["result"]["assumed"]
    assert any("lowest assumption" in text and "--share" in text for text in told)
    assert any("DIN 7190, from memory" in text and "--ridges" in text for text in told)


def test_a_thickness_or_fit_of_which_a_card_is_not_sure_is_said_to_be_one(tmp_path: Path) -> None:
    changed = {
        "inspections/2026/2026-02-01-e-1-periodic.yaml": READ.replace("rule-1,", "rule-1, sure: uncertain,"),
        BORE_AT: BORE_READ.replace("{quantity: tire_bore", "{sure: uncertain, quantity: tire_bore"),
    }
    called = call("braking", "e-1", "--format", "json", at=ledger(tmp_path, **changed))
    causes = [gap["cause"] for gap in promised(called.out)["result"]["missing"]]
    assert "t-new: the thickness today decides nothing, for the card it stands on is not sure of it" in causes
    assert any(cause.startswith("t-new: the card it stands on is not sure of it: ") for cause in causes), causes


@pytest.mark.parametrize("written", ["90 percent", "0.9"])
def test_the_share_on_record_is_heeded_however_it_is_written(tmp_path: Path, written: str) -> None:
    root = ledger(tmp_path)
    engine = root / "engines/e-1.yaml"
    engine.write_text(f"{engine.read_text()}brake:\n  share_into_wheel: {written}\n")
    told = promised(call("braking", "e-1", "--format", "json", at=root).out)["result"]["assumed"]
    assert any(text.startswith("90% of the heat goes into the wheel") for text in told)


def test_a_tire_on_the_watch_list_is_said_to_be(tmp_path: Path) -> None:
    moved = (
        "kind: inspection\nmeasured_on: 2026-02-10\nengine: e-1\npurpose: daily\nby: lead\nobservations:\n"
        "  - {looked_for: witness_mark_moved, place: driver-2 left, answer: seen}\n"
    )
    use = "    - {set: loose-tire-practice, adopted_on: 2019-01-01, adopted_by: lead}\nreference_temperature"
    root = ledger(
        tmp_path,
        **{
            "ledger.yaml": FILES["ledger.yaml"].replace("reference_temperature", use),
            "inspections/2026/2026-02-10-e-1-daily.yaml": moved,
        },
    )
    called = call("braking", "e-1", at=root)
    assert "may be loose already (witness mark moved" in re.sub(r"\s+", " ", called.out)


# -- what is not assessed ---------------------------------------------------------------------------------------------


def test_a_fit_that_nobody_recorded_is_not_assessed_and_a_what_if_is_offered(tmp_path: Path) -> None:
    told = promised(call("braking", "e-1", "--format", "json", at=ledger(tmp_path)).out)["result"]
    assert {row["tire"] for row in told["rows"]} == {"t-new"}
    gap = next(gap for gap in told["missing"] if "nobody recorded the fit" in gap["cause"])
    assert gap["cause"].startswith("t-1-left, t-1-right, t-2-right")
    assert " not assessed: nobody recorded the fit" in gap["cause"]
    assert "--interference" in gap["next"]


def test_a_what_if_stands_in_for_those_alone_and_is_said_to_be_one(tmp_path: Path) -> None:
    found = rows(ledger(tmp_path), "--interference", "0.040 in", "--new", "3 in")
    told = {row["tire"]: row["what_if"] for row in found}
    assert told == {"t-1-left": True, "t-1-right": True, "t-new": False, "t-2-right": True}


def test_a_fit_eaten_up_by_its_losses_shows_no_grip_and_no_negative_figure(tmp_path: Path) -> None:
    called = call("braking", "e-1", "--growth", "0.060 in", at=ledger(tmp_path))
    assert "no grip can be shown at all" in re.sub(r"\s+", " ", called.out)
    found = figures(rows(ledger(tmp_path / "again"), "--growth", "0.060 in"), "fit")
    assert found["loosening_rise"] == 0.0


METALS = {
    "the metal of the center": (
        ("drivers/d-2.yaml", ", material: cast steel", ""),
        "of what the center is made is not told", "drivers/d-2.yaml, below `d-2-left:`", "    material: cast steel",
    ),
    "one figure of it": (
        ("ledger.yaml", "poisson: 0.28, ", ""),
        "no Poisson ratio of cast steel is adopted", "ledger.yaml, below `cast steel:`", "    poisson: 0.29",
    ),
}  # fmt: skip


@pytest.mark.parametrize(("change", "cause", "into", "line"), METALS.values(), ids=METALS)
def test_what_is_lacking_of_a_metal_is_told_as_fit_tells_it_with_the_lines_and_their_file(
    tmp_path: Path, change: tuple[str, str, str], cause: str, into: str, line: str
) -> None:
    path, old, new = change
    assert old in FILES[path]
    root = ledger(tmp_path, **{path: FILES[path].replace(old, new)})
    gaps = promised(call("braking", "e-1", "--format", "json", at=root).out)["result"]["missing"]
    gap = next(gap for gap in gaps if cause in gap["cause"])
    assert gap["write"] == [{"into": into, "lines": [line]}]
    for told in (
        call("braking", "e-1", "--all", at=root).out,
        call("braking", "e-1", "--format", "html", at=root).out,
        call("fit", "t-new", "d-2-left", at=root).err,
    ):
        assert cause in re.sub(r"\s+", " ", told)
        assert f"The lines for {into}:" in re.sub(r"\s+", " ", told)
        assert line in told
    assert f"\n      {line}\n" in call("braking", "e-1", "--format", "markdown", at=root).out


def test_without_a_limit_set_the_condemning_thickness_is_not_assessed(tmp_path: Path) -> None:
    ours = FILES["limits/ours.yaml"].replace("stage: condemning", "stage: shop")
    told = call("braking", "e-1", "--all", at=ledger(tmp_path, **{"limits/ours.yaml": ours})).out
    assert "a condemning thickness is not on record" in re.sub(r"\s+", " ", told)


def test_without_a_reading_today_is_not_assessed(tmp_path: Path) -> None:
    root = ledger(tmp_path)
    (root / "inspections/2026/2026-02-01-e-1-periodic.yaml").unlink()
    assert "the thickness today is not on record" in re.sub(r"\s+", " ", call("braking", "e-1", "--all", at=root).out)


def test_a_center_without_its_measures_has_the_lowest_figures_alone(tmp_path: Path) -> None:
    driver = FILES["drivers/d-2.yaml"].replace("spoke_section: 3 in x 2 in, ", "")
    found = figures(rows(ledger(tmp_path, **{"drivers/d-2.yaml": driver}), *BARE), "drag", "today")
    assert "seconds_tire_alone" in found
    assert "seconds_center_warming" not in found


@pytest.mark.parametrize(
    ("path", "was", "wrong"),
    [
        ("tires/t-new.yaml", "nominal_width: 5 3/4 in", "nominal_width: 0 in"),
        ("ledger.yaml", "poisson: 0.29", "poisson: 0.9"),
        ("drivers/d-2.yaml", "rim_inside_diameter: 36 1/2 in", "rim_inside_diameter: 60 in"),
        ("drivers/d-2.yaml", "hub_diameter: 15 in", "hub_diameter: 0 in"),
        ("drivers/d-2.yaml", "spoke_section: 3 in x 2 in", "spoke_section: round"),
        ("drivers/d-2.yaml", 'spokes: "14"', 'spokes: "1"'),
        ("inspections/2026/2026-02-01-e-1-periodic.yaml", "90 deg: 2 in", "90 deg: 0 in"),
        ("inspections/2026/2026-02-01-e-1-periodic.yaml", "90 deg: 2 in", "90 deg: over 2 in"),
    ],
)
def test_measures_that_cannot_be_are_no_fault_of_the_tool(tmp_path: Path, path: str, was: str, wrong: str) -> None:
    text = {**FILES, **MORE}[path]
    assert was in text
    root = ledger(tmp_path, **{path: text.replace(was, wrong)})
    called = call("braking", "e-1", "--speed", "15 mph", "--train", "50 t", at=root)
    assert called.code == 0, called.err
    assert "nan" not in called.out


# -- charts and pages -------------------------------------------------------------------------------------------------


def test_the_chart_is_the_same_bytes_twice_and_tells_itself_in_words(tmp_path: Path) -> None:
    root = ledger(tmp_path)
    one, two = (call("braking", "e-1", "--format", "svg", at=root).out for _ in range(2))
    assert one == two
    top = ElementTree.fromstring(one)
    assert top.get("role") == "img"
    told = "".join(top.itertext())
    assert "straight lines rise" in told
    assert "2026-" not in told  # no date


class _Seen(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.images: list[dict[str, str | None]] = []
        self.tags: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        if tag == "img":
            self.images.append(dict(attrs))


def test_the_page_holds_its_chart_and_no_script(tmp_path: Path) -> None:
    seen = _Seen()
    seen.feed(call("braking", "e-1", "--format", "html", at=ledger(tmp_path)).out)
    assert "script" not in seen.tags
    assert len(seen.images) == 1
    assert str(seen.images[0]["src"]).startswith("data:image/svg+xml;base64,")
    assert "straight lines rise" in str(seen.images[0]["alt"])


# -- refusals ---------------------------------------------------------------------------------------------------------


def _refused() -> Iterator[tuple[tuple[str, ...], str]]:
    yield ("--grade", "2 percent"), "--speed is missing"
    yield ("--speed", "0 mph"), "--speed must be more than zero"
    yield ("--speed", "15"), "--speed"
    yield ("--speed", "15 in"), "--speed"
    yield ("--power", "-5 kW"), "--power must be more than zero"
    yield ("--power", "nan kW"), "--power"
    yield ("--share", "120 percent"), "--share is more than the whole"
    yield ("--speed", "15 mph", "--grade", "1 in 0"), "--grade is more than the whole"
    yield ("--speed", "15 mph", "--grade", "steep"), "--grade"
    yield ("--resistance", "5 kN"), "--grade is missing"
    yield ("--wheels", "0"), "--wheels must be more than zero"
    yield ("--wheels", "many"), "--wheels takes a whole number"
    yield ("--air", "-500 degF"), "--air"
    yield ("--ridges", "-0.001 in"), "--ridges must not be negative"
    yield ("--specific-heat", "480"), "--specific-heat takes a figure with its unit"
    yield ("--tire", "t-none"), "there is no tire t-none"


@pytest.mark.parametrize(("flags", "words"), list(_refused()), ids=[" ".join(f) for f, _ in _refused()])
def test_what_cannot_be_is_refused_by_the_name_of_its_flag(tmp_path: Path, flags: tuple[str, ...], words: str) -> None:
    called = call("braking", "e-1", *flags, at=ledger(tmp_path))
    assert called.code == 2
    assert words in called.err
    assert "fault of axlebook" not in called.err
    assert called.out == ""


def test_an_unknown_engine_is_answered_with_those_there_are(tmp_path: Path) -> None:
    called = call("braking", "e-9", at=ledger(tmp_path))
    assert called.code == 2
    assert "There are: e-1" in called.err


def test_an_engine_answers_to_its_number(tmp_path: Path) -> None:
    assert call("braking", "1", at=ledger(tmp_path)).code == 0


def test_the_engines_of_the_demo_keep_the_promise(tmp_path: Path) -> None:
    demo = str(TOP / "demo-ledger")
    for engine, assessed in (("e-12", 4), ("e-3", 0), ("e-21", 0)):
        called = call("braking", engine, "--ledger", demo, "--format", "json", at=tmp_path)
        found = promised(called.out)["result"]["rows"]
        assert len({row["tire"] for row in found}) == assessed


@pytest.mark.parametrize(
    ("flag", "told"),
    [("--speed", "15 mph or 15 km/h"), ("--train", "15 lb or 15 kg"), ("--power", "15 kW or 15 hp")],
)
def test_a_figure_without_a_unit_is_answered_with_the_units_that_are_asked_for(
    tmp_path: Path, flag: str, told: str
) -> None:
    called = call("braking", "e-1", flag, "15", at=ledger(tmp_path))
    assert called.code == 2
    assert f"such as {told}." in called.err


def test_the_short_answer_tells_its_power_in_horsepower_too(tmp_path: Path) -> None:
    # 45 kW / 0.7457 kW = 60.3 hp
    out = " ".join(call("braking", "e-1", *BARE, at=ledger(tmp_path)).out.split())
    assert "at 45 kW (60.3 hp)" in out


# -- a grip that the growth of the tread does not show ----------------------------------------------------------


def taped(folder: Path, after: str) -> Path:
    """The ledger of a tire's day with the tread of t-1 taped otherwise, cold after: .0277 in more is asked."""
    root = folder / "ledger"
    shutil.copytree(TOP / "tests" / "checks" / "bases" / "tire-day", root)
    path = root / "tire-work" / "2026" / "2026-01-17-t-1-applied.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("49.988 in", after), encoding="utf-8")
    return root


def test_a_tire_that_did_not_grow_as_its_fit_says_is_not_reckoned_with_that_fit(tmp_path: Path) -> None:
    root = taped(tmp_path, "49.968 in")
    out = " ".join(call("braking", "e-1", at=root).out.split())
    assert "driver-1 left, t-1" not in out
    assert "driver-1 right, t-2: no grip left" in out
    assert "MISSING: t-1 not assessed: its tread grew too little when it went on" in out
    assert "→ Tape it again, cold, with the same tape. For a what-if say --interference" in out
    told = " ".join(call("braking", "e-1", "--interference", "0.020 in", at=root).out.split())
    assert "driver-1 left, t-1 (what-if): no grip left" in told


def test_a_grip_that_the_growth_leaves_undecided_is_said_not_to_be_proved(tmp_path: Path) -> None:
    words = "t-1: its tread may have grown less than its fit asks: all of the fit is counted, and is not proved"
    out = " ".join(call("braking", "e-1", at=taped(tmp_path / "undecided", "49.982 in")).out.split())
    assert "driver-1 left, t-1: no grip left" in out
    assert words in out
    assert words not in " ".join(call("braking", "e-1", at=taped(tmp_path / "within", "49.988 in")).out.split())
