"""One limit as published or adopted: its conditions, the facets it asks for, its table, and a judgement by it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from enum import Enum
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from axlebook.findings import Place, Severity, Verdict

from .citation import source_and_clause
from .spans import Bound, point

FacetValue = str | Fraction
FacetReader = Callable[[str], FacetValue | None]

STAGE_SEVERITY = {
    "condemning": Severity.CONDEMNING,
    "shop": Severity.SHOP,
    "new": Severity.SHOP,
    "practice": Severity.SHOP,
    "note": Severity.NOTE,
}


class Condition(NamedTuple):
    """What one quantity must do for the limit to say `outside`: any of its bounds, or an observation seen."""

    quantity: str
    bounds: tuple[Bound, ...] = ()
    seen: str = ""


class FacetTest(NamedTuple):
    """What a limit asks of one facet: any of some words or exact figures, or all of some bounds."""

    facet: str
    words: tuple[str, ...] = ()
    bounds: tuple[Bound, ...] = ()
    figures: tuple[Fraction, ...] = ()  # the words that are measures

    def holds(self, value: FacetValue) -> bool:
        """Whether the facet's value answers the test."""
        if isinstance(value, str):
            return value in self.words
        if not self.bounds:  # without bounds and figures nothing measured answers
            return value in self.figures
        here = point(value)
        return all(bound.value is not None and bound.holds(here, bound.value) for bound in self.bounds)


class Between(Enum):
    """How a table is read between its rows."""

    NEXT_ROW = "next row"
    STRAIGHT_LINE = "straight line"


class Table(NamedTuple):
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
        for (x0, y0), (x1, y1) in pairwise(points):
            if x0 <= key <= x1:
                return y0 + (y1 - y0) * (key - x0) / (x1 - x0), "straight line between the rows"
        if points and key == points[0][0]:
            return points[0][1], self.texts[0]
        return None


class Limit(NamedTuple):
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
        return source_and_clause(self.source, self.clause)


class Applies(NamedTuple):
    """Whether a limit is for this thing: yes, no, or not known for want of a facet."""

    answer: bool | None
    facet: str = ""  # the facet that said no, or that is not known


class Judgement(NamedTuple):
    """A value judged by one limit."""

    limit: Limit
    verdict: Verdict
    bound: Bound | None = None
    value: Fraction | None = None  # the bound's figure, from the table where it came from there
    text: str = ""  # the figure as written
    margin: Fraction | None = None  # to the nearest bound; positive is inside
    missing: str = ""  # a facet or size that is not known
