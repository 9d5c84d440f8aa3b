"""Wear with a known rate, read by hand: irregular days, a gauge's divisions, turnings that nobody may wear across."""

from __future__ import annotations

import math
import random
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction

from axlebook.trends.forecast import Line, fit_line, present_segment
from axlebook.trends.rate import by_day
from axlebook.trends.series import Dated, Series

START = date(2014, 3, 1)
DIVISION = 0.0254 / 64  # m
COUNTS = (5, 6, 7, 8, 10, 12, 16, 20, 28, 40)


@dataclass(frozen=True)
class Known:
    """A series with the truth behind it."""

    series: Series
    rate: float  # m lost a day
    level: float  # true reading on the last day
    last: date


def simulate(seed: int, count: int) -> Known:
    """So many readings of a falling thickness, over months to years, with up to three turnings among them."""
    dice = random.Random(f"{seed} {count}")
    days = sorted(dice.sample(range(count * 60), count))
    cuts = sorted(dice.sample(range(2, count - 1), min(dice.randrange(4), max((count - 3) // 3, 0))))
    noise = DIVISION * dice.uniform(0.5, 1.5)
    rate = noise * math.exp(dice.uniform(math.log(5), math.log(100))) / (count * 60)
    level, epoch, points = 0.030, 0, []
    for index, day in enumerate(days):
        if index in cuts:
            level, epoch = level + dice.uniform(-5, 10) * DIVISION, epoch + 1  # a turning restores a flange or cuts it
        read = level - rate * day + dice.gauss(0.0, noise)
        value = Fraction(round(read / DIVISION)) * Fraction(DIVISION)
        points.append(Dated(START + timedelta(day), value, None, ("gauge-1",), epoch, None, ""))
    return Known(
        Series("t-1", "flange_thickness", "worst", tuple(points)), rate, level - rate * days[-1], points[-1].day
    )


def line_of(series: Series, resolution: float | None = DIVISION) -> Line | None:
    """The line as `wear` draws it."""
    segments = series.segments
    present = present_segment(
        [len(s.points) for s in segments], [by_day(s.points[-1].day) for s in segments], [s.epoch for s in segments]
    )
    timed = [([by_day(p.day) for p in s.points], [float(p.value) for p in s.points]) for s in segments]
    return fit_line(timed, present, resolution, falling=True)
