"""Back-to-back was not read cold at enough places after a tire went on.

What is judged: for every wheelset on which a tire is on by record, the places at which back-to-back was read after
the last of its tires went on, in one record, by the limits on `back_to_back_places`. A reading taken the same day,
one marked warm, or one of a part hotter than the shop ever is does not count, and the finding says why. On the day
the tire went on it is not yet due.

What to do: the day after, cold, read at marked places equally spaced round the axle, all in one hold.

Source: the limit record named in the finding.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from axlebook.findings import Finding, Severity, Verdict
from axlebook.limits import point
from axlebook.records.book import Book
from axlebook.records.pair import gauged
from axlebook.records.reading import Reading

from ._by_limit import decide, limit_finding, once
from ._tire_day import Application, applications, wheelset_of

ID = "cold-gauge-missing"
QUANTITIES = ("back_to_back_places",)
NEXT = "Read back-to-back cold, at marked places equally spaced, all in one hold."


def check(book: Book) -> Iterator[Finding]:
    """Look at what was read of every pair after its last tire went on."""
    last: dict[str, Application] = {}
    for app in applications(book):
        wheelset = wheelset_of(book, app.center)
        if wheelset not in last or _day(app) >= _day(last[wheelset]):
            last[wheelset] = app
    return once(_judged(book, wheelset, app) for wheelset, app in last.items())


def _day(app: Application) -> str:
    return app.session.day.text


def _judged(book: Book, wheelset: str, app: Application) -> Finding:
    cold, warm = gauged(book, book.wheelsets[wheelset], app.session)
    if not cold:
        return _none(book, wheelset, app, warm)
    records: dict[str, set[str]] = {}
    for reading in cold:
        records.setdefault(reading.source.record, set()).update(position for position, _ in reading.values)
    record = max(records, key=lambda r: len(records[r]))
    count = len(records[record])
    judged = decide(book, app.stand, "back_to_back_places", point(Fraction(count)))
    text = f"after {app.tire.id} went on, back-to-back was read cold at {count} place{'s' if count != 1 else ''}"
    at = next(r.at for r in cold if r.source.record == record)
    return limit_finding(book, ID, wheelset, at, judged, "back_to_back_places", text, NEXT)


def _none(book: Book, wheelset: str, app: Application, warm: list[tuple[Reading, str]]) -> Finding:
    if warm:
        reading, reason = warm[-1]
        words, at = f"the reading of {reading.day.text} does not count: {reason}", reading.at
    elif app.session.day.last is not None and app.session.day.last >= book.as_of:
        words, at = "it is not yet cold", app.at()
    else:
        words, at = "nothing was read since", app.at()
    return Finding(
        ID, Verdict.NOT_ASSESSED, Severity.WATCH, wheelset, at,
        f"{wheelset}: back-to-back after {app.tire.id} went on is NOT known: {words}.",
        source="common practice, no source", next=NEXT, quantity="back_to_back",
        cause="back-to-back was not read cold after a tire went on",
    )  # fmt: skip
