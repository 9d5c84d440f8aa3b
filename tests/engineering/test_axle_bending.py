"""The load's effect on a pair, against the axle's bending integrated numerically."""

from __future__ import annotations

import math

import numpy as np
import pytest

from axlebook.engineering.axle_bending import inside_journal_opening, opening_at, outside_journal_opening

INCH, POUND = 0.0254, 4.4482216
DRIVER = (40_000 * POUND, 43 * INCH, 59.5 * INCH, 9 * INCH, 207e9, 28 * INCH)
TRUCK = (22_000 * POUND, 77 * INCH, 59.5 * INCH, 5.5 * INCH, 207e9, 16.5 * INCH)


def turned(
    load: float, journals: float, treads: float, diameter: float, modulus: float, radius: float, hub: float
) -> float:
    """Opening at the rail from the moment's area, integrated over half the axle; sagging opens."""
    x = np.linspace(0.0, treads / 2.0, 40_001)
    moment = load / 2.0 * (treads / 2.0 - x) - load / 2.0 * np.clip(journals / 2.0 - x, 0.0, None)
    moment = np.where(x > treads / 2.0 - hub / 2.0, 0.0, moment)
    turn = float(np.trapezoid(moment, x)) / (modulus * math.pi * diameter**4 / 64.0)
    return 2.0 * radius * turn


def test_inside_journals_open_the_pair_by_about_a_thirty_second() -> None:
    effect = inside_journal_opening(*DRIVER, 7 * INCH)
    assert 1.0 / 64.0 < effect.least / INCH <= effect.most / INCH < 1.0 / 32.0


def test_outside_journals_close_the_pair_by_up_to_a_sixteenth() -> None:
    effect = outside_journal_opening(*TRUCK, 7 * INCH)
    assert 0.0 > effect.least > effect.most
    assert -0.08 < effect.most / INCH < -0.04


@pytest.mark.parametrize("hub", [0.0, 7 * INCH])
def test_inside_journals_agree_with_the_integral_of_the_moment(hub: float) -> None:
    effect = inside_journal_opening(*DRIVER, hub)
    assert effect.least == pytest.approx(turned(*DRIVER, hub), rel=1e-3)
    assert effect.most == pytest.approx(turned(*DRIVER, 0.0), rel=1e-3)


@pytest.mark.parametrize("hub", [0.0, 7 * INCH])
def test_outside_journals_agree_with_the_integral_of_the_moment(hub: float) -> None:
    effect = outside_journal_opening(*TRUCK, hub)
    assert effect.least == pytest.approx(turned(*TRUCK, hub), rel=1e-3)
    assert effect.most == pytest.approx(turned(*TRUCK, 0.0), rel=1e-3)


def test_no_load_moves_nothing() -> None:
    assert inside_journal_opening(0.0, *DRIVER[1:], 7 * INCH) == (0.0, 0.0)


def test_the_bending_drops_out_at_axle_height_and_turns_over_on_top() -> None:
    assert opening_at(0.0008, 0.0) == 0.0008
    assert opening_at(0.0008, math.pi / 2.0) == pytest.approx(0.0, abs=1e-18)
    assert opening_at(0.0008, math.pi) == -0.0008


def test_journals_on_the_wrong_side_are_refused() -> None:
    with pytest.raises(ValueError, match="journal_spacing must be below tread_spacing"):
        inside_journal_opening(*TRUCK, 7 * INCH)
    with pytest.raises(ValueError, match="tread_spacing must be below journal_spacing"):
        outside_journal_opening(*DRIVER, 7 * INCH)
    with pytest.raises(ValueError, match="load must not be negative"):
        inside_journal_opening(-1.0, *DRIVER[1:], 7 * INCH)
    with pytest.raises(ValueError, match="hub_length must be below tread_spacing"):
        outside_journal_opening(*TRUCK, 60 * INCH)
