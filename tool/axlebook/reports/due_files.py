"""What falls due for other programs: JSON, CSV, a calendar; and as Markdown."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from axlebook.checks._due import due_finding, said
from axlebook.findings import Verdict
from axlebook.records.due import Due, Late

from .as_csv import render_csv
from .as_ics import Event, render_ics
from .as_json import figure_json
from .due_view import CHECKS, DueList, EngineCounters, fingerprint_of
from .sheet_markdown import escaped
from .text import sentence
from .unread import unread_item
from .view import WHO_DECIDES, Report

HEADS = (
    "verdict", "severity", "kind", "engine", "subject", "title", "due_on", "estimated", "service_days_left",
    "overdue_since", "last_done", "record", "told", "next", "source",
)  # fmt: skip


def _each(found: DueList) -> Iterator[Due]:
    for row in found.rows:
        yield from row.many


def _day(day: object) -> str:
    return str(day) if day is not None else ""


def _cells(due: Due) -> tuple[str, ...]:
    return (
        str(due.verdict), str(due.severity), str(due.kind), due.engine, due.subject, due.title, _day(due.due_on),
        _day(due.estimate), due.left.words if due.left else "", _day(due.since), due.done_on, due.record,
        f"{due.cause}; {due.told}".strip("; "), due.next, due.source,
    )  # fmt: skip


def due_csv(found: DueList) -> str:
    """A row a thing, overdue first."""
    return render_csv(HEADS, (_cells(due) for due in _each(found)))


def due_json(found: DueList) -> dict[str, Any]:
    """The rows, counters and what was late, as promised."""
    return {
        "until": found.until.isoformat(),
        "rows": [_row(due, row.waived, found) for row in found.rows for due in row.many],
        "counters": [_counters(one) for one in found.counters],
        "late": [_late(late) for late in found.late],
        "without_interval": found.without_interval or None,
    }


def _row(due: Due, waived: str, found: DueList) -> dict[str, Any]:
    told = due_finding(CHECKS.get(due.kind, "due"), due, found.as_of)
    return {
        "verdict": str(due.verdict),
        "severity": str(due.severity),
        "kind": str(due.kind),
        "key": due.key,
        "engine": due.engine or None,
        "subject": due.subject,
        "title": due.title,
        "due_on": _day(due.due_on) or None,
        "estimated": _day(due.estimate) or None,
        "service_days_left": due.left.words if due.left else None,
        "overdue_since": _day(due.since) or None,
        "before_it_runs": due.now,
        "last_done": due.done_on or None,
        "record": due.record or None,
        "told": due.told,
        "cause": due.cause,
        "next": due.next,
        "source": due.source,
        "waived": waived or None,
        "figures": [figure_json(figure) for figure in told.figures],
        "fingerprint": told.fingerprint,
    }


def _counters(one: EngineCounters) -> dict[str, Any]:
    return {
        "engine": one.engine,
        "told_until": _day(one.told_until) or None,
        "year": str(one.year),
        "this_year": one.this_year.words,
        "last_year": one.last_year.words,
        "since": [
            {"title": c.title, "since": c.since, "service_days": c.days.words, "distance": c.miles, "record": c.record}
            for c in one.counters
        ],
    }


def _late(late: Late) -> dict[str, Any]:
    return {
        "kind": str(late.kind),
        "key": late.key,
        "engine": late.engine,
        "subject": late.subject,
        "title": late.title,
        "severity": str(late.severity),
        "done_on": late.done_on.isoformat(),
        "late_by": late.late_by,
        "told": late.told,
        "record": late.record,
        "source": late.source,
    }


def due_ics(found: DueList, *, alarm: int | None) -> str:
    """What is overdue or to be seen to stands on the day of the book; what comes within the months, on its own day."""
    return render_ics(_events(found), found.as_of, alarm=alarm)


def _events(found: DueList) -> Iterator[Event]:
    seen: set[str] = set()
    for row in (*found.overdue, *found.now, *found.coming):
        for due in row.many:
            id = fingerprint_of(due, found.as_of)
            coming = due.day is not None and due.verdict is Verdict.WITHIN and not due.now
            day = due.day if coming and due.day is not None else found.as_of
            if id in seen:
                continue
            seen.add(id)
            yield Event(id, day, _title(due), tuple(_lines(due, found)), str(due.kind))


def _title(due: Due) -> str:
    if due.verdict is Verdict.OUTSIDE:
        since = f" since {due.since}" if due.since else ""
        return f"Overdue{since}: {due.subject}, {due.title}"
    sort = "Estimated: " if due.estimated else "Before it runs: " if due.now else ""
    return f"{sort}{due.subject}, {due.title}"


def _lines(due: Due, found: DueList) -> Iterator[str]:
    yield said(due, found.as_of)
    if due.left is not None:
        yield f"Service days left: {due.left.words}."
    if due.next:
        yield sentence(due.next)
    yield f"By {sentence(due.source)}"
    yield WHO_DECIDES


def due_markdown(report: Report, found: DueList) -> str:
    """The list, the months, the counters and what was late as Markdown."""
    day = f"As of {found.as_of}{f' ({report.day.why})' if report.day.why else ''}."
    parts = [f"# What falls due by {found.until}", "", day, ""]
    parts += [line for one in unread_item(report.findings) for line in (f"**{escaped(one.text)}**", "")]
    if found.overdue or found.now or found.unknown or found.coming:
        parts += _table(("", "when", "what", "why"), (_line(row.first, row.words) for row in found.rows
                                                      if row not in found.later))  # fmt: skip
    elif not found.without_interval:
        parts += ["Nothing falls due by then that the records tell of.", ""]
    parts += [escaped(found.without_interval), ""] if found.without_interval else []
    parts += ["## By month", ""]
    parts += _table(
        ("month", "what"),
        ((m.name, "; ".join(f"{r.first.day}: {r.words}" for r in m.rows) or "nothing") for m in found.months),
    )
    parts += ["## Service days", "", *(f"- {escaped(one.words)}" for one in found.counters), ""]
    parts += ["## Done late in the past", ""]
    parts += [f"- {escaped(f'{o.done_on} {o.subject}: {o.title}, late by {o.late_words}')}" for o in found.late] or [
        "None."
    ]
    return "\n".join([*parts, "", WHO_DECIDES, ""])


def _line(due: Due, words: str) -> tuple[str, ...]:
    state = "overdue" if due.verdict is Verdict.OUTSIDE else str(due.verdict)
    when = "now" if due.now else f"{'about ' if due.estimated else ''}{_day(due.day)}"
    return ("before it runs" if due.now else "coming" if due.verdict is Verdict.WITHIN else state, when, words,
            f"{due.cause}; {due.told}".strip("; "))  # fmt: skip


def _table(heads: tuple[str, ...], rows: Iterator[tuple[str, ...]]) -> list[str]:
    lines = [f"| {' | '.join(heads)} |", f"|{'---|' * len(heads)}"]
    lines += [f"| {' | '.join(escaped(cell) for cell in row)} |" for row in rows]
    return [*lines, ""]
