"""After a turning there is more metal than there was before it, and a lathe only takes some off.

What is judged: tread diameters and the thicknesses of tires and rims, the first value at each position after a turning
against the last before it, in the same plane. Where a tire went on or came off between the two nothing is judged, for
its grip widens it, nor is what the card is not sure of. What was kept with a reason (`reason_kept`) is not asked about.

What to do: measure again. Either the figure from before the turning was too small, or this one is too large; or it is
of another wheel, or the turning was never done.

Source: common practice, no source. How far off counts: `plausibility` in ledger.yaml.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book, Thing
from axlebook.records.lines import UNKNOWN
from axlebook.records.plausibility import practice_of
from axlebook.records.reading import DOUBTFUL, Reading
from axlebook.records.timeline import all_series, works_on
from axlebook.records.turning_wheels import THICKNESSES
from axlebook.trends.series import Dated, Series

ID = "turning-added-metal"
TURNED = frozenset({"tread_diameter", "rim_thickness", *THICKNESSES})
NEXT = "Measure again, the wheel opposite too; then put the wrong figure right by a correction."


def check(book: Book) -> Iterator[Finding]:
    """Tell every value after a turning that is more than the last before it."""
    times = practice_of(book).plain
    for series in all_series(book):
        if series.quantity not in TURNED or not isinstance(series.thing, Thing):
            continue
        if len({point.epoch for point in series.points}) == 1:  # no work between any two: most series
            continue
        points = [p for p in series.points if p.origin.sure not in DOUBTFUL and "reason_kept" not in p.origin.tree]
        for plane in dict.fromkeys(point.way[1] for point in points):
            for before, after in pairwise(point for point in points if point.way[1] == plane):
                turned = before.epoch < after.epoch and _only_turned(book, series, before, after)
                if turned and _more(before, after, times):
                    yield _finding(book, series, before, after)


def _more(before: Dated, after: Dated, times: float) -> bool:
    """Whether one value is more than another by more than their scatter explains."""
    variance = sum(UNKNOWN if one.variance is None else float(one.variance) for one in (before, after))
    return float(after.value - before.value) > times * math.sqrt(variance)


def _only_turned(book: Book, series: Series, before: Dated, after: Dated) -> bool:
    assert isinstance(series.thing, Thing)
    works = works_on(book, series.thing, series.quantity)[before.epoch : after.epoch]
    return all(work.kind == "turning" for work in works)


def _finding(book: Book, series: Series, before: Dated, after: Dated) -> Finding:
    assert isinstance(series.thing, Thing)
    reading: Reading = after.origin
    title = book.vocabulary.quantities[series.quantity].title
    subject = f"{reading.source.engine} {reading.place}".strip() if reading.place else series.thing.id
    turned = works_on(book, series.thing, series.quantity)[after.epoch - 1]
    return Finding(
        ID, Verdict.SUSPECT, Severity.DATA, subject,
        reading.value_at(series.position),
        f"{subject}, {title}, {series.position}: {after.text} after the turning of {turned.day.text}, and before it "
        f"{before.text}, on {before.day}. A lathe adds no metal.",
        source=f"the readings of {before.origin.source.record} and {reading.source.record}", next=NEXT,
        quantity=series.quantity, where=series.position,
    )  # fmt: skip
