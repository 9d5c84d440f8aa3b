"""The simulated ledgers: well-formed, as noisy as they say, and drawn by their seed alone."""

from __future__ import annotations

import re
import time
from collections.abc import Iterator, Mapping
from typing import Any

import pytest

from axlebook.sources.schemas import judge
from axlebook.sources.yaml_text import read_tree
from tests.demo.hands import HANDS, Hands
from tests.demo.parameters import DEVIATION, SEEDS, TEMPERATURES, TOOLS, YEARS, printed
from tests.demo.railway import ARRANGEMENTS, draw_railway
from tests.demo.simulated import simulated

INCH_FIGURES = {"rule-1": 1 / 32, "gauge-1": 1 / 64, "micrometer-1": 0.002, "micrometer-3": 0.002}


@pytest.fixture(scope="module")
def ledgers() -> list[dict[str, bytes]]:
    return [simulated(seed) for seed in range(8)]


def trees(files: dict[str, bytes], folder: str) -> Iterator[Mapping[str, Any]]:
    for path, content in files.items():
        if path.startswith(f"{folder}/"):
            yield read_tree(content)


@pytest.mark.parametrize("seed", range(0, 200, 25))
def test_every_record_is_of_the_form_of_its_kind(seed: int) -> None:
    for path, content in simulated(seed).items():
        assert judge(read_tree(content), path) == [], path


def test_two_hundred_ledgers_are_drawn_in_well_under_a_minute() -> None:
    started = time.perf_counter()
    for seed in range(10):
        simulated(seed)
    assert len(SEEDS) == 200
    assert (time.perf_counter() - started) * 20 < 40


def test_a_seed_gives_the_same_ledger_again_and_another_seed_another() -> None:
    assert simulated(3) == simulated(3)
    assert simulated(3) != simulated(4)


def test_the_noise_is_at_least_what_was_asked_for() -> None:
    for id, figure in INCH_FIGURES.items():
        assert float(TOOLS[id].figure) >= figure
    assert DEVIATION >= 0.5


def test_the_stated_uncertainty_covers_the_noise_and_the_bias() -> None:
    assert all(tool.covered for tool in TOOLS.values())


@pytest.mark.parametrize("id", ["rule-1", "gauge-1", "micrometer-1"])
def test_readings_of_one_place_scatter_by_half_the_figure(id: str) -> None:
    # The cut at 2.5 deviations takes a twentieth off; what the division adds is more than that.
    hands = Hands(draw_railway(5).rng)
    truth, tool = 3.0 if id == "rule-1" else 1.1, TOOLS[id]
    texts = [hands.read("v1", id, truth) for _ in range(2000)]
    found = [_inches(text) for text in texts]
    mean = sum(found) / len(found)
    deviation = (sum((one - mean) ** 2 for one in found) / len(found)) ** 0.5
    assert deviation >= 0.48 * float(tool.figure)
    assert len(set(HANDS)) == 3


def _inches(text: str) -> float:
    whole, part = 0.0, 0.0
    for word in text.removesuffix(" in").split():
        top, slash, bottom = word.partition("/")
        whole, part = (whole, int(top) / int(bottom)) if slash else (float(top), part)
    return whole + part


def test_twelve_years_of_one_engine_with_turnings_new_tires_gaps_and_changes_of_hold(
    ledgers: list[dict[str, bytes]],
) -> None:
    assert YEARS == 12
    for files in ledgers:
        text = b"\n".join(files.values()).decode()
        assert len({path for path in files if path.endswith("-annual.yaml") and "inspections" in path}) == 12
        assert sum(path.startswith("turnings/") for path in files) == 3
        assert sum(path.endswith("-applied.yaml") for path in files) == 2
        assert sum(path.endswith("-receiving.yaml") for path in files) == 2
        assert "hold: on blocks" in text
        assert "hold: under the engine" in text
        assert 60 <= len(files) <= 150


def test_both_small_and_large_engines_are_drawn() -> None:
    drawn = {draw_railway(seed).arrangement for seed in SEEDS}
    assert drawn == set(ARRANGEMENTS)
    assert {"0-4-0", "2-8-0"} <= drawn


def test_every_bore_center_and_register_carries_both_temperatures(ledgers: list[dict[str, bytes]]) -> None:
    for files in ledgers:
        for tree in trees(files, "inspections"):
            needing = re.search("tire_bore|center_diameter|register_distance", str(tree))
            assert not needing or {"part_temperature", "instrument_temperature"} <= set(tree["setup"])


def test_temperatures_stay_within_what_is_told(ledgers: list[dict[str, bytes]]) -> None:
    for files in ledgers:
        for found in re.findall(rb"(?:part|instrument|air)_temperature: ([0-9]+) degF", b"\n".join(files.values())):
            assert TEMPERATURES[0] <= int(found) <= TEMPERATURES[1]


def test_no_wheel_grows_in_truth_but_where_a_tire_was_renewed() -> None:
    railway = draw_railway(9)
    before = [wheel.diameter for one in railway.drivers for wheel in one.wheels]
    railway.run_to(railway.worn_to.replace(year=railway.worn_to.year + 3))
    after = [wheel.diameter for one in railway.drivers for wheel in one.wheels]
    assert all(later < earlier for earlier, later in zip(before, after, strict=True))


def test_the_parameters_are_printed() -> None:
    text = printed()
    assert all(id in text for id in TOOLS)
    assert "deviation 0.5" in text
