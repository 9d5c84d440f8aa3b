"""How a judgement is said: shop words first, what it was compared with, where that comes from."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from axlebook.findings import Figure
from axlebook.limits import Bound, Judgement
from axlebook.quantities import both_ways, digits_apart, parse_measure, render_fraction, render_value
from axlebook.records.condition import Value
from axlebook.records.dates import Day
from axlebook.records.reading import Reading
from axlebook.records.session import Session

OUT_WORDS = {"under": "under", "at_most": "at or under", "over": "over", "at_least": "at or over"}
DISPLAY = {"length": ("mm", 3), "mass": ("lb", 0), "force": ("kN", 1), "temperature": ("degC", 1)}
WORK = {"tire-applied": "new tire put on", "tire-removed": "tire taken off", "mounting": "wheel pressed on or off"}


def shown(text: str) -> str:
    """A written measure in both systems; a text that is none as it stands."""
    try:
        return both_ways(parse_measure(text))
    except ValueError:
        return text


def figured(exact: Fraction, dimension: str, mm: bool) -> str:
    """A computed figure: a length in inches (as a fraction where it is one) and in millimetres, `mm` these first."""
    if dimension == "length":
        in_inches = render_fraction(exact) or render_value(exact, "length", "in", 4)
        in_mm = render_value(exact, "length", "mm", 3)
        return f"{in_mm} ({in_inches})" if mm else f"{in_inches} ({in_mm})"
    if dimension == "ratio":
        return render_value(exact, "ratio", "percent", 1)
    if dimension in DISPLAY:
        unit, places = DISPLAY[dimension]
        return render_value(exact, dimension, unit, places)
    return str(exact)


def out_words(bound: Bound, text: str) -> str:
    """When a limit says outside: `at or under 15/16 in`."""
    return f"{OUT_WORDS[bound.word]} {shown(text)}"


def work_words(work: Session) -> str:
    """A work and its day: `the turning of 2020-01-11`."""
    return f"the {WORK.get(work.kind, work.kind)} of {work.day.text}"


def since_words(read: Day, work: Session) -> str:
    """Why what was read before a work tells nothing now: it was before it, or nobody knows which came first."""
    earlier = read.last is not None and work.day.first is not None and read.last < work.day.first
    return f"since {work_words(work)}" if earlier else f"for certain since {work_words(work)}"


def again(work: Session, words: str) -> str:
    """What to do about a part that was worked on since; of a work without any date its day is what helps."""
    return words if work.day.last is not None else f"Write in {work.path} when that was done, if only the year."


def exact_text(exact: Fraction, dimension: str, unit: str) -> tuple[str, str]:
    """An exact figure as (value, unit) for a Figure: all its digits, or the shortest text that reads back."""
    if dimension == "count":
        return str(exact), ""
    text = render_value(exact, dimension, "percent" if dimension == "ratio" else unit, 12)
    number, _, named = text.partition(" ")
    return number, named or unit


def value_figures(value: Value, dimension: str, computed: bool) -> tuple[Figure, ...]:
    """The figures of a value: as read, with its record."""
    found: list[Figure] = []
    for reading in {reading.at: reading for reading in value.readings}.values():
        found += _read_figures(reading, value.position, computed)
    if computed and value.span.low is not None and value.span.low == value.span.high:
        found.append(
            Figure(value.quantity, *exact_text(value.span.low, dimension, value.unit or "mm"), origin="computed")
        )
    return tuple(found) or (Figure(value.quantity, *_split(value.text), origin=value.at.path),)


def _read_figures(reading: Reading, position: str, computed: bool) -> list[Figure]:
    return [
        Figure(f"{reading.quantity} {at}", *_split(m.text), origin=reading.source.record)
        for at, measures in reading.values
        if computed or position in (at, "")
        for m in measures
    ]


@lru_cache(maxsize=4096)
def _split(text: str) -> tuple[str, str]:
    try:
        measure = parse_measure(text)
    except ValueError:
        return text, ""
    return text, measure.unit


def limit_figure(judgement: Judgement) -> tuple[Figure, ...]:
    """The limit's figure, with the limit it comes from."""
    if judgement.bound is None:
        return ()
    return (Figure("limit " + judgement.bound.word, *_split(judgement.text), origin=judgement.limit.id),)


def apart(value: Fraction, limit: Fraction, unit: str) -> tuple[str, str]:
    """Two lengths with enough digits that they differ to the eye."""
    return digits_apart(value, limit, unit)
