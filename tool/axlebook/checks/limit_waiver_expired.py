"""A limit of a set in force has run out, and judges no longer.

What is judged: every limit with a last day, `expires_on`, of the sets that an engine is judged by. From the day after,
the limits that it stood in for judge again, with their own figures: what the authority allowed for a time may now be
outside. That is told where it is; here stands, as a note, why.

What to do: look at what is outside now. Where the authority has allowed it anew, write the new docket and last day as a
limit of its own; an old one is never made longer.

Source: the limit, `expires_on`.
"""

from __future__ import annotations

from collections.abc import Iterator

from axlebook.findings import Figure, Finding, Severity, Verdict
from axlebook.records.book import Book

ID = "limit-waiver-expired"


def check(book: Book) -> Iterator[Finding]:
    """Tell, once, every limit that has run out in a set that is in force for an engine."""
    in_force = {x.id: x for engine in book.engines.values() for x in book.limits_for(engine)}
    for limit in (limit for limit_set in in_force.values() for limit in limit_set.limits):
        if limit.expires_on is None or book.as_of <= limit.expires_on:
            continue
        docket = f" (docket {limit.docket})" if limit.docket else ""
        again = f" {', '.join(limit.replaces)} judges again." if limit.replaces else ""
        yield Finding(
            ID,
            Verdict.SUSPECT,
            Severity.NOTE,
            limit.id,
            limit.place.below("expires_on"),
            f"{limit.id}{docket} ran out on {limit.expires_on}, and judges no longer.{again}",
            (Figure("expires_on", str(limit.expires_on), "", limit.id),),
            limit.cited,
            "Look at what is outside now; write what was allowed anew as a limit of its own.",
        )
