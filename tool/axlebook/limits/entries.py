"""What else a set holds: intervals, practices, what an event asks for, what papers ask for, signs to watch."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from axlebook.findings import Place, Severity

from .citation import source_and_clause
from .limit import STAGE_SEVERITY, FacetTest, Table
from .spans import Bound


class Interval(NamedTuple):
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
        return source_and_clause(self.source, self.clause)


class Practice(NamedTuple):
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
    figures: str = ""  # value and tolerance as they are written

    def nominal(self, size: Fraction) -> Fraction | None:
        """The nominal figure for a size (the facet of its table, or the diameter); None where nothing is said."""
        if self.value is not None:
            return self.value
        if self.share is not None:
            return self.share * size
        found = self.table.look_up((size,)) if self.table else None
        return found[0] if found else None


class AfterEvent(NamedTuple):
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
        return source_and_clause(self.source, self.clause)


class Paperwork(NamedTuple):
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
        return source_and_clause(self.source, self.clause)


class WatchSign(NamedTuple):
    """One sign of a watch list, and how much it says: `alone`, `with another`, or only `beside a sign`."""

    sign: str  # a thing looked for, or a quantity
    weight: str
    by: str  # seen, bounds, practice, share, moved: how it is told whether the sign is there
    bounds: tuple[Bound, ...] = ()
    figure: Fraction | None = None  # the share of what is expected, or how many times the uncertainty
    counts_as: str = ""  # signs of one name count once
    stays: bool = False  # a later look that does not see it does not close it


class Watch(NamedTuple):
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
        return source_and_clause(self.source, self.clause)
