"""Wear will reach a limit before the lathe, or new tires, can be had.

What is judged: every wearing quantity that a turning or a new tire mends, where the ledger gives the lead time for it.
The median rate of past wear is carried on from the present level to each limit in force (see `axlebook wear`). It is
told when that line reaches a limit within the lead time, and only where wear is certain: five readings or more, all of
the 95 percent interval of the rate being wear, nothing read after it being out already. It is a note: the wheel is
within that limit today, by its last reading.

What to do: measure again, and book the lathe or order the tires if it stands; after that the note may be waived.

Source: the railway's own lead times in `ledger.yaml`, and the limit named in the finding.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.records.book import Book

from ._forecast import Forecast, Order, forecast
from ._judging import every_stand
from ._lead_time import ordered_too_late, overtaken_by_lead
from ._words import shown

ID = "worn-before-lead-time"
NEXT = {"lathe": "Measure again, and book the lathe.", "tires": "Measure again, and order the tires."}
MENDS = {"lathe": "booking the lathe", "tires": "getting tires"}


def check(book: Book) -> Iterator[Finding]:
    """Find what wears out before it can be mended."""
    for word, site in overtaken_by_lead(book, every_stand(book)):
        made = forecast(book, site, word)
        late = ordered_too_late(made) if made else None
        if made is not None and late is not None:
            yield _said(made, late)


def _said(made: Forecast, late: Order) -> Finding:
    position, reach = made.position, late.reach
    last = position.series.points[-1]
    target = reach.target
    at = f", {position.name}" if position.name else ""
    gone = reach.middle is not None and reach.middle <= position.as_of  # nobody has measured since
    early = f", at the earliest {reach.early}" if reach.early and not gone else ""
    reaches = "has reached" if gone else "reaches"
    count = made.line.readings if made.line else 0
    message = (
        f"{made.site.name}, {made.word.title}{at}: {shown(last.text)} on {last.day}. At the rate of {count} "
        f"readings it {reaches} {shown(target.text)} about {reach.middle}{early}; "
        f"{MENDS[late.what]} takes {late.lead} days."
    )
    return Finding(
        ID, Verdict.SUSPECT, Severity.NOTE, made.site.name, last.origin.value_at(position.name), message,
        (
            Figure(made.word.name, last.text, "", last.origin.source.record),
            Figure(f"limit {target.bound.word}", target.text, "", target.limit.id),
            Figure("reached", str(reach.middle), "", "computed"),
            Figure("lead time", str(late.lead), "day", "ledger.yaml"),
        ),
        target.limit.cited, NEXT[late.what], made.word.name, position.name,
    )  # fmt: skip
