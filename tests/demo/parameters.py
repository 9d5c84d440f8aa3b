"""What the simulated ledgers are drawn from. Every figure here is ours; none is measured.

`figure` is the width within which two good hands commonly differ on the same place. One hand's reading is
drawn from a normal distribution whose standard deviation is HALF of it, cut at two and a half deviations (a
hand that is further off reads again), with the hand's own bias added, and only then rounded to the
instrument's division. The instrument's record states an expanded uncertainty (k = 2) that covers deviation
and bias, rounded up as a laboratory would.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

DEVIATION = 0.5  # of the figure
CUT = 2.5  # deviations
LARGEST_BIAS = 0.2  # of the figure, either way, one a hand and gauge
SEEDS = range(200)
FIRST_YEAR, YEARS = 2012, 12
TEMPERATURES = (35, 95)  # degF
LOAD = (1 / 32, 1 / 16)  # in: what the engine's weight does to a back-to-back
TEMPERATURE_APART = 6  # degF: instrument and part, at most


@dataclass(frozen=True)
class Tool:
    """An instrument of the simulated shop."""

    id: str
    type: str
    measures: tuple[str, ...]
    division: Fraction  # in
    figure: Fraction  # in
    stated: Fraction  # in: expanded uncertainty, k = 2
    low: str
    high: str
    one_turn: str = ""
    where: str = ""

    @property
    def covered(self) -> bool:
        """Whether the stated uncertainty covers what the readings are drawn with."""
        return float(self.stated) / 2 >= float(self.figure) * math.hypot(DEVIATION, LARGEST_BIAS)


_DEPTHS = ("flange_thickness", "flange_height", "tread_hollow")
_WIDE = ("back_to_back",)
TOOLS = {
    tool.id: tool
    for tool in (
        Tool(
            "rule-1",
            "steel rule, 12 in",
            ("tire_thickness", "rim_thickness"),
            Fraction(1, 32),
            Fraction(1, 32),
            Fraction(3, 64),
            "0 in",
            "12 in",
        ),
        Tool(
            "rule-2",
            "steel rule, 36 in",
            ("lateral", "coupler_height"),
            Fraction(1, 32),
            Fraction(1, 32),
            Fraction(3, 64),
            "0 in",
            "36 in",
        ),
        Tool(
            "gauge-1",
            "wheel gauge",
            _DEPTHS,
            Fraction(1, 64),
            Fraction(1, 64),
            Fraction(3, 128),
            "0 in",
            "2 in",
            where="3/8 in above tread",
        ),
        Tool(
            "wheel-caliper-1",
            "wheel caliper, three point",
            ("tread_diameter",),
            Fraction(1, 64),
            Fraction(1, 64),
            Fraction(3, 128),
            "20 in",
            "72 in",
        ),
        Tool(
            "bar-1",
            "bar gauge for back-to-back",
            _WIDE,
            Fraction(1, 64),
            Fraction(1, 64),
            Fraction(3, 128),
            "50 in",
            "56 in",
        ),
        Tool(
            "micrometer-1",
            "inside micrometer with rods",
            _WIDE,
            Fraction("0.001"),
            Fraction("0.002"),
            Fraction("0.003"),
            "50 in",
            "56 in",
            ".025 in",
        ),
        Tool(
            "micrometer-2",
            "outside micrometer",
            ("center_diameter",),
            Fraction("0.001"),
            Fraction("0.002"),
            Fraction("0.003"),
            "36 in",
            "66 in",
            ".025 in",
        ),
        Tool(
            "micrometer-3",
            "inside micrometer with rods",
            ("tire_bore", "register_distance"),
            Fraction("0.001"),
            Fraction("0.002"),
            Fraction("0.003"),
            "36 in",
            "68 in",
            ".025 in",
        ),
        Tool(
            "micrometer-4",
            "outside micrometer, 4 to 9 in",
            ("journal_diameter", "flange_back_to_register"),
            Fraction("0.001"),
            Fraction("0.002"),
            Fraction("0.003"),
            "4 in",
            "9 in",
            ".025 in",
        ),
        Tool(
            "pi-tape-1",
            "pi tape",
            ("tread_diameter",),
            Fraction("0.001"),
            Fraction("0.004"),
            Fraction("0.006"),
            "36 in",
            "72 in",
        ),
        Tool(
            "feelers-1",
            "feeler gauges",
            ("register_gap",),
            Fraction("0.0005"),
            Fraction("0.0005"),
            Fraction("0.001"),
            "0.0015 in",
            "0.050 in",
        ),
    )
}


def printed() -> str:
    """The parameters, for a program that prints what it did."""
    lines = [
        f"noise: normal, deviation {DEVIATION:g} x figure, cut at {CUT:g} deviations; bias of a hand up to "
        f"{LARGEST_BIAS:g} x figure; rounded to the division after that",
        f"temperatures {TEMPERATURES[0]} to {TEMPERATURES[1]} degF, instrument and part up to "
        f"{TEMPERATURE_APART} apart; "
        f"load on a back-to-back {LOAD[0]:.4f} to {LOAD[1]:.4f} in; {YEARS} years; three hands",
    ]
    for tool in TOOLS.values():
        lines.append(
            f"{tool.id:16} figure {float(tool.figure):.4f} in, division {float(tool.division):.4f} in, "
            f"stated (k = 2) {float(tool.stated):.4f} in"
        )
    return "\n".join(lines) + "\n"
