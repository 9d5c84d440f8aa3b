"""A limit, what it asks before it applies, how a value is judged by it, and the sets that are in force on a day."""

from .entries import AfterEvent, Interval, Paperwork, Practice, Watch, WatchSign
from .judging import applies, judge
from .limit import (
    STAGE_SEVERITY,
    Applies,
    Between,
    Condition,
    FacetReader,
    FacetTest,
    FacetValue,
    Judgement,
    Limit,
    Table,
)
from .sets import Adoption, LimitSet, sets_in_force
from .spans import NOT_SEEN, SEEN, Bound, Span, point

__all__ = [
    "NOT_SEEN",
    "SEEN",
    "STAGE_SEVERITY",
    "Adoption",
    "AfterEvent",
    "Applies",
    "Between",
    "Bound",
    "Condition",
    "FacetReader",
    "FacetTest",
    "FacetValue",
    "Interval",
    "Judgement",
    "Limit",
    "LimitSet",
    "Paperwork",
    "Practice",
    "Span",
    "Table",
    "Watch",
    "WatchSign",
    "applies",
    "judge",
    "point",
    "sets_in_force",
]
