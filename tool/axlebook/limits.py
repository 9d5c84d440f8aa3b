"""A limit, the facets it asks for, and how a value is judged by it.

Values are exact rationals in the SI base of their dimension. A value may be an interval (a feeler that does not
enter, a reading widened by its uncertainty): it is judged only when all of it lies on one side.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from enum import Enum
from fractions import Fraction

from axlebook.findings import Place, Severity, Verdict

FacetValue = str | Fraction
FacetReader = Callable[[str], FacetValue | None]

STAGE_SEVERITY = {
    "condemning": Severity.CONDEMNING,
    "shop": Severity.SHOP,
    "new": Severity.SHOP,
    "practice": Severity.SHOP,
    "note": Severity.NOTE,
}


@dataclass(frozen=True, slots=True)
class Span:
    """What is known of a value: low and high bounds, exact, None where open. A point has both alike."""

    low: Fraction | None
    high: Fraction | None

    def widened(self, by: Fraction) -> Span:
        """The span with `by` added on both sides."""
        low = None if self.low is None else self.low - by
        high = None if self.high is None else self.high + by
        return Span(low, high)


def point(value: Fraction) -> Span:
    """The span of a value known exactly."""
    return Span(value, value)


SEEN, NOT_SEEN = point(Fraction(1)), point(Fraction(0))  # an observation, as a value to judge


@dataclass(frozen=True, slots=True)
class Bound:
    """One word and figure of a condition: `under 53 in`. `value` None: the figure comes from the limit's table."""

    word: str  # under, at_most, over, at_least
    value: Fraction | None
    text: str

    def holds(self, span: Span, value: Fraction) -> bool | None:
        """Whether the span lies wholly in the bound (True), wholly out of it (False), or neither (None)."""
        low, high = span.low, span.high
        match self.word:
            case "under":
                return _decided(high is not None and high < value, low is not None and low >= value)
            case "at_most":
                return _decided(high is not None and high <= value, low is not None and low > value)
            case "over":
                return _decided(low is not None and low > value, high is not None and high <= value)
            case "at_least":
                return _decided(low is not None and low >= value, high is not None and high < value)
        raise ValueError(f"no such comparison: {self.word}")


def _decided(inside: bool, outside: bool) -> bool | None:
    return True if inside else False if outside else None


@dataclass(frozen=True, slots=True)
class Condition:
    """What one quantity must do for the limit to say `outside`: any of its bounds, or an observation seen."""

    quantity: str
    bounds: tuple[Bound, ...] = ()
    seen: str = ""


@dataclass(frozen=True, slots=True)
class FacetTest:
    """What a limit asks of one facet: any of some words or exact figures, or all of some bounds."""

    facet: str
    words: tuple[str, ...] = ()
    bounds: tuple[Bound, ...] = ()
    figures: tuple[Fraction, ...] = ()  # the words that are measures

    def holds(self, value: FacetValue) -> bool:
        """Whether the facet's value answers the test."""
        if isinstance(value, Fraction):
            if not self.bounds:  # without bounds and figures nothing measured answers
                return value in self.figures
            here = point(value)
            return all(bound.value is not None and bound.holds(here, bound.value) is True for bound in self.bounds)
        return value in self.words


