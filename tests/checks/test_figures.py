"""Figures that a finding gives in full digits are those worked out by hand, in the unit they stand in."""

import pytest

from .cases import read_cases, run_case

CASES = {f"{check}/{path.stem}": case for check, path, case in read_cases()}
INCH = 25.4  # mm
# From the figures in each case and its base; two readings good to 0.000577 in each are good to 0.000816 together.
BY_HAND = [
    ("hoop-stress-high/outside", "interference", (44.000 - 43.953) * INCH),
    ("bore-outside-order/outside-large", "bore at 68 degF", 43.960 * INCH),
    ("wrong-tire-on-center/bore-of-another", "bore at 68 degF", 43.933 * INCH),
    ("back-to-back-moved/moved", "change at 68 degF", 0.002 * INCH),
    ("back-to-back-moved/moved", "uncertainty, expanded", 2 * (2 * (0.0005**2 + 0.001**2 / 12)) ** 0.5 * INCH),
    ("removal-not-told/shims-differ", "shims found", 0.017 * INCH),
    ("removal-not-told/shims-differ", "shims it went on with", 0.0),
    ("removal-not-told/several-shims", "shims found", 0.027 * INCH),
    ("removal-not-told/several-shims", "shims it went on with", 0.020 * INCH),
    ("back-to-back-not-as-predicted/wide", "register distance", 64.260 * INCH),
    ("back-to-back-not-as-predicted/wide", "predicted", (64.260 - 2 * 5.500) * INCH),
    ("back-to-back-not-as-predicted/wide", "measured", 53.290 * INCH),
    ("back-to-back-not-as-predicted/wide", "difference", 0.030 * INCH),
]


@pytest.mark.parametrize(("name", "figure", "value"), BY_HAND, ids=[f"{n}, {f}" for n, f, _ in BY_HAND])
def test_a_figure_is_the_one_worked_out_by_hand(name: str, figure: str, value: float) -> None:
    outcome = run_case(CASES[name])
    [finding] = [f for f in outcome.findings if f.check == name.partition("/")[0]]
    [found] = [f for f in finding.figures if f.name == figure]
    assert found.unit == "mm"
    assert float(found.value) == pytest.approx(value, rel=2e-4, abs=1e-9)
