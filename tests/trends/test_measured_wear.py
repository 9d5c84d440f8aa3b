"""A public set of measured wear: flank wear of four cutting edges, read after every pass of a milling tool.

QIT-CEMC dataset, Qilu Institute of Technology, `tool_wear.csv` (github.com/wwz456/QIT-CEMC-dataset, seen): "VB in 1/2ap
(mm)" of the side teeth, passes 1 to 20. At pass 21 three of the four edges are less worn than before: another tool.
"""

from __future__ import annotations

import math

import pytest
from scipy.stats import theilslopes

from axlebook.trends.forecast import Line, fit_line, meet

EDGES = (
    "0.0188 0.0909 0.1076 0.1015 0.1076 0.1089 0.1134 0.1194 0.1255 0.1314 "
    "0.1373 0.1432 0.1493 0.1503 0.1672 0.1732 0.1791 0.1850 0.1910 0.2208",
    "0.0186 0.0897 0.0957 0.0971 0.1015 0.1081 0.1136 0.1194 0.1253 0.1314 "
    "0.1374 0.1790 0.1791 0.1854 0.2096 0.2149 0.2209 0.2211 0.2269 0.2281",
    "0.0418 0.0659 0.0955 0.1045 0.1076 0.1136 0.1195 0.1253 0.1255 0.1314 "
    "0.1791 0.1851 0.1910 0.1973 0.2090 0.2152 0.2269 0.2328 0.2447 0.2569",
    "0.0379 0.0716 0.0957 0.1015 0.1081 0.1135 0.1194 0.1253 0.1314 0.1373 "
    "0.1378 0.1432 0.1492 0.1493 0.1556 0.1616 0.1735 0.1845 0.2030 0.2387",
)
NEXT_TOOL = (0.1672, 0.1970, 0.2686, 0.2089)  # pass 21
STEADY = slice(2, 14)  # passes 3 to 14: after the first wear, before the last


def read(edge: int) -> list[float]:
    """The wear of an edge by pass."""
    return [float(text) for text in EDGES[edge].split()]


def line(edge: int) -> Line:
    """The line through the steady passes."""
    found = fit_line([(list(range(3, 15)), read(edge)[STEADY])], 0, 0.0001, falling=False)
    assert found is not None
    return found


@pytest.mark.parametrize("edge", range(4))
def test_the_rate_of_measured_wear_is_that_of_a_general_purpose_library(edge: int) -> None:
    theirs = theilslopes(read(edge)[STEADY], list(range(3, 15)), 0.95)
    ours = line(edge)
    assert ours.rate == pytest.approx(theirs.slope)
    assert ours.low == pytest.approx(theirs.low_slope, rel=0.15)
    assert ours.high == pytest.approx(theirs.high_slope, rel=0.15)
    assert ours.certain


@pytest.mark.parametrize("edge", range(4))
def test_what_was_measured_later_was_reached_no_later_than_the_latest_forecast(edge: int) -> None:
    later = read(edge)[17]  # pass 18, four passes on
    met = meet(line(edge), later, 14.0, 200.0)
    assert met.late is not None
    assert not math.isinf(met.late)
    assert met.late >= 18 - 1


def test_the_change_of_tool_is_not_wear() -> None:
    wear = read(0)
    split = fit_line([(list(range(3, 21)), wear[2:]), ([21], [NEXT_TOOL[0]])], 1, 0.0001, falling=False)
    alone = fit_line([(list(range(3, 21)), wear[2:])], 0, 0.0001, falling=False)
    assert split is not None
    assert alone is not None
    assert split.rate == alone.rate
    assert split.at(21) == pytest.approx(NEXT_TOOL[0])
