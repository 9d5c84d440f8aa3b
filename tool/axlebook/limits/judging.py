"""Whether a limit applies to a thing, and what it says of a value.

Values are exact rationals in the SI base of their dimension. A value may be an interval (a feeler that does not
enter, a reading widened by its uncertainty): it is judged only when all of it lies on one side.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction

from axlebook.findings import Verdict

from .limit import Applies, Condition, FacetReader, FacetTest, Judgement, Limit
from .spans import SEEN, Bound, Span

YES = Applies(True)


def applies(tests: Iterable[FacetTest], facets: FacetReader) -> Applies:
    """Whether all facet tests hold. A `no` outweighs a facet that is not known."""
    unknown = ""
    for test in tests:
        value = facets(test.facet)
        if value is None:
            unknown = unknown or test.facet
        elif not test.holds(value):
            return Applies(False, test.facet)
    return Applies(None, unknown) if unknown else YES


def judge(limit: Limit, values: Mapping[str, Span], facets: FacetReader) -> Judgement:
    """Judge values by a limit that applies to them.

    Outside when every condition holds for certain; within when one certainly does not; else undecided.
    A missing size or table facet is `not assessed`, named; a table that has no row is `not assessed` too.
    """
    parts = [
        _judge_condition(limit, condition, values.get(condition.quantity), facets) for condition in limit.conditions
    ]
    for part in parts:
        if part.verdict is Verdict.WITHIN:
            return part
    for verdict in (Verdict.NOT_ASSESSED, Verdict.UNDECIDED):
        for part in parts:
            if part.verdict is verdict:
                return part
    return parts[0]


def _judge_condition(limit: Limit, condition: Condition, span: Span | None, facets: FacetReader) -> Judgement:
    if span is None:
        return Judgement(limit, Verdict.NOT_ASSESSED, missing=condition.quantity)
    if condition.seen:
        return Judgement(limit, Verdict.OUTSIDE if span == SEEN else Verdict.WITHIN)
    judged = [_judge_bound(limit, bound, span, facets) for bound in condition.bounds]
    for verdict in (Verdict.OUTSIDE, Verdict.NOT_ASSESSED, Verdict.UNDECIDED):
        for judgement in judged:
            if judgement.verdict is verdict:
                return judgement
    return min(judged, key=lambda j: j.margin if j.margin is not None else Fraction(0))


def _judge_bound(limit: Limit, bound: Bound, span: Span, facets: FacetReader) -> Judgement:
    value, text = bound.value, bound.text
    if value is None:
        found = _from_table(limit, facets)
        if isinstance(found, str):
            return Judgement(limit, Verdict.NOT_ASSESSED, bound, missing=found)
        value, text = found
    holds = bound.holds(span, value)
    verdict = {True: Verdict.OUTSIDE, False: Verdict.WITHIN, None: Verdict.UNDECIDED}[holds]
    return Judgement(limit, verdict, bound, value, text, _margin(bound, span, value))


def _from_table(limit: Limit, facets: FacetReader) -> tuple[Fraction, str] | str:
    """The table's figure and text, or the name of what it lacks."""
    if limit.table is None:
        return "table"
    keys = []
    for facet in limit.table.facets:
        value = facets(facet)
        if not isinstance(value, Fraction):
            return facet
        keys.append(value)
    return limit.table.look_up(tuple(keys)) or "a row of the table"


def _margin(bound: Bound, span: Span, value: Fraction) -> Fraction | None:
    if bound.word in ("under", "at_most"):
        return None if span.low is None else span.low - value
    return None if span.high is None else value - span.high
