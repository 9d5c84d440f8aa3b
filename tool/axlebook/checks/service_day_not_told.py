"""An engine was inspected for a day's use, and its service records count no service on that day.

What is judged: every inspection with the purpose `daily`, day by day, against the service records of its engine. Where
these tell nothing of the time, or only a total of it, nothing is asked here; where they make it a day without service,
one of the two is wrong. Inspections that fall due by service days, and wear by them, are counted too low until then.

What to do: `axlebook steam ENGINE DAY` where the engine was in steam; else write into the `note` of the inspection's
record why it was not, with another purpose.

Source: the two records.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import timedelta

from axlebook.findings import Finding, Severity, Verdict
from axlebook.records.book import Book
from axlebook.records.session import Session

ID = "service-day-not-told"


def check(book: Book) -> Iterator[Finding]:
    """Tell the daily inspections of each month on days that count as without service."""
    found: dict[tuple[str, str], list[Session]] = defaultdict(list)
    for session in book.past_sessions:
        day = session.day.exact
        if session.purpose != "daily" or day is None or session.engine not in book.engines:
            continue
        served = book.service_calendar(session.engine).count(day - timedelta(1), day)
        if served.most == 0:
            found[session.engine, f"{day:%Y-%m}"].append(session)
    for (engine, month), sessions in found.items():
        yield _finding(engine, month, sessions)


def _finding(engine: str, month: str, sessions: list[Session]) -> Finding:
    first, many = sessions[0], len(sessions)
    others = f", and so {many - 1} more of {month}" if many > 1 else ""
    return Finding(
        ID, Verdict.SUSPECT, Severity.DATA, engine, first.day_at,
        f"{engine} was inspected for use on {first.day.text} ({first.id}), a day without service by its service "
        f"records{others}. What falls due by service days is counted too late.",
        source="the inspection and the service records",
        next=f"Where it was in steam: axlebook steam {engine} {first.day.text}", where=month,
    )  # fmt: skip