class Between(Enum):
    """How a table is read between its rows."""

    NEXT_ROW = "next row"
    STRAIGHT_LINE = "straight line"


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of exact figures; the last column is the limit, the others are facets, rising. None is `above`."""

    columns: tuple[str, ...]
    between: Between
    rows: tuple[tuple[Fraction | None, ...], ...]
    texts: tuple[str, ...]  # the last column as written

    @property
    def facets(self) -> tuple[str, ...]:
        """The facets that choose a row."""
        return self.columns[:-1]

    def look_up(self, keys: tuple[Fraction, ...]) -> tuple[Fraction, str] | None:
        """The limit for these facets and its text; None where the table says nothing (never extrapolated)."""
        if self.between is Between.STRAIGHT_LINE:
            return self._interpolated(keys[0])
        for row, text in zip(self.rows, self.texts, strict=True):
            if all(most is None or key <= most for key, most in zip(keys, row, strict=False)):
                found = row[-1]
                return None if found is None else (found, text)
        return None

    def _interpolated(self, key: Fraction) -> tuple[Fraction, str] | None:
        points = [(x, y) for x, y in ((row[0], row[-1]) for row in self.rows) if x is not None and y is not None]
        for (x0, y0), (x1, y1) in zip(points, points[1:], strict=False):
            if x0 <= key <= x1:
                return y0 + (y1 - y0) * (key - x0) / (x1 - x0), "straight line between the rows"
        if points and key == points[0][0]:
            return points[0][1], self.texts[0]
        return None


@dataclass(frozen=True, slots=True)
class Limit:
    """One limit of a set, as published or adopted."""

    id: str  # SET/ID
    set_id: str
    conditions: tuple[Condition, ...]  # all must hold for `outside`
    stage: str
    clause: str
    decision: str
    source: str  # title and edition
    place: Place
    where: str = ""
    applies_to: tuple[FacetTest, ...] = ()
    table: Table | None = None
    title: str = ""
    note: str = ""
    expires_on: date | None = None
    docket: str = ""  # of an authority's waiver
    replaces: tuple[str, ...] = ()  # ids of limits that an authority's waiver stands in for

    @property
    def quantities(self) -> tuple[str, ...]:
        """The quantities it judges together."""
        return tuple(condition.quantity for condition in self.conditions)

    @property
    def stands_in_for(self) -> tuple[str, ...]:
        """The limits that this one, an authority's waiver, silences: none without its docket and its last day."""
        return self.replaces if self.docket and self.expires_on else ()

    @property
    def severity(self) -> Severity:
        """How heavy an `outside` by this limit is."""
        return STAGE_SEVERITY[self.stage]

    @property
    def cited(self) -> str:
        """Source and clause for a reader."""
        return f"{self.source}, {self.clause}"


@dataclass(frozen=True, slots=True)
class Applies:
    """Whether a limit is for this thing: yes, no, or not known for want of a facet."""

    answer: bool | None
    facet: str = ""  # the facet that said no, or that is not known


@dataclass(frozen=True, slots=True)
class Judgement:
    """A value judged by one limit."""

    limit: Limit
    verdict: Verdict
    bound: Bound | None = None
    value: Fraction | None = None  # the bound's figure, from the table where it came from there
    text: str = ""  # the figure as written
    margin: Fraction | None = None  # to the nearest bound; positive is inside
    missing: str = ""  # a facet or size that is not known


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


@dataclass(frozen=True, slots=True)
class Interval:
    """When something falls due again."""

    id: str
    set_id: str
    title: str
    every: tuple[int, str] | None  # (31, "service day"), (368, "day"), (15, "year")
    alternative: tuple[int, str] | None
    satisfies: tuple[str, ...]
    with_each: str
    nth: int
    starts: tuple[str, ...]
    start_delay: tuple[int, str] | None
    report_within: tuple[int, str] | None
    notice: tuple[int, str] | None
    each_year_by: str
    of: str
    stage: str
    clause: str
    source: str
    place: Place
    applies_to: tuple[FacetTest, ...] = ()
    note: str = ""
    of_two: str = "first"  # falls due with the first or with the last of `every` and `alternative`

    @property
    def name(self) -> str:
        """Set and id: what tells it from one of another set that has the same id."""
        return f"{self.set_id}/{self.id}"

    @property
    def severity(self) -> Severity:
        """How heavy it is when it is overdue."""
        return STAGE_SEVERITY[self.stage]

    @property
    def cited(self) -> str:
        """Source and clause for a reader."""
        return f"{self.source}, {self.clause}"


