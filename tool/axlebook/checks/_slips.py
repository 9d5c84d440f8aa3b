"""How a doubtful reading is told: what was read, what it stood beside, the one slip, what to measure again."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction
from statistics import median

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.quantities import Quantity, parse_measure, render_fraction, render_value
from axlebook.records.book import Book
from axlebook.records.doubts import EXPANDED, Doubt, doubts
from axlebook.records.instruments import resolution
from axlebook.records.offs import Off
from axlebook.records.plausibility import practice_of
from axlebook.records.reading import DOUBTFUL, Measure

from ._records import title
from ._words import shown

SOURCE = "the other readings of the same thing in this ledger; how far off counts: `plausibility` in ledger.yaml"


def doubted(book: Book, id: str, cause: str, step: str) -> Iterator[Finding]:
    """The findings whose likeliest slip is this one. `cause` and `step` may ask for {other}, {meant}, {at}."""
    for doubt in doubts(book):
        if doubt.slip.kind == id and not _told_elsewhere(doubt):
            yield _finding(book, id, doubt, cause, step)


def _told_elsewhere(doubt: Doubt) -> bool:
    """A pair of which the last reading moved is judged by back-to-back-moved: a finding of its own."""
    return doubt.slip.kind == "back-to-back-out-of-line" and doubt.latest


def _finding(book: Book, id: str, doubt: Doubt, cause: str, step: str) -> Finding:
    reading = doubt.reading
    where = ", ".join(off.position for off in doubt.offs)
    at = reading.value_at(doubt.offs[0].position) if len(doubt.offs) == 1 else reading.at.below("values")
    shows = reading.instrument or "the instrument"
    words = {"other": "", "meant": "", "where": where, "named": reading.named, "instrument": shows}
    words["at"] = f"at {where}" if where[:1].isdigit() else f"({where})"
    if doubt.slip.of is not None:
        words["other"] = words["meant"] = doubt.slip.of.says
    words["way"] = f" ({words['other']})" if words["other"] else ""
    words["meant_words"] = f": {words['meant']} fits" if words["meant"] else ""
    span = expected_span(book, doubt)
    return Finding(
        id,
        Verdict.SUSPECT,
        _severity(doubt),
        reading.named,
        at,
        f"{reading.named}, {title(book, reading.quantity)}, {where}: {_values(doubt)}. {_beside(doubt)}"
        f"Expected was {span}. {cause.format(**words)}",
        (
            *(Figure(f"{reading.quantity} {off.position}", *_figure(off), reading.source.record) for off in doubt.offs),
            *_last_figure(doubt),
            Figure("expected", repr(round(_middle(doubt) * 1000, 6)), "mm", "computed"),
        ),
        SOURCE,
        step.format(**words),
        reading.quantity,
        where,
    )


def _severity(doubt: Doubt) -> Severity:
    if doubt.note or doubt.reading.sure != "yes":
        return Severity.NOTE
    moved = doubt.reading.quantity == "back_to_back" and (doubt.latest or doubt.slip.of is None)
    return Severity.WATCH if moved else Severity.DATA


def _written(off: Off) -> Measure:
    found: Measure = next(m[0] for position, m in off.point.origin.values if position == off.position)
    return found


def _figure(off: Off) -> tuple[str, str]:
    return off.point.text, _written(off).unit


def _values(doubt: Doubt) -> str:
    if len(doubt.offs) == 1:
        return shown(doubt.offs[0].point.text)
    return ", ".join(off.point.text for off in doubt.offs)


def _beside(doubt: Doubt) -> str:
    last, first = doubt.last, doubt.offs[0].point
    if last is None:
        return ""
    unsure = ", by a card that is not sure of it" if last.origin.sure in DOUBTFUL else ""
    if last.day <= first.day:
        return f"Last time ({last.day}) it was {last.text}{unsure}. "
    return f"The next time ({last.day}) it was {last.text}{unsure}. "


def _last_figure(doubt: Doubt) -> tuple[Figure, ...]:
    if doubt.last is None:
        return ()
    return (Figure("beside", doubt.last.text, "", doubt.last.origin.source.record),)


def _middle(doubt: Doubt) -> float:
    return median(off.expected for off in doubt.offs)


def expected_span(book: Book, doubt: Doubt) -> str:
    """The range a sound reading would lie in, in the unit of the reading's neighbor."""
    off = min(doubt.offs, key=lambda one: abs(one.expected - _middle(doubt)))
    practice = practice_of(book)
    times = practice.second if doubt.slip.kind == "second-reader-disagrees" else practice.plain
    reach = max(times * off.spread + off.grid + EXPANDED * off.apart, practice.least * off.reach)
    low, high = _on_divisions(book, doubt, off.expected - reach, off.expected + reach)
    low = max(low, 0.0) if off.expected >= 0 else low
    unit = _unit(doubt, off)
    return f"{_rounded(low, unit)} to {_rounded(high, unit)}"


def _on_divisions(book: Book, doubt: Doubt, low: float, high: float) -> tuple[float, float]:
    """The least and the greatest that the instrument of the reading beside it can show within, as a prompt says it."""
    step = resolution(book, doubt.last.origin) if doubt.last is not None else None
    if step is None:
        return low, high
    ends = [Fraction(round(end * 10**12), 10**12) / step for end in (low, high)]
    first, last = math.ceil(ends[0]), math.floor(ends[1])
    return (float(first * step), float(last * step)) if first < last else (low, high)


def _unit(doubt: Doubt, off: Off) -> str:
    text = doubt.last.text if doubt.last is not None else off.point.text
    try:
        found = parse_measure(text.split(" and ")[0])
    except ValueError:
        return _written(off).unit
    return found.unit if isinstance(found, Quantity) else _written(off).unit


def _rounded(metres: float, unit: str) -> str:
    exact = Fraction(round(metres * 10**8), 10**8)
    if unit == "in":
        sixty_fourths = Fraction(round(exact / Fraction("0.0254") * 64), 64) * Fraction("0.0254")
        if abs(sixty_fourths - exact) < Fraction(1, 10**6):
            return render_fraction(sixty_fourths) or render_value(exact, "length", "in", 3)
    return render_value(exact, "length", unit, 3 if unit == "in" else 2)
