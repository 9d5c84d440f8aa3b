"""Limits, judgements and values made up for the tests of how they are weighed and said."""

from fractions import Fraction
from types import SimpleNamespace
from typing import Any

from axlebook.checks._judging import (
    Assessed,
)
from axlebook.findings import Place, Verdict
from axlebook.limits import Bound, Condition, Judgement, Limit, Span
from axlebook.records.condition import Value

INCH = Fraction(254, 10000)
PLACE = Place("limits/own.yaml", "/limits/0")


def limit(stage: str = "condemning", name: str = "own/x", **more: Any) -> Limit:
    bound = Bound("under", INCH, "1 in")
    source = more.pop("source", "Own book")
    set_id = name.partition("/")[0]
    return Limit(
        name, set_id, (Condition("tire_width", (bound,)),), stage, "page 1", "as written", source, PLACE, **more
    )


def judgement(verdict: str, margin: str | None = None, stage: str = "condemning", **more: Any) -> Judgement:
    of = more.pop("of", None) or limit(stage)
    exact = None if margin is None else Fraction(margin)
    return Judgement(of, Verdict(verdict), of.conditions[0].bounds[0], INCH, "1 in", exact, **more)


def value(
    low: Fraction | str | None, high: Fraction | str | None = None, text: str = "as read", position: str = ""
) -> Value:
    low = None if low is None else Fraction(low)
    high = low if high is None else None if high == "open" else Fraction(high)
    of: Any = PLACE
    return Value("tire_width", position, Span(low, high), text, "in", "", of, of, ())


def assessed(one: Judgement, of: Value | None = None, **more: Any) -> Assessed:
    stand: Any = SimpleNamespace(name="e-1 driver-1 left")
    return Assessed(stand, "tire_width", of or value(INCH), one, **more)
