"""Clean ledgers, however noisy, raise no alarm; nor does the demo beyond what its README lists."""

from __future__ import annotations

import pytest

from tests.demo.parameters import SEEDS
from tests.demo.score_false_alarms import alarms, told
from tests.demo.scoring import demo_texts, run_texts

SPREAD = SEEDS[::8]
PLAUSIBILITY = frozenset({
    "back-to-back-out-of-line", "blank-read-as-good", "diameter-not-bore-and-thickness", "digits-transposed",
    "flange-height-falls", "flange-thickness-rises", "fraction-lost", "hot-reading", "jump-beyond-rate",
    "limit-from-memory", "metal-added", "method-changed", "mm-for-inches", "one-turn-out", "pin-as-datum",
    "second-reader-disagrees", "sides-swapped", "two-files-one-session", "unlike-its-neighbors", "when-not-told",
    "wrong-wheel",
})  # fmt: skip


def test_a_spread_of_noisy_clean_ledgers_raises_no_alarm(capsys: pytest.CaptureFixture[str]) -> None:
    found = alarms(SPREAD)
    printed = told(found, others=False)
    with capsys.disabled():
        print(f"\n{printed}")
    assert not found.found, printed


@pytest.mark.fuzz
def test_two_hundred_noisy_clean_ledgers_raise_no_alarm(capsys: pytest.CaptureFixture[str]) -> None:
    found = alarms(SEEDS)
    printed = told(found, others=False)
    with capsys.disabled():
        print(f"\n{printed}")
    assert found.ledgers == 200
    assert not found.found, printed


def test_the_demo_has_the_one_implausible_reading_that_its_readme_lists() -> None:
    found = [one for one in run_texts(demo_texts()).findings if one.check in PLAUSIBILITY]
    assert [(one.check, one.place.path, one.subject, one.where) for one in found] == [
        ("metal-added", "inspections/2026/2026-02-14-e-12-annual.yaml", "e-12 driver-2 left", "270 deg")
    ]
