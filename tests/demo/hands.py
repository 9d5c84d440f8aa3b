"""Three hands that read the truth: noise, a bias of their own, the instrument's division."""

from __future__ import annotations

from fractions import Fraction
from random import Random

from tests.demo.parameters import CUT, DEVIATION, LARGEST_BIAS, TOOLS, Tool
from tests.demo.railway import INSTRUMENT, PART

HANDS = ("v1", "v2", "v3")


class Hands:
    """The three of one railway."""

    def __init__(self, rng: Random) -> None:
        self._rng = rng
        self._bias = {
            (hand, id): rng.uniform(-LARGEST_BIAS, LARGEST_BIAS) * float(tool.figure)
            for hand in HANDS
            for id, tool in TOOLS.items()
        }

    def read(self, hand: str, tool: str, truth: float, *, part: int = 68, instrument: int = 68) -> str:
        """What a hand writes for a true length at 68 degF [in], read at some temperatures [degF]."""
        one = TOOLS[tool]
        deviation = DEVIATION * float(one.figure)
        noise = self._rng.gauss(0, deviation)
        while abs(noise) > CUT * deviation:
            noise = self._rng.gauss(0, deviation)
        apparent = truth * (1 + PART * (part - 68)) / (1 + INSTRUMENT * (instrument - 68))
        return written(one, apparent + noise + self._bias.get((hand, tool), 0.0))


def written(tool: Tool, length: float) -> str:
    """A length on an instrument's division.

    >>> written(TOOLS["rule-1"], 2.85), written(TOOLS["micrometer-1"], 53.24449)
    ('2 27/32 in', '53.244 in')
    """
    steps = max(0, round(length / float(tool.division)))
    number = steps * tool.division
    if tool.division.numerator == 1 and tool.division.denominator in (32, 64):
        whole, part = divmod(number, 1)
        words = [str(whole)] * bool(whole) + [f"{part.numerator}/{part.denominator}"] * bool(part)
        return f"{' '.join(words) or '0'} in"
    return f"{float(number):.{4 if tool.division < Fraction(1, 1000) else 3}f} in"