@dataclass(frozen=True, slots=True)
class Practice:
    """An allowance the trade or the railway works to: nominal by a table or a share, with its tolerance."""

    id: str
    set_id: str
    quantity: str
    table: Table | None
    share: Fraction | None
    value: Fraction | None
    follows: str
    minus: Fraction | None
    plus: Fraction | None
    stage: str
    clause: str
    source: str
    decision: str
    place: Place
    applies_to: tuple[FacetTest, ...] = ()
    per: Fraction | None = None  # value and tolerance are for each of this length

    def nominal(self, size: Fraction) -> Fraction | None:
        """The nominal figure for a size (the facet of its table, or the diameter); None where nothing is said."""
        if self.value is not None:
            return self.value
        if self.share is not None:
            return self.share * size
        found = self.table.look_up((size,)) if self.table else None
        return found[0] if found else None


@dataclass(frozen=True, slots=True)
class AfterEvent:
    """What an event asks to be looked at again."""

    id: str
    set_id: str
    event: str
    asks: tuple[str, ...]
    quantities: tuple[str, ...]
    within: tuple[int, str] | None
    stage: str
    clause: str
    source: str
    place: Place

    @property
    def severity(self) -> Severity:
        """How heavy it is when it was not looked at in time."""
        return STAGE_SEVERITY[self.stage]

    @property
    def cited(self) -> str:
        """Source and clause for a reader."""
        return f"{self.source}, {self.clause}"


@dataclass(frozen=True, slots=True)
class Paperwork:
    """What the tag or the repair of a defect must tell."""

    id: str
    set_id: str
    of: str  # tag, repair
    asks: tuple[str, ...]
    stage: str
    clause: str
    source: str
    place: Place
    applies_to: tuple[FacetTest, ...] = ()

    @property
    def severity(self) -> Severity:
        """How heavy it is that something is missing."""
        return STAGE_SEVERITY[self.stage]

    @property
    def cited(self) -> str:
        """Source and clause for a reader."""
        return f"{self.source}, {self.clause}"


@dataclass(frozen=True, slots=True)
class WatchSign:
    """One sign of a watch list, and how much it says: `alone`, `with another`, or only `beside a sign`."""

    sign: str  # a thing looked for, or a quantity
    weight: str
    by: str  # seen, bounds, practice, share, moved: how it is told whether the sign is there
    bounds: tuple[Bound, ...] = ()
    figure: Fraction | None = None  # the share of what is expected, or how many times the uncertainty
    counts_as: str = ""  # signs of one name count once
    stays: bool = False  # a later look that does not see it does not close it


@dataclass(frozen=True, slots=True)
class Watch:
    """How weak signs add up to a suspicion that no limit speaks of: practice, for the railway to change."""

    id: str
    set_id: str
    title: str
    signs: tuple[WatchSign, ...]
    stage: str
    clause: str
    source: str
    place: Place
    applies_to: tuple[FacetTest, ...] = ()

    @property
    def cited(self) -> str:
        """Source and clause for a reader."""
        return f"{self.source}, {self.clause}" if self.clause not in self.source else self.source


@dataclass(frozen=True, slots=True)
class LimitSet:
    """Limits, intervals and practices from one source."""

    id: str
    title: str
    edition: str
    seen_on: str
    decision: str
    place: Place
    historic: bool = False
    tightens: tuple[str, ...] = ()
    limits: tuple[Limit, ...] = ()
    intervals: tuple[Interval, ...] = ()
    practices: tuple[Practice, ...] = ()
    after: tuple[AfterEvent, ...] = ()
    watch: tuple[Watch, ...] = ()
    paperwork: tuple[Paperwork, ...] = ()


@dataclass(frozen=True, slots=True)
class Adoption:
    """A limit set put in force from a day until a day."""

    set_id: str
    start: date | None
    until: date | None

    def in_force(self, on: date) -> bool:
        """Whether it is in force on the day."""
        return (self.start is None or self.start <= on) and (self.until is None or on <= self.until)


def sets_in_force(adoptions: Iterable[Adoption], sets: Mapping[str, LimitSet], on: date) -> tuple[LimitSet, ...]:
    """The sets adopted and on file, in the order they were adopted; a historic set judges nothing."""
    chosen = (sets.get(adoption.set_id) for adoption in adoptions if adoption.in_force(on))
    return tuple(found for found in chosen if found is not None and not found.historic)
