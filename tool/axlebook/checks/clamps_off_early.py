"""The clamps came off before the tire was cold, or the times of seating are not told.

What is judged: for every tire that is on by record and has a register to be held against, the times of seating,
clamping and unclamping. Clamps that came off before the tire gripped, or before it was seated, held nothing. How long
they must stay is judged by the limits on `clamp_time`, where one is on file; a tire draws off its register until it
is cold. A time that is not told is not assessed. Of work that goes on past midnight the times begin anew, and clamps
stay on overnight, so two hours back or more is the next day.

What to do: feel the register at every marked place, cold. Where a gap is found the tire has drawn off.

Source: the limit record named in the finding; the order of the steps is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Finding, Severity, Verdict
from axlebook.limits import point
from axlebook.records.book import Book
from axlebook.records.heat_log import minutes, since

from ._by_limit import decide, limit_finding
from ._tire_day import Application, applications, not_told

ID = "clamps-off-early"
QUANTITIES = ("clamp_time",)
OVERNIGHT = 120  # minutes
NEXT = "Feel the register at every marked place, cold: where a gap is, the tire has drawn off."
TIMES = (
    ("seated", "when the tire was seated"),
    ("clamps_fitted", "when clamps were fitted"),
    ("clamps_removed", "when the clamps came off"),
)


def check(book: Book) -> Iterator[Finding]:
    """Look at the times of seating and clamping."""
    for app in applications(book):
        if app.tire.located_by != "nothing":
            yield from _judged(book, app)


def _judged(book: Book, app: Application) -> Iterator[Finding]:
    told = {key: minutes(app.told("seating", key)) for key, _ in TIMES}
    untold = [(key, what) for key, what in TIMES if told[key] is None]
    for key, what in untold:
        yield not_told(ID, app, app.at("seating", key), what, key)
    off, on, seated = told["clamps_removed"], told["clamps_fitted"], told["seated"]
    if off is None:
        return
    at = app.at("seating", "clamps_removed")
    gripped = minutes(app.told("seating", "gripped"))
    for before, what in ((gripped, "gripped"), (on, "was clamped"), (seated, "was seated")):
        if before is not None and since(before, off, OVERNIGHT) <= 0:
            clock = app.told("seating", "clamps_removed")
            words = f"{app.subject}: the clamps came off at {clock}, before the tire {what}."
            yield Finding(
                ID, Verdict.SUSPECT, Severity.WATCH, app.subject, at, words, source="common practice, no source",
                next=NEXT, quantity="clamps_removed",
            )  # fmt: skip
            return
    if untold or on is None:
        return
    stayed = since(on, off, OVERNIGHT)
    judged = decide(book, app.stand, "clamp_time", point(Fraction(60 * stayed)))
    if isinstance(judged, str):
        yield Finding(ID, Verdict.WITHIN, Severity.WATCH, app.subject, at, "", quantity="clamps_removed")
        return
    text = f"the clamps stayed on for {stayed} min"
    yield limit_finding(book, ID, app.subject, at, judged, "clamp_time", text, NEXT)
