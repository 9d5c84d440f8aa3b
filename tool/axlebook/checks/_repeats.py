"""Repeats of one place that stand on both sides of a limit: their mean is within, and one of them is not."""

from __future__ import annotations

from collections.abc import Callable

from axlebook.findings import Verdict
from axlebook.limits import Judgement, Span
from axlebook.records.condition import Value, span_of

BOTH_SIDES = "its repeats stand on both sides of it"


def by_each_repeat(judgement: Judgement, value: Value, judged: Callable[[Span], Judgement]) -> Judgement:
    """The judgement of a mean, undecided where it is within and one of what it is the mean of is outside alone."""
    if judgement.verdict is not Verdict.WITHIN or len(value.readings) != 1:
        return judgement
    reading = value.readings[0]
    repeats = dict(reading.values).get(value.position, ()) if reading.quantity == value.quantity else ()
    if len(repeats) < 2 or all(judged(span_of(one)).verdict is not Verdict.OUTSIDE for one in repeats):
        return judgement
    return judgement._replace(verdict=Verdict.UNDECIDED, missing=BOTH_SIDES)
